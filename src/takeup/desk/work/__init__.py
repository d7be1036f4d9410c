"""Work that takes longer than a look, in processes of its own: studies, proposals, papers.     (desk/work/)"""
