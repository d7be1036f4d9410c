"""What several papers use: tables, numbers, typeface, charts, names of places.     (papers/common/__init__.py)"""
