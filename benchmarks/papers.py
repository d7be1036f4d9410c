"""All papers of the demonstration from its results, each and together, beside a plain document by typst.

    PYTHONPATH=src OPENBLAS_NUM_THREADS=1 python -m benchmarks.papers     (benchmarks/papers.py)

Aim: 5 s on the clock for the whole set on two quiet cores, imports and catalogue included, the study not. typst works
outside the interpreter's lock, so that two papers are made at once; how long the interpreter alone is busy is what the
set takes with a typst that does nothing, and no number of cores goes below that. The peer is typst itself: a text of as
many pages as the calculation has, without a table or a drawing, to the same standards.
"""

from __future__ import annotations

import time

from takeup.choose import resolve
from takeup.drawing.reading import Results
from takeup.line.reading.reader import read_study
from takeup.results import results_of

PAGES = 25
EXAMPLE = "examples/ketterby-steam-main.yaml"


def plain(pages: int) -> float:
    """Return how long typst takes for so many pages of plain text [s]."""
    import typst

    from takeup.papers.common.glyphs import FONTS

    fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[FONTS])
    page = '#set document(title: [plain])\n#set text(font: "Inter")\n' + "#pagebreak(weak: true)\n".join(
        ["A line. " * 200] * pages
    )
    begin = time.process_time()
    typst.compile(
        page.encode(), font_paths=fonts, ignore_system_fonts=True, format="pdf", pdf_standards=["ua-1", "a-2a"]
    )
    return time.process_time() - begin


def whole(results: Results) -> tuple[float, float, int]:
    """Return how long the whole set takes on the clock and of the processors [s], and how large it is [bytes]."""
    clock, busy = time.perf_counter(), time.process_time()
    from takeup.papers.registry import Options, papers_bytes

    size = sum(map(len, papers_bytes(results, Options()).values()))
    return time.perf_counter() - clock, time.process_time() - busy, size


def main() -> None:
    """Print the times."""
    from pathlib import Path

    results = results_of(resolve(read_study(Path(EXAMPLE))))
    clock, busy, size = whole(results)
    print(f"all papers {clock:.1f} s on the clock (aim 5 s), {busy:.1f} s of the processors, {size / 1e6:.1f} MB")
    from takeup.papers.registry import PAPERS, Options

    for paper in PAPERS:
        start = time.process_time()
        files = paper.made(results, Options())
        print(f"{paper.name:15} {time.process_time() - start:5.2f} s, {len(files)} files")
    peer = plain(PAGES)
    print(f"{PAGES} plain pages {peer:.2f} s: all papers take {busy / peer:.0f} times that")
    print(f"the interpreter alone {without_typst(results):.1f} s")


def without_typst(results: Results) -> float:
    """Return how long the set takes where typst does nothing [s]."""
    import typst

    from takeup.papers.registry import PAPERS, Options

    real, typst.compile_with_warnings = typst.compile_with_warnings, lambda *_, **__: (b"", [])
    start = time.process_time()
    for paper in PAPERS:
        paper.made(results, Options())
    typst.compile_with_warnings = real
    return time.process_time() - start


if __name__ == "__main__":
    main()
