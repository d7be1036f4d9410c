"""Bellows from the shell up: stiffness, stress, life, squirm and ratings of U-shaped bellows.     (bellows/__init__.py)"""
