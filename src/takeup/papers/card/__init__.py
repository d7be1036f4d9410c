"""The set-up and inspection card, to be read and filled in on site.     (papers/card/__init__.py)"""
