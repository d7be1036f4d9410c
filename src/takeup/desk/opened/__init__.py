"""The opened file: its text and every change of it, what it says, and what can be put on it.     (desk/opened/)"""
