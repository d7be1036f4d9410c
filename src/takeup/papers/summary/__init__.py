"""A study on a terminal: the summary and the list of holds.     (papers/summary/__init__.py)"""
