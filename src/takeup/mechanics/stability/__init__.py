"""When a frame bows out, and what it does on the way there.     (mechanics/stability/__init__.py)"""
