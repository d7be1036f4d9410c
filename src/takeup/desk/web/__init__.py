"""The server: who may ask, what is asked, and what answers.     (desk/web/)"""
