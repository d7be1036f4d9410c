"""The right joint for one place, out of series: screened, ranked, proved.     (choose/selection/)"""
