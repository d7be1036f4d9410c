"""The desk: a page on the line, and the server that makes its every number and drawing.     (desk/__init__.py)"""
