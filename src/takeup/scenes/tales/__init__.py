"""The nine scenes, one a file.     (scenes/tales/__init__.py)"""
