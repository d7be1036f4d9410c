"""What the commands on joints and bellows print, and their pictures.     (papers/joints/__init__.py)"""
