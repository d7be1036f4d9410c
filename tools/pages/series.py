"""The page of the demonstration series: columns, rules, inputs, limits.     (pages/series.py)"""

from __future__ import annotations

from tools.pages import page, table

from takeup.joints.series.columns import (
    BALANCE_COLUMNS,
    BELLOWS_COLUMNS,
    FILES,
    HOSE_COLUMNS,
    JOINT_COLUMNS,
    MORE_COLUMNS,
    PIN_COLUMNS,
    PROVENANCE,
)
from takeup.joints.series.inputs import inputs_text, series_inputs
from takeup.joints.series.metals import metal_at
from takeup.units import to_bar

_INTRODUCTION = f"""\
# The demonstration series

A series of joints that belongs to nobody, to try the tool on: DN 15 to DN 1000, three pressure classes, several travels
each: single axial joints, externally pressurised ones and universal pairs from DN 50, small-bore compensators up to
DN 65, hinges and in-line pressure balanced joints from DN 50 to DN 300, loops of braided hose from DN 15 to DN 80. It
is **{PROVENANCE}**: sizes, classes, travels, proportions and the price index are invented, nothing of it can be bought,
and no line that will be built rests on it. Every row says so in its last column, every joint loaded from it in its
source, and the command when it makes the tables.

`takeup bellows series --out DIR` makes the tables from `src/takeup/joints/series/inputs.yaml` in about half a
minute, the same bytes each time. They stand in `src/takeup/joints/series/data/` as well; `manifest.csv` there has the
SHA-256 of the inputs and of each table. A table of the same name in DIR is replaced, each whole or not at all; what the
stock cannot do is left out and named. In Python, `takeup.joints.series` has `entries(kind)` and `entry(name)` of
those with a bellows.
"""
_NAMES = """\
## Names

Kind, size, pressure, travel, in words: `axial DN 200, 12 bar, 40 mm`, `pressed from outside DN 200, 12 bar, 50 mm`,
`universal DN 200, 12 bar, 50 mm across`, `small-bore DN 32, 6 bar, 20 mm`, `hinged DN 100, 12 bar, 8 deg`,
`balanced in line DN 100, 6 bar, 20 mm`, `hose loop DN 50, 12 bar, 25 mm`. The travel is the rated compression of axial
joints, the lateral movement that was wanted of a universal, the angle that was wanted of a hinge, the movement of a
hose loop along both ways and across. Each name stands once.
"""
_CLASSES = """\
## Pressure classes

Rated at the pressure and temperature of the class for 1000 cycles, tested at 20 °C at 1.5 times the pressure. Rates of
the tables belong to the rated temperature, as `takeup bellows rate` gives them for the row; cold ones are higher by
E(20 °C)/E. A joint loaded from the tables has the cold rates, because spring forces are greatest then. Hose loops are
rated for 2000 cycles, and their rates stay as they stand.
"""
_MADE = """\
## How a row is made

1. The designer's candidates (`takeup bellows design`, same criteria) from the stock below: those that bear the rated
   pressure at temperature and the test pressure cold by every criterion of ASME VIII-1 Appendix 26, EN 13445-3 clause
   14 and EJMA that the tool has (from memory), within the scope of the codes (three bores long, five plies, 5 mm), with
   a design life by the ASME curve. Pressure of externally pressurised joints is from outside. Stresses in the test are
   held to the code's allowable stress at 20 °C, which is stricter than a test asks.
2. Of those with the travel, the lightest joint. The range of axial joints is the compression and a quarter of it as
   extension at least. A universal has each of five spools tried; e_y of its convolutions is EJMA's universal form with
   K_u, and its two bellows bow as one column of twice the convolutions (EJMA, from memory, medium): elastic, at a
   quarter of the pressure of either.
3. Tangents of half of sqrt(D_b t), collars of that length and as thick as all plies together, thicker where the
   tangents' stresses ask for it. The row is held against every criterion once more.
4. Rates and effective area of each bellows from the shell, between welded ends (`takeup bellows rate`).

**Rated movements.** Each by itself, to one side of the shape as made, at rated pressure, temperature and cycles by the
ASME design life; none beyond the gap between convolutions (common practice, no source). A movement to both sides counts
whole from end to end: compression and extension together are the range of one cycle. Together, movements share one
convolution: add their uses, as the check of joint movement does. Axial 1/10 mm, angular 1/100 degree, rounded down.
Externally pressurised joints and small-bore compensators take axial movement only, hinges only turn.

**Small-bore compensators** are made like externally pressurised joints, their ends threaded.

**Hinges** are single bellows between two plates. Plates and pins are rated for twice the thrust p_test pi/4 D_m² of the
test, up to a whole kilonewton, and sized for it by AISC ASD (from memory) of steel of 235 MPa: pins 0.40 in double
shear and 0.90 of bearing, plates half as thick as their pins and 0.45 net across the hole. Plates stand 10 mm beyond
the crests; pins rub with 0.1 to 0.3 (invented). A hinge is as long as its bellows and two weld ends. How its pins lie
is said in the line.

**Balanced joints** have their line bellows in two equal parts and between them a balancing bellows of as many of the
same convolutions on sqrt(2) times their mean diameter, so that the ring between both is about as large as the line's
area: what the shell's areas leave of the balance, some 1 %, reaches the anchors. The balancing bellows is held to the
same criteria and the same life; across and where it turns the wider of both rules. Of joints up to half heavier than
the lightest the softest is taken, since it is for weak anchors; its balancing rate stands in a column of its own. Two
spools as long as a weld end stand between. Four ties carry 1.25 of what it pulls with in the test, up to a whole
kilonewton, and a tenth of that when they are pushed (invented); rings and ties are weighed.

**Hose loops** are invented from end to end: nothing of a hose is computed. Hose legs hang 2 R apart, R = 3 D, from
elbows of 1.5 D, so that with M the movement

    live length 2 R,  length 2 R + 2 (1.5 D + stub),  drop 1.5 D + (4 M + D) + R, each up to 5 mm
    k_x = 4 N/mm (D/100 mm)² (1 + p/12 bar) 25 mm/M,  k_y = 0.8 k_x,  torsion limit 50 N·m (D/100 mm)³

They weigh as a tube of 2 mm for hose and braid with elbows and ends of pipe; their index is (10 + 6500 D²)
(1 + p/60 bar) (M/25 mm)^½, D in metres.

**Rates of a universal** are of each bellows, as a line file and `takeup bellows rate` have them, and so are its live
length, effective area and torsion limit; its movements, length and weight are of the whole joint. The rates of the
whole joint stand behind: axial half that of each, lateral 6 k/(3 L_u² - 6 L_u L_b + 4 L_b²) with the angular rate k of
each bellows, L_b of each and L_u = centres + L_b over both (beam theory, the same as EJMA's force). Axial movement of a
universal is divided like that of axial joints.

**Torsion limit.** T = 0.25 S pi D_b² n t/2: shear at the root of a quarter of the allowable stress at temperature (thin
tube, first principles; the quarter is common practice, no source). No published limit is known here.

**Parts round the bellows** (invented proportions). Pipe of EN 10220 in P235GH, the first wall that is neither below
EN 253's nor below p D/(2 f + p) + 1 mm, f = 100 MPa. Weld ends of 40 mm + D/10 each, up to 5 mm. Bellows slip over
their ends, D_b = D; externally pressurised ones stand round an inner pipe with a clearance of 3 mm or D/100, in a
housing with the same clearance and a wall in proportion to the pipe's, at least 4 mm, with three rings of twice that
thickness; the housing has room for bellows, range and rings.

**Weight** is geometry times density, 7900 kg/m³ for bellows and collars, 7850 for the rest: convolutions
N s pi D_m n t_p with the true length s of the meridian, tangents, collars, ends, spool, inner pipe, housing, rings.

**Price index** = 6 kg of bellows + 1.5 kg of the rest + 4 n N D_m + 10 m of seams round the pipe (lengths in metres,
invented): metal, forming, welding. It tells cheap from dear within the series and is no price.
"""
_FEEDING = """\
## A row and the rating

The bellows columns and `name`, `material`, `temperature_c` are those of a [bellows file](bellows-file.md): put into a
table of their own, with any movements, `takeup bellows rate` gives the row's rates and effective area to the five
figures printed. `pressure_bar` may stand too; for an externally pressurised joint it is `outside_pressure_bar` there,
with `pressure_bar` 0. Collars count in the published stresses, not in the shell.
"""
_LIMITS = """\
## Limits

- No maker has made, tested or certified any of this. Ends, housings, rings, spools and welds are weights, not designs.
- A universal has no rods here, and the weight of its spool on the bellows is not counted.
- Lives are by the published form's stresses. In three quarters of the rows the shell's surface stress range is higher,
  by 22 % at most: a comparison, which no life counts (`takeup bellows rate` warns).
- Lives are by the ASME curve alone: where it allows 1000 cycles, EN 13445-3's allows 485 at the same stress.
- Vacuum, corrosion of the bellows, vibration and tolerances are not covered. All strengths are from memory.
- Lateral rates of short bellows differ from 12 k/L² of a uniform beam by up to 30 %: they shear. The model takes the
  angular rate and says so.
"""


def series_page() -> str:
    """Return the page."""
    return page(
        _INTRODUCTION,
        _NAMES,
        _CLASSES,
        *table(("class", "pressure", "temperature", "E(20 °C)/E"), _classes()),
        "",
        "## Files and columns",
        "",
        "All files have the same columns in the same order, those of hinges, balanced joints and hose loops some more",
        "before the last; a cell is empty where the kind has no such number.",
        f"Units end the names. Files: {', '.join(f'`{name}`' for name in FILES.values())}.",
        "",
        *table(("column", "meaning"), _columns()),
        "",
        "Of hinges alone:",
        "",
        *table(("column", "meaning"), [(f"`{name}`", words) for name, words in PIN_COLUMNS.items()]),
        "",
        "Of balanced joints alone:",
        "",
        *table(("column", "meaning"), [(f"`{name}`", words) for name, words in BALANCE_COLUMNS.items()]),
        "",
        "Of hose loops alone:",
        "",
        *table(("column", "meaning"), [(f"`{name}`", words) for name, words in HOSE_COLUMNS.items()]),
        "",
        _MADE,
        _FEEDING,
        _LIMITS,
        "## Inputs",
        "",
        "```yaml",
        inputs_text().rstrip("\n"),
        "```",
    )


def _classes() -> list[tuple[str, ...]]:
    inputs = series_inputs()
    found = []
    for one in inputs.classes:
        metal = metal_at(inputs, one.temperature, 1)
        colder = float(metal.cold_modulus[0] / metal.modulus[0])
        found.append((one.word, f"{to_bar(one.pressure):g} bar(g)", f"{one.temperature:g} °C", f"{colder:.3f}"))
    return found


def _columns() -> list[tuple[str, ...]]:
    of_bellows = dict.fromkeys(BELLOWS_COLUMNS, "as in a [bellows file](bellows-file.md)")
    return [(f"`{name}`", words) for name, words in (JOINT_COLUMNS | of_bellows | MORE_COLUMNS).items()]
