"""`takeup joints select` from outside: sheet and document, exit codes, what is refused."""

from __future__ import annotations

import json

import pytest
from tests.builders import JOINT_DATA, joint
from tests.selection_lines import ROWS, STEADY, choice, line_text, stored

from takeup import __version__, cli

DUTY = """\
takeup_joint_duty: 1
series: demonstration series
kind: any
size: DN 200
pressure: 10 bar(g)
test_pressure: 15 bar(g)
temperature: 184 °C
compression: 30 mm
cycles: 1000
"""
AT = "west end + 1.0 m"


@pytest.fixture
def folder(tmp_path):
    stored(tmp_path, *ROWS)
    return tmp_path


def written(folder, text, name="line.yaml"):
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return str(path)


def document(capsys, *arguments):
    code = cli.run(["joints", "select", *arguments, "--json"])
    return code, json.loads(capsys.readouterr().out)


def test_duty_as_document_and_as_sheet_say_the_same(folder, capsys):
    duty = written(folder, DUTY, "duty.yaml")
    code, said = document(capsys, "--duty", duty)
    assert code == 0
    assert said["tool"] == {"name": "takeup", "version": __version__}
    assert (said["input"]["file"], len(said["input"]["sha256"]), said["rank"]) == ("duty.yaml", 64, "price")
    assert said["counts"]["considered"] == said["counts"]["fit"] + len(said["refused"]) == said["series"]["joints"]
    prices = [one["price_index"] for one in said["fits"]]
    assert prices == sorted(prices)
    assert [one["rank"] for one in said["fits"]] == list(range(1, len(prices) + 1))
    assert all(one["study"] is None and one["size_dn"] == 200 for one in said["fits"])
    assert all(check["use"] <= 1.0 + 1e-9 for one in said["fits"] for check in one["checks"])
    assert all(one["because"] for one in said["refused"])
    assert cli.run(["joints", "select", "--duty", duty]) == 0
    sheet = capsys.readouterr().out
    assert f"{len(prices)} of {said['series']['joints']} joints fit by their data and movements, by price:" in sheet
    assert (said["counts"]["may_fit"], said["counts"]["proved"]) == (said["counts"]["fit"], 0)
    assert f"The first, {said['fits'][0]['joint']}:" in sheet


def test_duty_is_ranked_as_asked(folder, capsys):
    duty = written(folder, DUTY, "duty.yaml")
    for rank, key in (("thrust", "anchor_force_n"), ("length", "length_mm")):
        _, said = document(capsys, "--duty", duty, "--rank", rank)
        values = [one[key] for one in said["fits"]]
        assert values == sorted(values)
        assert len(values) > 1


def test_duty_that_nothing_fits_ends_with_one(folder, capsys):
    """No joint of the series is for 40 bar; the first reason is told with the numbers."""
    text = DUTY.replace("10 bar(g)", "40 bar(g)").replace("15 bar(g)", "60 bar(g)")
    code, said = document(capsys, "--duty", written(folder, text, "duty.yaml"))
    assert (code, said["fits"]) == (1, [])
    reasons = {one["because"].partition(":")[0] for one in said["refused"]}
    assert reasons == {"size", "pressure"}
    assert cli.run(["joints", "select", "--duty", str(folder / "duty.yaml")]) == 1
    assert "No joint of the series fits." in capsys.readouterr().out


def test_duty_says_which_would_fit_drawn_out(folder, capsys):
    """45 mm shorter of 40 rated; drawn out by half of it, 22.5 mm, it is 22.5 mm either way, of which 30 are rated."""
    stored(folder, {"name": "short", "axial_extension_mm": "30"}, {"name": "shorter", "axial_compression_mm": "20"})
    text = DUTY.replace("demonstration series", "trial").replace("compression: 30 mm", "compression: 45 mm")
    code, said = document(capsys, "--duty", written(folder, text, "duty.yaml"))
    assert code == 1
    assert {one["joint"]: one["would_fit_preset"] for one in said["refused"]} == {"short": True, "shorter": False}
    presets = {one["joint"]: one["preset_mm"] for one in said["refused"]}
    assert presets == {"short": pytest.approx(22.5, rel=1e-12), "shorter": None}  # one quotient
    assert cli.run(["joints", "select", "--duty", str(folder / "duty.yaml")]) == 1
    sheet = " ".join(capsys.readouterr().out.split())
    assert (
        "1 would fit if fitted with the preset by the rule, which makes them move alike hot and cold: short; " in sheet
    )
    assert "the first, short, 22.5 mm longer than neutral, drawn out" in sheet
    assert said["places"][0]["preset_by_rule_mm"] == pytest.approx(22.5, rel=1e-12)  # one quotient


def test_preset_by_rule_may_push_together(folder, capsys):
    """Drawn out by 16 mm of 10 rated and never shortened: pushed together by 8 mm it moves 8 mm either way."""
    stored(folder, {"name": "short"})
    text = DUTY.replace("demonstration series", "trial").replace("compression: 30 mm", "extension: 16 mm")
    duty = written(folder, text, "duty.yaml")
    assert document(capsys, "--duty", duty)[1]["refused"][0]["preset_mm"] == pytest.approx(-8.0, rel=1e-12)
    assert cli.run(["joints", "select", "--duty", duty]) == 1
    sheet = " ".join(capsys.readouterr().out.split())
    assert "the first, short, 8 mm shorter than neutral, pushed together" in sheet
    assert "drawn out" not in sheet.partition("would fit")[2].partition("Assumed")[0]


def test_no_vacuum_is_zero_without_a_sign(folder, capsys):
    stored(folder, {"name": "short"})
    duty = written(folder, DUTY.replace("demonstration series", "trial"), "duty.yaml")
    (vacuum,) = [one for one in document(capsys, "--duty", duty)[1]["fits"][0]["checks"] if one["name"] == "vacuum"]
    assert str(vacuum["demand"]) == "0.0"


def test_sheet_says_nothing_twice_and_that_not_all_refusals_are_shown(folder, capsys):
    assert cli.run(["joints", "select", "--duty", written(folder, DUTY, "duty.yaml")]) == 0
    sheet = " ".join(capsys.readouterr().out.split())
    assert sheet.count("stability and stresses of the line are not looked at") == 1
    assert "2 of a reason are shown; all stand in the document (--json)" in sheet


def test_advice_needs_a_medium(folder, capsys):
    duty = written(folder, DUTY, "duty.yaml")
    _, said = document(capsys, "--duty", duty)
    assert said["advice"] == {
        "joint": None, "material": None, "because": "no medium is said: no advice", "items": []
    }  # fmt: skip
    assert cli.run(["joints", "select", "--duty", duty]) == 0
    assert "no medium is said: no advice" in capsys.readouterr().out


def test_advice_is_on_the_first_joint_of_a_duty(folder, capsys):
    """The demonstration series names its metal; steam is no trouble to it, and a duty knows no surroundings."""
    duty = written(folder, DUTY + "medium: steam\n", "duty.yaml")
    _, said = document(capsys, "--duty", duty)
    advice = said["advice"]
    assert (advice["joint"], advice["because"]) == (said["fits"][0]["joint"], None)
    assert advice["material"]
    rules = [one["rule"] for one in advice["items"]]
    assert "material_not_judged" not in rules
    assert any("nothing is said of surroundings" in one["words"] for one in advice["items"])
    assert rules[-1] == "advice_only"
    assert cli.run(["joints", "select", "--duty", duty]) == 0
    assert f"{advice['joint']}, bellows of {advice['material']}" in capsys.readouterr().out


def test_advice_for_a_line_goes_by_the_metal_of_the_series(folder, capsys):
    """Chlorides in the medium of a line and bellows of a 300-series grade: a warning, in the sheet with its reason."""
    stored(folder, {"name": "only", "material": "Alloy 321", "axial_compression_mm": "60", **STEADY})
    traces = choice("J1", AT, "select: yes, traces: [chlorides]")
    line = written(folder, line_text(traces))
    _, said = document(capsys, line, "--takeup", "J1")
    advice = said["advice"]
    assert (advice["joint"], advice["material"]) == ("only", "Alloy 321")
    warned = [one["rule"] for one in advice["items"] if one["level"] == "warning"]
    assert "chlorides_inside" in warned
    assert cli.run(["joints", "select", line, "--takeup", "J1"]) == 0
    assert "warning: " in capsys.readouterr().out


def test_sheet_says_that_a_joint_is_used_above_its_rated_temperature(folder, capsys):
    """184 degC of 300 at the end of the curve; rated to 150."""
    stored(folder, {"name": "only", "temperature_c": "150", "derating_c": "20:1 300:0.8"})
    duty = written(folder, DUTY.replace("demonstration series", "trial"), "duty.yaml")
    assert cli.run(["joints", "select", "--duty", duty]) == 0
    words = "184 of 300 °C, use 0.61, by its derating: above its rated temperature, 150 °C"
    assert words in capsys.readouterr().out


def test_study_of_a_trial_says_what_the_study_of_the_file_says(folder, capsys):
    """More cycles than rated: in the trial too the check of cycles is left to that of movement."""
    row = {"name": "only", "axial_compression_mm": "60", "rated_cycles": "490", "life_exponent": "2"}
    stored(folder, {**row, **STEADY})
    _, said = document(capsys, written(folder, line_text(choice("J1", AT, "select: yes"))), "--takeup", "J1")
    checks = said["fits"][0]["study"]["checks"]
    assert [(one["outcome"], one["use"]) for one in checks if one["rule"] == "joint_cycles"] == [("passes", None)]


def test_count_that_may_fit_does_not_turn_on_the_rank(folder, capsys):
    """The limp one is tried by price and fails; by length another stands first: those that may fit are as many."""
    line = written(folder, line_text(choice("J1", AT, "select: yes")))
    counts = {}
    for rank in ("price", "length", "thrust", "life"):
        counts[rank] = document(capsys, line, "--takeup", "J1", "--rank", rank)[1]["counts"]
    assert len({one["may_fit"] for one in counts.values()}) == 1
    assert all(one["proved"] == 1 for one in counts.values())
    assert counts["price"]["fit"] == counts["price"]["may_fit"] - 1
    assert cli.run(["joints", "select", line, "--takeup", "J1"]) == 0
    sheet = " ".join(capsys.readouterr().out.split())
    assert f"{counts['price']['may_fit']} of 13 joints may fit by their data and movements, by price" in sheet
    assert "the first proved by its study, 2 run until it stood" in sheet


def test_line_file_proves_the_first_by_its_study(folder, capsys):
    line = written(folder, line_text(choice("J1", AT, "select: yes")))
    code, said = document(capsys, line, "--takeup", "J1", "--kind", "single axial")
    assert code == 0
    first, *rest = said["fits"]
    assert (first["joint"], first["study"]["outcome"]) == ("wide", "not proved")  # allowable stresses are not stated
    assert set(first["study"]["anchors_n"]) == {"west end", "east end"}
    assert all(one["study"] is None for one in rest)
    assert said["counts"]["studies_run"] == 2  # the limp one is cheaper, and does not stand
    assert {place["kind"] for place in said["places"]} == {"single axial"}
    assert cli.run(["joints", "select", line, "--takeup", "J1"]) == 0
    assert "The first, wide:" in capsys.readouterr().out


def test_force_that_is_listed_is_that_of_the_study(folder, capsys):
    """Without friction an anchor of a straight line sees thrust and spring alone; the pipe hangs on its guides."""
    line = written(folder, line_text(choice("J1", AT, "select: yes")))
    _, said = document(capsys, line, "--takeup", "J1")
    first = said["fits"][0]
    # N: what bends beside the anchor is a hundredth of the force, at right angles to it
    assert max(first["study"]["anchors_n"].values()) == pytest.approx(first["anchor_force_n"], rel=1e-3)


def test_typed_data_need_a_series(folder, capsys):
    text = line_text(joint("J1", AT, **(JOINT_DATA | {"length": "0.6 m", "live_length": "0.2 m"})))
    line = written(folder, text)
    assert cli.run(["joints", "select", line, "--takeup", "J1"]) == 2
    error = capsys.readouterr().err
    assert "the data of J1 are typed in; say with --series from which series to choose" in error
    code, said = document(capsys, line, "--takeup", "J1", "--series", "trial")
    assert (code, said["fits"][0]["joint"]) == (0, "wide")


def test_series_that_is_asked_for_goes_before_that_of_the_file(folder, capsys):
    line = written(folder, line_text(choice("J1", AT, "select: yes")))
    code, said = document(capsys, line, "--takeup", "J1", "--series", "demonstration series")
    assert said["series"]["name"] == "demonstration series"
    assert code == (0 if said["fits"] else 1)


def test_nothing_fits_a_line_ends_with_one(folder, capsys):
    line = written(folder, line_text(choice("J1", AT, "select: yes"), can_carry="20 kN"))
    code, said = document(capsys, line, "--takeup", "J1")
    assert (code, said["fits"]) == (1, [])
    assert any(one["because"].startswith("anchor and hold capacity: ") for one in said["refused"])
    assert cli.run(["study", line, "--out", str(folder / "out")]) == 1
    assert "J1: no joint of trial fits; of 13:" in capsys.readouterr().err
    assert not (folder / "out").exists()


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("LINE",), "give a line file and --takeup NAME, or --duty DUTY"),
        ((), "give a line file and --takeup NAME, or --duty DUTY"),
        (("LINE", "--takeup", "J1", "--duty", "DUTY"), "give a line file and --takeup NAME, or --duty DUTY"),
        (("--duty", "DUTY", "--series", "trial"), "a duty file says its series and kind itself"),
        (("--duty", "DUTY", "--kind", "universal"), "a duty file says its series and kind itself"),
        (("--duty", "DUTY", "--takeup", "J1"), "a duty file says its series and kind itself"),
        (("LINE", "--takeup", "J2"), "line.yaml: unknown take-up 'J2': did you mean J1?"),
        (("LINE", "--takeup", "Q"), "line.yaml: unknown take-up 'Q': known are J1"),
        (("LINE", "--takeup", "J1", "--series", "trail"), "trail"),
        (("LINE", "--takeup", "J1", "--rank", "weight"), "weight"),
        (("absent.yaml", "--takeup", "J1"), "absent.yaml"),
        (("--duty", "absent.yaml"), "absent.yaml"),
    ],
)
def test_bad_input_ends_with_two(folder, capsys, arguments, words):
    names = {
        "LINE": written(folder, line_text(choice("J1", AT, "select: yes"))),
        "DUTY": written(folder, DUTY, "duty.yaml"),
    }
    assert cli.run(["joints", "select", *(names.get(one, one) for one in arguments)]) == 2
    captured = capsys.readouterr()
    assert words in captured.err
    assert captured.out == ""


def test_unknown_series_of_a_duty_ends_with_two(folder, capsys):
    duty = written(folder, DUTY.replace("demonstration series", "demonstration serie"), "duty.yaml")
    assert cli.run(["joints", "select", "--duty", duty]) == 2
    assert "demonstration series" in capsys.readouterr().err


def test_kind_that_has_no_joint_refuses_all(folder, capsys):
    line = written(folder, line_text(choice("J1", AT, "select: yes")))
    code, said = document(capsys, line, "--takeup", "J1", "--kind", "universal")
    assert (code, said["places"], {one["because"].partition(":")[0] for one in said["refused"]}) == (1, [], {"kind"})
    assert cli.run(["joints", "select", line, "--takeup", "J1", "--kind", "universal"]) == 1
    assert "No joint of the series fits." in capsys.readouterr().out


def test_steady_rows_are_what_the_line_needs():
    """The other tests rest on it: all but the limp one are stiff across."""
    assert [row["name"] for row in ROWS if not STEADY.items() <= row.items()] == ["limp"]
