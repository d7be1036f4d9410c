"""Bellows from the shell up: stiffness, stress, life, squirm and ratings of U-shapes.     (bellows/__init__.py)"""
