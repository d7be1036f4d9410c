"""What is seen of a line at once: its walk kept ready, looks, drawings, solids, reasons.     (desk/seen/)"""
