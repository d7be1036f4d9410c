"""Model, hand and checks in one document: results.json.     (results/__init__.py)"""

from takeup.results.advice import advice_for, place_for
from takeup.results.build import results_of, write_results
from takeup.results.coverage import COVERAGE, Coverage
from takeup.results.verdict import Verdict, verdict_of

__all__ = ["COVERAGE", "Coverage", "Verdict", "advice_for", "place_for", "results_of", "verdict_of", "write_results"]
