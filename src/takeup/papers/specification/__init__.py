"""The specification for the joints of a study, as an editable text.     (papers/specification/__init__.py)"""
