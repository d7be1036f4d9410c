"""Hose loops of a table: as typed in, no area asked, no rate and no life that their maker does not state."""

from __future__ import annotations

import numpy as np
import pytest
from tests.series_builders import JOINT, placed, table_of, table_text_of

from takeup.choose.selection.ranking import anchored, lives
from takeup.choose.selection.screen import screen
from takeup.joints.tables.derate import BY_MAKER, BY_TABLE, HOW, cycles_at, movement_share
from takeup.joints.tables.derated import derated
from takeup.joints.tables.reading import read_table
from takeup.joints.tables.store import import_table, load_table

HOSE = {
    "kind": "braided hose loop",
    "axial_extension_mm": "40",
    "lateral_mm": "40",
    "axial_rate_n_per_mm": "15",
    "lateral_rate_n_per_mm": "12",
    "angular_rate_nm_per_deg": "",
    "torsion_rate_nm_per_deg": "",
    "effective_area_mm2": "",
    "drop_mm": "700",
}
CLOSE = 1e-12  # one product


def test_data_are_as_typed_in_and_the_braid_leaves_no_area():
    data = table_of(HOSE).data(0)
    assert (data.effective_area, data.angular_rate) == (0.0, None)
    assert (data.axial_rate, data.lateral_rate) == pytest.approx((15e3, 12e3), rel=CLOSE)
    assert (data.axial_compression, data.axial_extension, data.lateral) == pytest.approx((0.04, 0.04, 0.04), rel=CLOSE)
    assert data.source.endswith("hangs 700 mm below the middle of its pipe")


def test_rates_are_those_measured_whatever_the_metal():
    """Rates of a bellows of Alloy 321 at 300 degC are raised for the cold by some 10 %; those of a hose are not."""
    metal = {"material": "Alloy 321"}
    assert table_of(HOSE | metal).data(0).axial_rate == pytest.approx(15e3, rel=CLOSE)
    assert table_of(metal).data(0).axial_rate > 1.05 * 200e3


def test_a_table_of_hoses_alone_needs_no_column_of_areas(tmp_path):
    """And reads back from its store as it was."""
    cells = {name: cell for name, cell in (JOINT | HOSE).items() if name != "effective_area_mm2"}
    text = f"{','.join(cells)}\n{','.join(cells.values())}\n"
    (tmp_path / "hoses.csv").write_text(text, encoding="utf-8")
    table = import_table(tmp_path / "hoses.csv", "hoses", tmp_path)
    again = load_table("hoses", tmp_path)
    assert again.data(0) == table.data(0)
    assert again.numbers["drop"].tolist() == pytest.approx([0.7], rel=CLOSE)
    assert again.numbers["effective_area"][0] == 0.0


def test_beside_bellows_its_cell_stays_empty():
    text = table_text_of(HOSE, {})
    table = read_table(text.encode(), "both.csv", series="both").table
    assert table.numbers["effective_area"].tolist() == pytest.approx([0.0, 0.046], rel=CLOSE)


@pytest.mark.parametrize(("cycles", "share"), [(500.0, 1.0), (1000.0, 1.0), (1001.0, 0.0)])
def test_past_its_rated_cycles_nothing_is_left(cycles, share):
    found, how = movement_share(table_of(HOSE), cycles)
    assert found.tolist() == [share]
    assert (HOW[how[0]] == BY_MAKER) is (share == 0.0)


def test_an_exponent_of_the_table_counts_for_a_hose_too():
    """Exponent 2: (1000/4000)^(1/2) = 0.5."""
    found, how = movement_share(table_of(HOSE | {"life_exponent": "2"}), 4000.0)
    assert found.tolist() == pytest.approx([0.5], rel=CLOSE)
    assert HOW[how[0]] == BY_TABLE


def test_life_is_the_rated_one_and_never_more():
    """A bellows that moves through half of its rating lives longer by the rule; a hose not."""
    cycles, how = cycles_at(table_of(HOSE, {}), np.array([0.5, 0.5]))
    assert cycles[0] == 1000.0 < cycles[1]
    assert HOW[how[0]] == BY_MAKER
    assert np.isnan(cycles_at(table_of(HOSE), np.array([1.01]))[0][0])


def test_a_study_holds_it_to_its_own_cycles():
    """The check of cycles is to fail it: its rated cycles do not become those asked, as they do of a bellows."""
    found = derated(table_of(HOSE), 0, 200.0, 4000.0)
    assert (found.data.rated_cycles, found.share) == (1000.0, 1.0)
    assert "for 1000 cycles only; by its maker" in found.words
    assert derated(table_of({}), 0, 200.0, 4000.0).data.rated_cycles == 4000.0


def test_screen_and_order_ask_its_spring_alone():
    """30 mm shorter at 15 N/mm: 450 N on its anchors, no thrust whatever the pressure; 30 of 40 mm are used."""
    found = screen(placed(), table_of(HOSE))
    assert found.fits.tolist() == [True]
    assert found.movement.tolist() == pytest.approx([0.75], rel=1e-9)  # a quotient
    force = anchored(found)
    assert force.force.tolist() == pytest.approx([450.0], rel=1e-9)
    assert force.thrust.tolist() == [0.0]
    assert lives(found)[0].tolist() == [1000.0]
    worn = screen(placed(cycles=2000.0), table_of(HOSE))
    assert "of ratings kept to 0.000 over the cycles, by its maker" in worn.because(0)
    aside = screen(placed(lateral=np.array([0.0, 0.012, 0.0])), table_of(HOSE))
    assert "lateral 12.0 mm of 40.0" in aside.because(0)  # 30/40 + 12/40 = 1.05


def test_without_rated_cycles_none_are_proved():
    found = screen(placed(), table_of(HOSE | {"rated_cycles": ""}))
    assert found.because(0).startswith("cycles: cycles are asked for")
