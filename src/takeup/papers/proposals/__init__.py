"""Proposals of a search side by side, as a PDF and on a terminal.     (papers/proposals/__init__.py)"""
