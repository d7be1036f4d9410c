"""Pictures: the lines in space in every state, exaggerated, and as GLB for others.     (papers/pictures/__init__.py)"""
