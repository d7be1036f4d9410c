"""A route written once in SI and once in US units is one route: the same numbers to rounding."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from takeup.line import route_of
from takeup.line.reading.reader import study_from_text
from takeup.line.records import Study

SIXTEENTHS_PER_FOOT = 192
METRES_PER_SIXTEENTH = Fraction(254, 160_000)  # 25.4 mm by definition, over 16
NEWTONS_PER_LBF = 4.4482216152605  # by definition
ROUNDING = 1e-13  # relative: a length is two products and a sum, a station a sum of at most nine lengths

HEAD = """\
takeup: 1
project: Twin units
document: {{ number: T-01, revision: A, date: 2026-04-02 }}
basis: {{ code: ASME B31.1, edition: 2020 }}
site: {{ installation: {cold}, coldest: {cold}, hottest: {cold} }}
design: {{ pressure: {design}, temperature: {hot}, vacuum: possible, at_elevation: {zero} }}
operating: {{ pressure: {design}, temperature: {hot}, at_elevation: {zero} }}
test: {{ pressure: {test}, with: water, temperature: {cold}, gauge_elevation: {zero} }}
cycles: [ {{ from: cold, to: operating, count: 1000 }} ]
lines:
  - name: T-1
    medium: air
    pipe: {{ size: NPS 2, schedule: 40, material: ASTM A106 B, bends: {radius} }}
    insulation: none
    route:
      - {{ start: first, at: [{x}, {y}, {z}], as: main anchor, can_carry: {force} }}
"""
WAYS = ("east", "north", "up", "east rising 1 in 100", "north falling 2 %", "bearing 30 deg", "bearing 120 deg", "down")
sixteenths = st.integers(40 * SIXTEENTHS_PER_FOOT // 12, 60 * SIXTEENTHS_PER_FOOT)  # 40 in: room for two bends of 1 ft
legs = st.lists(st.tuples(sixteenths, st.sampled_from(WAYS)), min_size=1, max_size=8)


def metres(length: int) -> str:
    """Return a length in sixteenths of an inch as decimal metres, exactly."""
    value = length * METRES_PER_SIXTEENTH
    return f"{value.numerator * 10**8 // value.denominator / 10**8:.8f} m"


def feet(length: int) -> str:
    """Return the same length in feet, inches and sixteenths."""
    sign, length = ("-", -length) if length < 0 else ("", length)
    whole, rest = divmod(length, SIXTEENTHS_PER_FOOT)
    inches, parts = divmod(rest, 16)
    fraction = f" {parts}/16" if parts else ""
    return f"{sign}{whole} ft {inches}{fraction} in"


def text(route: list[tuple[int, str]], start: tuple[int, int, int], *, us: bool) -> str:
    length = feet if us else metres
    x, y, z = (length(part) for part in start)
    said = (
        {"cold": "50 degF", "hot": "248 degF", "design": "100 psi(g)", "test": "150 psi(g)", "force": "2000 lbf"}
        if us
        else {"cold": "10 °C", "hot": "120 °C", "design": _pa(100), "test": _pa(150), "force": _newtons(2000)}
    )
    text = HEAD.format(x=x, y=y, z=z, zero=length(0), radius=length(96), **said)
    for number, (size, way) in enumerate(route):
        last = number == len(route) - 1
        text += f"      - {{ go: {length(size)} {way}, to: place {number}{', as: main anchor' if last else ''} }}\n"
    return text


def _pa(psi: int) -> str:
    return f"{psi * NEWTONS_PER_LBF / 0.0254**2:.9f} Pa(g)"


def _newtons(lbf: int) -> str:
    return f"{lbf * NEWTONS_PER_LBF:.9f} N"


def forth(route: list[tuple[int, str]]) -> list[tuple[int, str]]:
    """Return the legs without those that run back along the one before."""
    found: list[tuple[int, str]] = []
    for size, way in route:
        if not found or {found[-1][1], way} != {"up", "down"}:
            found.append((size, way))
    return found


def numbers(study: Study) -> list[float]:
    (line,) = study.lines
    route, conditions = route_of(line), study.conditions
    found = [value for leg in line.legs for value in (*leg.direction, leg.length, leg.to.bend_radius or 0.0)]
    found += [float(value) for value in route.points.ravel()] + [float(value) for value in route.corners]
    assert line.start.can_carry is not None
    found += [line.start.can_carry, conditions.design.pressure, conditions.test.pressure]
    return [*found, conditions.design.temperature, study.site.installation]


@settings(max_examples=150)
@given(legs, st.tuples(*[st.integers(-1000, 1000)] * 3))
def test_route_in_two_unit_systems_is_one(route, start):
    """Feet, inches and sixteenths are exact in metres to eight places: 1/16 in is 1.5875 mm."""
    metric, us = (study_from_text(text(forth(route), start, us=units), "x") for units in (False, True))
    for one, other in zip(numbers(metric), numbers(us), strict=True):
        assert abs(one - other) <= ROUNDING * max(1.0, abs(one))


def test_sixteenth_is_exact():
    """By hand: 16 ft 6 1/16 in is 198.0625 in, 5.0307875 m."""
    assert metres(16 * SIXTEENTHS_PER_FOOT + 6 * 16 + 1) == "5.03078750 m"
    assert feet(16 * SIXTEENTHS_PER_FOOT + 6 * 16 + 1) == "16 ft 6 1/16 in"
