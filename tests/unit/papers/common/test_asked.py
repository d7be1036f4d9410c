"""One rule for what is wanted of a joint, in specification and data sheet alike: the duty, rounded to its safe side.

(tests/unit/papers/common/test_asked.py)
"""

from __future__ import annotations

import copy
import io
import re

import pypdf
import pytest
from tests.unit.papers.setting_fixture import limit_rods
from tests.unit.papers.specification.docx_reading import read

from takeup.choose.comparison.labels import LABELS
from takeup.choose.comparison.quantities import BY_QUANTITY
from takeup.edge import SI, US, Units
from takeup.papers.common.asked import Asked, asked_of, wanted_figures, wanted_words
from takeup.papers.common.gathered import joints_of
from takeup.papers.common.joint_measures import measure_of, torque_measure
from takeup.papers.data_sheets.paper import make as data_sheets
from takeup.papers.registry import Options
from takeup.papers.specification.paper import make as specification
from takeup.papers.words import texts


@pytest.fixture(scope="module")
def document() -> dict:
    return limit_rods()


def asked(document: dict, units: Units) -> dict[str, Asked]:
    (joint,) = joints_of(document)
    return {one.of.name: one for one in asked_of(joint, units)}


@pytest.mark.parametrize("units", [SI, US])
def test_specification_and_data_sheet_want_the_same(document, units):
    options = Options(units=units)
    text = read(specification(document, options)["specification.docx"])
    rows = {row[0]: row[1] for row in text.table("property", "J1: wanted")}
    pages = pypdf.PdfReader(io.BytesIO(data_sheets(document, options)["joints.pdf"])).pages
    sheet = re.sub(r"\s+", " ", " ".join(page.extract_text() for page in pages))
    said, labels = texts("en"), LABELS["en"]
    for name, one in asked(document, units).items():
        words, unit = wanted_words(one, said, units), one.measure.unit
        label = f"{labels[name]} [{unit}]" if unit else labels[name]
        assert rows.pop(label) == words
        assert f"{labels[name]} " in sheet
        assert words.replace("\xa0", " ") in sheet
    assert not rows, "and nothing else"


def test_what_is_wanted_is_the_duty_whatever_the_joint_used_is_rated_for(document):
    """A joint of ten times the ratings wants the same: only what is used changes."""
    strong = copy.deepcopy(document)
    data = strong["takeups"][0]["data"]
    for key in ("axial_compression_mm", "axial_extension_mm", "lateral_mm", "pressure_bar", "rated_cycles"):
        data[key] *= 10
    before, after = asked(document, SI), asked(strong, SI)
    for name in ("axial_compression", "axial_extension", "lateral", "pressure", "rated_cycles"):
        assert before[name].want == after[name].want
        assert after[name].used == 10 * before[name].used


@pytest.mark.parametrize("units", [SI, US])
def test_limits_in_print_never_ask_for_less(document, units):
    seen = set()
    for one in asked(document, units).values():
        if one.want.value is None or one.want.side == "as_used":
            continue
        number = float(wanted_figures(one, units).replace("\xa0", "").replace("−", "-"))
        meant = one.measure.number(one.want.value)
        slack = 1e-6 * abs(meant)  # of a printed digit, which the rounding leaves to the noise of computing
        assert number >= meant - slack if one.want.side == "at_least" else number <= meant + slack
        seen.add(one.want.side)
    assert seen == {"at_least", "at_most"}


def test_weights_and_torques_are_written_one_way():
    """9.80665 N is 1 kg (standard gravity) and 2.20462 lb (international pound), whatever the number comes in."""
    weight, torque = BY_QUANTITY["weight"].column, BY_QUANTITY["torsion_limit"].column
    for units, unit, shown in ((SI, "kg", 1.0), (US, "lb", 2.20462)):
        of_results, of_sheet = measure_of(weight, units), measure_of(weight, units, weight_in="kg")
        assert of_results.unit == of_sheet.unit == unit
        assert of_results.number(9.80665) == pytest.approx(shown, rel=2e-6)  # six printed figures
        assert of_sheet.number(1.0) == pytest.approx(shown, rel=2e-6)
        assert measure_of(torque, units) == torque_measure(units)
    assert torque_measure(SI).unit == "N·m"
