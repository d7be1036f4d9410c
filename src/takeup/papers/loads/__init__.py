"""The schedule of loads on anchors and guides, with its key plan.     (papers/loads/__init__.py)"""
