"""The page of the material advice, from its rules and words.     (pages/advice.py)"""

from __future__ import annotations

from tools.pages import page, table

from takeup.joints.advice import ADVICE_ONLY, AROUND, METALS, RULES, TRACES, Metal, Rule

_INTRODUCTION = f"""\
# Material advice

Rules on the metal of a joint for what runs through it, how hot, and what is round it. **{ADVICE_ONLY}**

It decides no verdict.

A warning is about what may break the joint. A note is about what to know, or about what nobody said: what is left out
is never passed over. Each piece of advice gives the rule, the words with the numbers, the reason, the source and
whether the number was read there. "Common practice, no source" means just that; numbers without a source are round.

In Python:

```python
from takeup.joints.advice import Place, advise

place = Place(
    material="316L",
    medium="steam",
    temperature=184.0,  # of the hottest metal, degC
    coldest=-8.0,
    insulated=True,
    traces=frozenset({{"boiler carry-over"}}),
    around=frozenset({{"outdoors"}}),
)
for item in advise(place):
    print(item.level, item.rule, item.words)
```
"""
_IN_A_FILE = """\
## In a line file

A study asks for the advice on every joint, with what the [line file](line-file.md) says and nothing else. A key that is
left out is "not said", never "no": a note then says what was not judged. A metal may be any words; one that the advice
does not know is noted. The advice never changes the verdict.

| what the rules ask for | where it comes from |
| --- | --- |
| metal of the bellows | `bellows: material`, else the series, else `data: bellows_material` |
| metal of the ends | `data: ends_material` |
| medium | `medium` of the line |
| what it holds beside itself | `traces`, `chlorides` of the take-up |
| chlorides in the test water | `test: chlorides`; of a line or zone with a test of its own, that one's |
| what is round the joint | its `surroundings`: `in weather` is `outdoors`; `in ground`, insulated, is wet insulation |
| insulated or not | `insulation` of the line at the joint, or `insulated` among its `surroundings` |
| hottest metal, least pressure | of every state of the study, at the joint |
| coldest | the coldest day, or a colder state |
| lining, liner, ply | `lining` (without one the metal is wetted), `liner: fitted`, `bellows: ply_thickness` |

It is in results.json under `takeups[].advice`, with what it went by under `takeups[].advice_goes_by`, in section 6 of
the calculation, and as one line for each joint with warnings in the summary.

In Python, `takeup.results.advice_for(study, line, takeup)` gives the same.

"""
_LIMITS = """\
## Limits

- Rules of thumb, one condition each. They know neither the plant's water nor its upsets, and no mixture of causes.
- Nothing here is a corrosion rate or a life. No time is asked for, where years matter as much as degrees.
- No rule is silent because a metal is proved fit: it is silent because it has nothing to say.
- A plant's record is not looked at: a study's own states give the hottest and the coldest. A hotter pressure loss that
  was dropped from them is not seen either.
- Words are in degrees Celsius and ppm, in US papers too.
- Not judged: erosion, acids one from another, sour water, amines, hydrogen, sodium, sea water beyond its chlorides,
  food and drinking water law, fire.
"""


def advice_page() -> str:
    """Return the page."""
    return page(
        _INTRODUCTION,
        _IN_A_FILE.rstrip("\n"),
        "",
        "## Rules",
        "",
        "In the order in which they speak, warnings before notes.",
        "",
        *table(("rule", "what"), [(f"[{rule.name}](#{_slug(rule)})", rule.title) for rule in RULES]),
        "",
        *(line for rule in RULES for line in _rule(rule)),
        "## Words for what is in the medium",
        "",
        "None of them means that nothing was said.",
        "",
        *table(("`traces`", "meaning"), [(f"`{word}`", meaning) for word, meaning in TRACES.items()]),
        "",
        "## Words for what is round the joint",
        "",
        *table(("`around`", "meaning"), [(f"`{word}`", meaning) for word, meaning in AROUND.items()]),
        "",
        "## Metals",
        "",
        "Nickel is nominal, from the material standards, from memory.",
        "",
        *table(
            ("name", "other names of its own", "spoken of as", "family", "nickel, %"), [_metal(it) for it in METALS]
        ),
        "",
        _LIMITS.rstrip("\n"),
    )


def _slug(rule: Rule) -> str:
    """Return the anchor of a rule's heading."""
    return f"advice-{rule.name.replace('_', '-')}"


def _rule(rule: Rule) -> list[str]:
    rows = [
        ("what", rule.what),
        ("why", rule.why),
        ("source", rule.source),
        ("status", rule.status),
        ("limits", rule.limits),
    ]
    title = f"{rule.title[0].upper()}{rule.title[1:]}"
    return [f"({_slug(rule)})=", f"### {title}", "", f"Rule `{rule.name}`.", "", *table(("", ""), rows), ""]


def _metal(metal: Metal) -> tuple[str, ...]:
    nickel = f"{metal.nickel:g}" if metal.nickel else "–"
    return metal.name, ", ".join(metal.more_names), metal.grade, metal.family, nickel
