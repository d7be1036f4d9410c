"""Every row of the pipe tables against an independent transcription.     (tests/published/test_pipe_sizes.py)

Ours was written in inches from memory of ASME B36.10M; the oracle's tables (fluids 1.3, millimetres) were typed by
others. The two must be equal to the printed hundredth, so the tolerance is only that of binary fractions.
"""

from __future__ import annotations

import fluids.piping
import pytest

from takeup.library import pipe_size, pipe_sizes, schedules, wall_thickness
from takeup.library.tables import rows
from takeup.units import METRES_PER_INCH, to_mm

BINARY = 1e-9  # mm; a double holds 1219.00 to 2e-13
SCHEDULES = ("5", "10", "20", "30", "40", "60", "80", "100", "120", "140", "160", "STD", "XS", "XXS")
SMALLEST_NPS = 0.5


def oracle_rows() -> list[tuple[str, float, float, float]]:
    """Return (schedule, NPS, outside diameter in mm, wall in mm) of the oracle, NPS 1/2 and larger."""
    return [
        (schedule, nps, outside, wall)
        for schedule in SCHEDULES
        for nps, _, outside, wall in zip(*fluids.piping.schedule_lookup[schedule][:4], strict=True)
        if nps >= SMALLEST_NPS
    ]


@pytest.mark.parametrize(("schedule", "nps", "outside", "wall"), oracle_rows())
def test_every_row_of_the_oracle_is_ours(schedule: str, nps: float, outside: float, wall: float):
    """ASME B36.10M as transcribed in fluids 1.3."""
    size = next(size for size in pipe_sizes() if size.nps_inch == nps)
    assert to_mm(size.outside_diameter) == pytest.approx(outside, abs=BINARY)
    assert to_mm(wall_thickness(size, schedule)) == pytest.approx(wall, abs=BINARY)


def test_no_row_of_ours_is_unknown_to_the_oracle():
    ours = {(schedule, size.nps_inch) for size in pipe_sizes() for schedule in schedules(size)}
    assert ours == {(schedule, nps) for schedule, nps, _, _ in oracle_rows()}


def test_inches_and_millimetres_of_a_wall_agree():
    """The standard rounds 25.4 t to 0.01 mm; NPS 1 1/2 XXS is printed 10.15 for 10.16, so 0.011 mm is allowed."""
    for row in rows("pipe_walls.csv"):
        exact = float(row["wall_in"]) * to_mm(METRES_PER_INCH)
        assert float(row["wall_mm"]) == pytest.approx(exact, abs=0.011), row


def test_nps_8_schedule_40_is_219_1_by_8_18():
    """ASME B36.10M, from memory (high): NPS 8 (DN 200) STD is 219.1 x 8.18 mm; exact but for binary fractions."""
    size = pipe_size("NPS 8")
    assert size.dn == "DN 200"
    assert to_mm(size.outside_diameter) == pytest.approx(219.1, abs=BINARY)
    assert to_mm(wall_thickness(size, "STD")) == pytest.approx(8.18, abs=BINARY)
