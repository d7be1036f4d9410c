"""Model, hand and checks in one document: results.json.     (results/__init__.py)"""

from takeup.results.advice import advice_for, place_for
from takeup.results.build import check_row, results_of, results_of_walk, write_results
from takeup.results.coverage import COVERAGE, Coverage
from takeup.results.verdict import Verdict, verdict_of

__all__ = [
    "COVERAGE",
    "Coverage",
    "Verdict",
    "advice_for",
    "check_row",
    "place_for",
    "results_of",
    "results_of_walk",
    "verdict_of",
    "write_results",
]
