"""Rests, guides, stops, rods and what rubs, walked through steps of load.     (mechanics/contact/__init__.py)"""
