"""What thrust does beyond the first order: stability, swing, bows among guides.   (study/bowing/__init__.py)"""
