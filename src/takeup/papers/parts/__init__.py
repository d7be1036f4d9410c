"""Parts and cost: what is to be bought and made, from the results alone.     (papers/parts/__init__.py)"""
