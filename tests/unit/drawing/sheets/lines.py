"""Invented lines that are hard to draw: long, short, with long names, in many scripts. (tests/.../sheets/lines.py)"""

from __future__ import annotations

from tests.unit.drawing.results_fixture import STATES, results

from takeup.drawing.sheets import About, layout_drawing
from takeup.edge import SI
from takeup.papers.words import texts

ABOUT = About(
    project="Ketterby laundry steam main",
    number="K-07",
    revision="A",
    day="2026-05-12",
    tool="takeup 0.0",
    sha256="0123456789abcdef" * 4,
    demonstration="J1: invented.",
    cautions=("Stand clear of joints and anchors while pressure is raised.",),
)
NAMES = (
    "Müllverbrennungsübergabeschacht am nördlichen Ende der alten Straße zum Überlaufbauwerk",
    "蒸汽管道末端固定支架与阀门平台",
    "קו קיטור ראשי",
    '<b>&amp;</b> %%d \\U+0041 {\\P} "quoted"',
    "Anchoranchoranchoranchoranchoranchoranchoranchoranchoranchoranchor",
)


def moved(document: dict) -> dict:
    """Results in which the line moves in one state: east, more and more, so that every figure is another."""
    document["states"][2]["kind"] = "operating"
    document["shapes"] = [
        {
            "state": STATES[2],
            "line": line["name"],
            "displacement_mm": [[0.61 + 0.37 * n, 0.0, 0.0] for n in range(len(line["nodes"]))],
        }
        for line in document["lines"]
    ]
    return document


def long() -> dict:
    """2 km north with an anchor every 100 m, a joint beside each and a guide every 6.5 m or so."""
    holds = [(f"pier {n}", "main anchor", 100.0 * n) for n in range(21)]
    holds += [(f"slide guide at {100 * n + 6.5 * k:g} m", "slide guide", 100.0 * n + 6.5 * k)
              for n in range(20) for k in range(1, 15)]  # fmt: skip
    joints = [(f"J{n + 1}", "externally pressurised", 100.0 * n + 2.5) for n in range(20)]
    return moved(results([(0.0, 0.0, 2.0), (0.0, 2000.0, 2.0)], [], holds, joints))


def winding() -> dict:
    """900 m with corners, some of them close to where a sheet could end."""
    points = [
        (0, 0, 3),
        (320, 0, 3),
        (320, 18, 3),
        (350, 18, 3),
        (350, -40, 3),
        (700, -40, 3),
        (700, -40, 9),
        (810, -40, 9),
    ]
    holds = [("start", "main anchor", 0.0), ("end", "main anchor", 892.0)]
    holds += [(f"A{n}", "intermediate anchor", 60.0 * n) for n in range(1, 15)]
    holds += [(f"slide guide at {9.0 * n + 4:g} m", "slide guide", 9.0 * n + 4.0) for n in range(98)]
    joints = [(f"J{n}", "single axial", 60.0 * n + 2.0) for n in range(14)]
    floats = [tuple(float(x) for x in point) for point in points]
    return moved(results(floats, [305.0] * 6, holds, joints))


def short() -> dict:
    """3 m east between two anchors, with one joint and one guide."""
    holds = [("pump", "main anchor", 0.0), ("tank", "main anchor", 3.0), ("g", "slide guide", 1.0)]
    return moved(results([(0.0, 0.0, 1.0), (3.0, 0.0, 1.0)], [], holds, [("J1", "single axial", 2.0)]))


def named() -> dict:
    """Names that are long, of many scripts, and full of marks that mean something to a writer."""
    holds = [(name, "main anchor", 20.0 * n) for n, name in enumerate(NAMES)]
    holds += [(f"{NAMES[0]} {n}", "slide guide", 20.0 * n + 9.0) for n in range(4)]
    return moved(results([(0.0, 0.0, 1.0), (80.0, 0.0, 1.0)], [], holds, [(NAMES[3], "universal", 10.0)]))


def drawn(document: dict, language="en", units=SI, about=ABOUT):
    """The sheets of results."""
    words = texts(language)
    return layout_drawing(document, about, words, units.marked(words.mark))
