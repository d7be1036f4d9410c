"""The nine scenes on the desk: told, and their lines pushed by hand.     (desk/played/)"""
