"""The joint data sheet: each take-up for its buyer and its maker.     (papers/data_sheets/__init__.py)"""
