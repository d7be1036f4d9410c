"""The calculation: everything a checker needs to do each number again.     (papers/calculation/__init__.py)"""
