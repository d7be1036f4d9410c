from takeup.papers.summary import summary_lines
def write_calculation(r,p): p.write_bytes(b"")
