"""The layout drawing as SVG, DXF and PDF.     (papers/layout/__init__.py)"""
