"""All papers of the demonstration from its results, each and together, beside a plain document by typst.

    PYTHONPATH=src OPENBLAS_NUM_THREADS=1 python -m benchmarks.papers     (benchmarks/papers.py)

Aim: 5 s for the whole set, imports and catalogue included, the study not. The peer is typst itself: a text of as many
pages as the calculation has, without a table or a drawing, to the same standards. Times are of the process alone.
"""

from __future__ import annotations

import time

from takeup.choose import resolve
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


def main() -> None:
    """Print the times."""
    from pathlib import Path

    results = results_of(resolve(read_study(Path(EXAMPLE))))
    begin = time.process_time()
    from takeup.papers.registry import PAPERS, Options

    whole = 0
    for paper in PAPERS:
        start = time.process_time()
        files = paper.made(results, Options())
        whole += sum(map(len, files.values()))
        print(f"{paper.name:15} {time.process_time() - start:5.2f} s, {len(files)} files")
    together, peer = time.process_time() - begin, plain(PAGES)
    print(
        f"all papers {together:.1f} s (aim 5 s), {whole / 1e6:.1f} MB; {together / peer:.0f} times {PAGES} plain pages"
    )


if __name__ == "__main__":
    main()
