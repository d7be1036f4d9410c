"""Every rule of the advice speaks at one place and is silent at its neighbour; what is not said is never passed over.

Thresholds of the table, a place on either side of each as near as its words print. Common practice, no source: 60 degC
(chlorides, caustic), 80 degC (caustic cracking expected), 1, 10 and 50 ppm (chlorides that hardly matter, little, test
water), 550 and 600 degC (carburising), 400 degC (sulphur), 200 and 230 degC (PTFE), -196 degC, -10 degC (EN steels).
Read: 25 degC (cracks over pools, a review of 2011 as quoted by others), 200 and 1000 ppm (304 and 316 in natural water,
the summary of the British Stainless Steel Association), 425 to 815 degC (800 to 1500 degF, abstract of a publication
on intergranular corrosion), 20 percent of nickel (an alloy supplier's note), 500 degC (alloy 625 after 50 000 h, an
abstract of 1994).
From memory: ASME II-D ceilings and its note on alloy 625 (1000 to 1400 degF), ASME VIII-1 Appendix 26 (425 degC), ASM
handbook (870 degC), producers on alloy 825 (540 degC), ASME B31.3 (-20 degF). Zinc melts at 419.5 degC.
"""

from __future__ import annotations

import pytest

from takeup.errors import OutOfRange
from takeup.joints.advice import (
    ADVICE_ONLY,
    AROUND,
    METALS,
    NOTHING,
    RULES,
    TRACES,
    Place,
    advise,
    metal_of,
)
from takeup.library import UnknownName, material, materials, tables_for

BY_NAME = {rule.name: rule for rule in RULES}
QUIET = {
    "material": "316L",
    "medium": "water",
    "temperature": 50.0,
    "coldest": 5.0,
    "insulated": False,
    "traces": frozenset({NOTHING}),
    "around": frozenset({NOTHING}),
    "test_water_chlorides_ppm": 20.0,
}


def place(**changes):
    """Return the quiet place with changes; sets may be given as text parted by commas."""
    for key in ("traces", "around"):
        if isinstance(changes.get(key), str):
            changes[key] = frozenset(word.strip() for word in changes[key].split(",") if word.strip())
    return Place(**QUIET | changes)


def case(rule, level, words, speaks, silent):
    """Return one row of the table."""
    return pytest.param(rule, level, words, speaks, silent, id=f"{rule}: {words}")


SALT = {"traces": "chlorides"}
PTFE = {"lining": "PTFE", "least_pressure": 0.0}
CASES = [
    case("steel_that_rusts", "warning", "P235GH", {"material": "P235GH"}, {"material": "304"}),
    case("steel_that_rusts", "warning", "P22", {"material": "P22"}, {"ends": "P22", "material": "321"}),
    case("chlorides_inside", "warning", "60.1 degC", SALT | {"temperature": 60.1}, SALT | {"temperature": 60.0}),
    case(
        "chlorides_inside",
        "warning",
        "321",
        SALT | {"temperature": 90.0, "material": "321"},
        SALT | {"temperature": 90.0, "material": "625"},
    ),
    case(
        "chlorides_inside",
        "note",
        "where water condenses",
        SALT | {"temperature": 90.0, "medium": "air"},
        SALT | {"temperature": 90.0, "medium": "air", "material": "825"},
    ),
    case(
        "chlorides_inside",
        "note",
        "1.1 ppm",
        {"temperature": 90.0, "chlorides_ppm": 1.1},
        {"temperature": 90.0, "chlorides_ppm": 1.0},
    ),
    case(
        "chlorides_inside",
        "note",
        "10 ppm of chlorides",
        {"temperature": 90.0, "chlorides_ppm": 10.0},
        {"temperature": 60.0, "chlorides_ppm": 10.0},
    ),
    case(
        "chlorides_inside",
        "warning",
        "10.1 ppm",
        {"temperature": 90.0, "chlorides_ppm": 10.1},
        {"temperature": 90.0, "chlorides_ppm": 10.1} | PTFE,
    ),
    case(
        "chlorides_outside",
        "warning",
        "sea air",
        {"around": "sea air", "temperature": 60.1},
        {"around": "sea air", "temperature": 60.0},
    ),
    case(
        "chlorides_outside",
        "warning",
        "insulation in the rain",
        {"around": "outdoors", "temperature": 184.0, "insulated": True},
        {"around": "outdoors", "temperature": 184.0, "insulated": False},
    ),
    case(
        "chlorides_outside",
        "warning",
        "wet insulation",
        {"around": "wet insulation", "temperature": 184.0},
        {"around": "wet insulation", "temperature": 184.0, "material": "825"},
    ),
    case(
        "chlorides_outside",
        "warning",
        "chlorides and wet insulation",
        {"around": "wet insulation, chlorides", "temperature": 90.0},
        {"around": "wet insulation, chlorides", "temperature": 50.0},
    ),
    case(
        "chlorides_outside",
        "warning",
        "swimming pool air",
        {"around": "swimming pool air", "temperature": 25.1},
        {"around": "swimming pool air", "temperature": 25.0},
    ),
    case(
        "pitting_chlorides",
        "warning",
        "201 ppm",
        {"material": "304", "chlorides_ppm": 201.0},
        {"material": "304", "chlorides_ppm": 200.0},
    ),
    case("pitting_chlorides", "warning", "above 1000 ppm", {"chlorides_ppm": 1001.0}, {"chlorides_ppm": 1000.0}),
    case(
        "pitting_chlorides",
        "warning",
        "321 in condensate",
        {"material": "321", "chlorides_ppm": 300.0, "medium": "condensate"},
        {"material": "321", "chlorides_ppm": 300.0, "medium": "steam"},
    ),
    case(
        "pitting_chlorine",
        "warning",
        "without molybdenum",
        {"material": "304L", "traces": "chlorine"},
        {"material": "625", "traces": "chlorine"},
    ),
    case("pitting_chlorine", "note", "316L", {"traces": "chlorine"}, {"traces": NOTHING}),
    case("test_water", "warning", "51 ppm", {"test_water_chlorides_ppm": 51.0}, {"test_water_chlorides_ppm": 50.0}),
    case(
        "test_water",
        "note",
        "are not said",
        {"test_water_chlorides_ppm": None},
        {"test_water_chlorides_ppm": None, "material": "625"},
    ),
    case("test_water", "note", "316L", {"test_water_chlorides_ppm": None}, {"test_water_chlorides_ppm": None} | PTFE),
    case("condensate_in_convolutions", "note", "thin ply", {"medium": "steam"}, {"medium": "nitrogen"}),
    case(
        "condensate_in_convolutions",
        "note",
        "0.3 mm",
        {"medium": "condensate", "ply": 0.3e-3},
        {"medium": "condensate", "ply": 0.3e-3, "material": "825"},
    ),
    case(
        "caustic",
        "note",
        "60.1 degC",
        {"traces": "caustic", "temperature": 60.1},
        {"traces": "caustic", "temperature": 60.0},
    ),
    case(
        "caustic",
        "warning",
        "above 80 degC",
        {"traces": "caustic", "temperature": 80.1},
        {"traces": "caustic", "temperature": 80.1, "material": "Alloy 600"},
    ),
    case(
        "caustic",
        "note",
        "625",
        {"traces": "caustic", "temperature": 90.0, "material": "625"},
        {"traces": "caustic", "temperature": 300.0, "material": "400"},
    ),
    case(
        "caustic",
        "note",
        "301 degC",
        {"traces": "caustic", "temperature": 301.0, "material": "400"},
        {"traces": "caustic", "temperature": 300.0, "material": "400"},
    ),
    case(
        "boiler_carry_over",
        "warning",
        "184 degC",
        {"traces": "boiler carry-over", "temperature": 184.0, "medium": "steam"},
        {"traces": "boiler carry-over", "temperature": 184.0, "medium": "steam", "material": "625"},
    ),
    case(
        "boiler_carry_over",
        "warning",
        "80.1 degC",
        {"traces": "boiler carry-over", "temperature": 80.1, "medium": "condensate"},
        {"traces": "boiler carry-over", "temperature": 80.0, "medium": "condensate"},
    ),
    case(
        "sensitised_in_service",
        "warning",
        "425 degC",
        {"material": "304", "temperature": 425.0},
        {"material": "304", "temperature": 424.0},
    ),
    case(
        "sensitised_in_service",
        "warning",
        "815 degC",
        {"material": "316", "temperature": 815.0},
        {"material": "316", "temperature": 816.0},
    ),
    case(
        "sensitised_in_service",
        "note",
        "low carbon delays",
        {"material": "316L", "temperature": 500.0},
        {"material": "347", "temperature": 500.0},
    ),
    case("sensitised_by_welds", "note", "304L", SALT | {"material": "304"}, SALT | {"material": "304L"}),
    case(
        "sensitised_by_welds", "note", "316L", SALT | {"material": "316"}, SALT | {"material": "316", "medium": "air"}
    ),
    case(
        "temperature_ceiling",
        "warning",
        "ceiling of 815 degC",
        {"material": "321", "temperature": 816.0},
        {"material": "321", "temperature": 815.0},
    ),
    case(
        "temperature_ceiling",
        "warning",
        "ceiling of 425 degC",
        {"material": "316L", "temperature": 426.0},
        {"material": "316L", "temperature": 425.0},
    ),
    case(
        "temperature_ceiling",
        "warning",
        "ceiling of 480 degC",
        {"material": "400", "temperature": 481.0},
        {"material": "400", "temperature": 480.0},
    ),
    case(
        "temperature_ceiling",
        "warning",
        "ceiling of 645 degC",
        {"material": "Alloy 600", "temperature": 646.0},
        {"material": "Alloy 800", "temperature": 646.0},
    ),
    case(
        "temperature_ceiling",
        "warning",
        "ceiling of 535 degC",
        {"material": "825", "temperature": 536.0},
        {"material": "825", "temperature": 535.0},
    ),
    case("life_above_creep", "note", "426 degC", {"temperature": 426.0}, {"temperature": 425.0}),
    case(
        "alloy_625_ageing",
        "warning",
        "538 degC",
        {"material": "625", "temperature": 538.0},
        {"material": "625", "temperature": 499.0},
    ),
    case(
        "alloy_625_ageing",
        "note",
        "50 000 h",
        {"material": "625", "temperature": 537.0},
        {"material": "625", "temperature": 761.0},
    ),
    case(
        "alloy_625_ageing",
        "note",
        "500 degC",
        {"material": "625", "temperature": 500.0},
        {"material": "321", "temperature": 500.0},
    ),
    case(
        "alloy_625_ageing",
        "warning",
        "760 degC",
        {"material": "625", "temperature": 760.0},
        {"material": "825", "temperature": 760.0},
    ),
    case(
        "alloy_825_embrittling",
        "warning",
        "541 degC",
        {"material": "825", "temperature": 541.0},
        {"material": "825", "temperature": 540.0},
    ),
    case(
        "carburising_gas",
        "warning",
        "551 degC",
        {"material": "321", "temperature": 551.0, "traces": "carburising gas"},
        {"material": "321", "temperature": 550.0, "traces": "carburising gas"},
    ),
    case(
        "carburising_gas",
        "note",
        "601 degC",
        {"material": "800", "temperature": 601.0, "traces": "carburising gas"},
        {"material": "800", "temperature": 600.0, "traces": "carburising gas"},
    ),
    case(
        "sulphur_and_nickel",
        "warning",
        "401 degC",
        {"material": "625", "temperature": 401.0, "traces": "sulphur"},
        {"material": "625", "temperature": 400.0, "traces": "sulphur"},
    ),
    case(
        "sulphur_and_nickel",
        "warning",
        "32 percent",
        {"material": "800", "temperature": 500.0, "traces": "sulphur"},
        {"material": "321", "temperature": 500.0, "traces": "sulphur"},
    ),
    case("scaling", "warning", "871 degC", {"material": "347", "temperature": 871.0}, {"temperature": 870.0}),
    case("zinc", "warning", "melts", {"around": "zinc", "temperature": 420.0}, {"temperature": 420.0}),
    case(
        "zinc",
        "note",
        "419 degC",
        {"around": "zinc", "temperature": 419.0},
        {"around": "zinc", "temperature": 419.0, "material": "P235GH"},
    ),
    case("mercury", "warning", "400", {"traces": "mercury", "material": "400"}, {"traces": "mercury"}),
    case("mercury", "warning", "copper", {"traces": "mercury", "material": "copper"}, {"material": "copper"}),
    case(
        "ammonia_on_copper", "warning", "ends of brass", {"ends": "brass", "around": "ammonia"}, {"around": "ammonia"}
    ),
    case(
        "ammonia_on_copper",
        "warning",
        "bellows of copper and ends of bronze",
        {"material": "copper", "ends": "bronze", "traces": "ammonia"},
        {"material": "copper", "ends": "bronze"},
    ),
    case("acid_on_metal", "warning", "316L", {"traces": "acid"}, {"traces": "acid"} | PTFE),
    case("acid_on_metal", "warning", "a bare bellows", {"traces": "acid", "material": None}, {"material": None}),
    case("lining_temperature", "warning", "201 degC", PTFE | {"temperature": 201.0}, PTFE | {"temperature": 200.0}),
    case("lining_temperature", "warning", "only with", PTFE | {"temperature": 230.0}, {"temperature": 230.0}),
    case("lining_temperature", "warning", "Not usable", PTFE | {"temperature": 231.0}, {"temperature": 231.0}),
    case("lining_vacuum", "warning", "-0.5 bar(g)", PTFE | {"least_pressure": -50e3}, PTFE),
    case("lining_vacuum", "note", "not said", PTFE | {"least_pressure": None}, {"least_pressure": None}),
    case("lining_and_liner", "warning", "liner of metal", PTFE | {"liner": True}, {"liner": True}),
    case("lining_and_liner", "warning", "Leave the liner out", PTFE | {"liner": True}, PTFE | {"liner": False}),
    case("lining_permeation", "note", "acid", PTFE | {"traces": "acid"}, {"traces": "acid"}),
    case("lining_permeation", "note", "the metal behind", PTFE | SALT | {"material": None}, PTFE | {"material": None}),
    case("cold_bellows", "warning", "-197 degC", {"coldest": -197.0}, {"coldest": -196.0}),
    case("cold_bellows", "warning", "625", {"coldest": -273.0, "material": "625"}, {"coldest": -40.0}),
    case(
        "cold_ends",
        "warning",
        "-30 degC",
        {"coldest": -30.0, "ends": "ASTM A106 B"},
        {"coldest": -29.0, "ends": "ASTM A106 B"},
    ),
    case(
        "cold_ends", "warning", "-11 degC", {"coldest": -11.0, "ends": "P235GH"}, {"coldest": -10.0, "ends": "P235GH"}
    ),
    case("cold_ends", "warning", "P11", {"coldest": -60.0, "ends": "P11"}, {"coldest": -60.0, "ends": "304L"}),
    case("material_not_judged", "note", "not said", {"material": None}, {"material": "bronze"}),
    case("material_not_judged", "note", "'unobtainium'", {"material": "unobtainium"}, {"material": "S34700"}),
    case("ends_not_judged", "note", "'oak'", {"ends": "oak"}, {"ends": None}),
    case("medium_not_known", "note", "'brine'", {"medium": "brine"}, {"medium": "thermal oil"}),
    case("traces_not_said", "note", "steam", {"traces": "", "medium": "steam"}, {"traces": NOTHING}),
    case("surroundings_not_said", "note", "surroundings", {"around": ""}, {"around": "outdoors"}),
    case(
        "insulation_not_said",
        "note",
        "61 degC",
        {"insulated": None, "around": "outdoors", "temperature": 61.0},
        {"insulated": None, "around": "outdoors", "temperature": 60.0},
    ),
    case("traces_not_judged", "note", "amine and wet", {"traces": "amine, wet hydrogen sulphide"}, {"traces": "acid"}),
]


@pytest.mark.parametrize(("rule", "level", "words", "speaks", "silent"), CASES)
def test_rule_speaks_at_one_place_and_not_at_its_neighbour(rule, level, words, speaks, silent):
    """Where each threshold comes from stands in the header of this file."""
    [said] = [item for item in advise(place(**speaks)) if item.rule == rule]
    assert said.level == level
    assert words in said.words
    assert (said.title, said.reason, said.source) == (BY_NAME[rule].title, BY_NAME[rule].why, BY_NAME[rule].source)
    assert rule not in {item.rule for item in advise(place(**silent))}


@pytest.mark.parametrize(
    ("material_name", "degf"),
    [
        *(("304", 1500), ("316", 1500), ("321", 1500), ("347", 1500), ("800", 1500)),
        *(("600", 1200), ("625", 1200), ("400", 900), ("825", 1000), ("copper", 400)),
        *(("304L", 800), ("316L", 800)),
    ],
)
def test_ceiling_of_a_metal_is_the_last_row_of_its_code(material_name, degf):
    """ASME II-D (copper: B31.1; low carbon: common practice), degF, from memory; to 5 K, as far as it is rounded."""
    last = (degf - 32) / 1.8
    for temperature, above in ((last - 5.0, False), (last + 0.1, True)):
        rules = {item.rule for item in advise(place(material=material_name, temperature=temperature))}
        assert ("temperature_ceiling" in rules) == above


@pytest.mark.parametrize(
    ("ends", "least"), [("A106 B", -29.0), ("P11", -29.0), ("P22", -29.0), ("P235GH", -10.0), ("P265GH", -10.0)]
)
def test_cold_end_of_every_ferritic_steel(ends, least):
    """-20 degF = -28.9 degC by ASME B31.3 from memory, rounded; EN steels common practice, no source."""
    for coldest, below in ((least - 0.1, True), (least, False)):
        assert ("cold_ends" in {item.rule for item in advise(place(ends=ends, coldest=coldest))}) == below


def test_every_rule_is_in_the_table_and_the_table_has_no_other():
    assert {row.values[0] for row in CASES} == set(BY_NAME)
    assert len(BY_NAME) == len(RULES)


def test_rule_says_what_why_source_status_and_limits():
    for rule in RULES:
        assert all((rule.name, rule.title, rule.what, rule.why, rule.source, rule.limits)), rule.name
        assert rule.status in ("read", "from memory")


def test_words_are_one_paragraph_without_gaps():
    """The pieces of a sentence stand on several lines of the code; a lost or doubled space would show here."""
    for row in CASES:
        for item in advise(place(**row.values[3])):
            for text in (item.words, item.reason, item.source):
                assert "  " not in text
                assert "\n" not in text
                assert not any(f"{mark}{letter}" in text for mark in ",;" for letter in "abcdefghijklmnopqrstuvwxyz")


def test_quiet_place_has_only_the_note_that_advice_is_no_proof():
    [only] = advise(place())
    assert (only.rule, only.level) == ("advice_only", "note")
    assert only.words == f"None of {len(RULES)} rules warns. {ADVICE_ONLY}"
    assert "corrosion engineer" in only.words


def test_nothing_said_is_said():
    """Of a joint of which nobody says anything, material, traces and surroundings are noted to be missing."""
    found = advise(Place(material=None, medium="steam", temperature=184.0, coldest=-8.0))
    assert [item.rule for item in found] == [
        "material_not_judged",
        "traces_not_said",
        "surroundings_not_said",
        "advice_only",
    ]


def test_warnings_come_first_in_the_order_of_the_rules():
    found = advise(
        place(
            material="304", medium="steam", temperature=184.0, traces="boiler carry-over, chlorides", around="sea air"
        )
    )
    levels = [item.level for item in found]
    assert levels == sorted(levels, reverse=True)  # "warning" sorts after "note"
    order = [rule.name for rule in RULES]
    for level in ("warning", "note"):
        numbers = [order.index(item.rule) for item in found if item.level == level and item.rule != "advice_only"]
        assert numbers == sorted(numbers)
    assert found[-1].words.startswith(f"3 of {len(RULES)} rules warn.")


@pytest.mark.parametrize("name", materials())
def test_every_material_of_the_library_is_known_to_the_advice(name):
    """By the density too: the ferritic steels alone have 7850 kg/m3 in the library."""
    metal = metal_of(name)
    assert metal is not None
    density = material(name, expansion_table=tables_for(name)[0]).density
    assert (density == 7850) == (metal.family in ("carbon steel", "low-alloy steel"))


@pytest.mark.parametrize(
    ("words", "grade"),
    [("tp316l", "316L"), ("1.4541", "321"), ("X2CrNiMo17-12-2", "316L"), ("N06600", "600"), ("1.4550", "347")],
)
def test_metal_is_found_by_its_other_names(words, grade):
    """Numbers and names of the same steels by EN 10088-1 and UNS, from memory."""
    found = metal_of(words)
    assert found is not None
    assert found.grade == grade


def test_names_of_metals_are_each_one_metal():
    names = [name for metal in METALS for name in (metal.name, *metal.more_names)]
    assert len(names) == len(set(names))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"coldest": 51.0}, "between 51 and 50 degC"),
        ({"coldest": -273.15}, "above -273.15 degC"),
        ({"temperature": float("nan")}, "nan"),
        ({"temperature": float("inf")}, "inf"),
        ({"chlorides_ppm": -1.0}, "-1 ppm"),
        ({"test_water_chlorides_ppm": float("nan")}, "nan ppm"),
        ({"ply": 0.0}, "0 m"),
        ({"traces": f"{NOTHING}, acid"}, "beside acid"),
        ({"around": f"{NOTHING}, zinc"}, "beside zinc"),
    ],
)
def test_place_that_cannot_be_is_refused(changes, words):
    with pytest.raises(OutOfRange, match=words.replace("(", r"\(")):
        place(**changes)


@pytest.mark.parametrize(("key", "known"), [("traces", TRACES), ("around", AROUND)])
def test_word_that_is_not_known_is_refused_with_the_nearest(key, known):
    with pytest.raises(UnknownName) as refused:
        place(**{key: "chloride" if key == "traces" else "sea airs"})
    assert refused.value.known[0] == ("chlorides" if key == "traces" else "sea air")
    assert set(refused.value.known) == set(known)
