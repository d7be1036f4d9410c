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
_LIMITS = """\
## Limits

- Rules of thumb, one condition each. They know neither the plant's water nor its upsets, and no mixture of causes.
- Nothing here is a corrosion rate or a life. No time is asked for, where years matter as much as degrees.
- No rule is silent because a metal is proved fit: it is silent because it has nothing to say.
- Not judged: erosion, acids one from another, sour water, amines, hydrogen, sodium, sea water beyond its chlorides,
  food and drinking water law, fire.
"""


def advice_page() -> str:
    """Return the page."""
    return page(
        _INTRODUCTION,
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
