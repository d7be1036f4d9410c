"""What holds for every test: fixed seeds, and no skip where everything must run.     (tests/conftest.py)

What a machine lacks (a browser, a PDF rasteriser, another solver) is skipped, one line each at the end of the run.
Under TAKEUP_ALL=1 such a skip fails, so that nothing can go untested unseen.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Generator

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as the commands do, before numpy is there: see cli/__init__.py

import hypothesis
import pytest

hypothesis.settings.register_profile("house", derandomize=True, deadline=None)  # a shared machine stalls at times
hypothesis.settings.load_profile("house")

EVERYTHING = os.environ.get("TAKEUP_ALL") == "1"


def forbid_skip(report: pytest.TestReport | pytest.CollectReport) -> None:
    """Turn a skip into a failure, where everything must run; an expected failure is left alone."""
    if EVERYTHING and report.skipped and not hasattr(report, "wasxfail"):
        reason = report.longrepr[2] if isinstance(report.longrepr, tuple) else report.longrepr
        report.outcome = "failed"
        report.longrepr = f"{report.nodeid}: skipped under TAKEUP_ALL=1: {reason}"


@pytest.fixture(scope="session", autouse=True)
def results_are_shared(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Name the folder in which the processes of one run share results."""
    if "PYTEST_XDIST_WORKER" in os.environ and (shared := sys.modules.get("tests.shared")):
        shared.folder = tmp_path_factory.getbasetemp().parent


def pytest_runtest_setup(item: pytest.Item) -> None:
    """Let no kept answer reach a test that changes the program, nor leave one."""
    if builders := sys.modules.get("tests.builders"):
        builders.answers_are_kept = "monkeypatch" not in getattr(item, "fixturenames", ())


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Look at the outcome of each test."""
    report = yield
    forbid_skip(report)
    return report


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report() -> Generator[None, pytest.CollectReport, pytest.CollectReport]:
    """Look at the outcome of reading each test file: it may skip as a whole."""
    report = yield
    forbid_skip(report)
    return report
