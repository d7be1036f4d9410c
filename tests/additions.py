"""What a line file of tests/builders.py may have on top: things in its route, a second line that leaves it."""

from __future__ import annotations

DN150 = "{ size: DN 150, wall: 7.11 mm, material: ASTM A106 B }"


def between(text: str, leg: str, *items: str) -> str:
    """Return a text with items in its route after a leg.

    Args:
        text: made by `line_file`.
        leg: as it was given there.
        items: each the keys of one item.
    """
    after = f"      - {{ go: {leg} }}\n"
    assert after in text
    return text.replace(after, after + "".join(f"      - {{ {item} }}\n" for item in items))


def with_branch(text: str, *, at: str, way: str = "6 m north", takeups: tuple[str, ...] = ()) -> str:
    """Return a text with a second line, T-2 of DN 150, that leaves the first and ends in an anchor.

    Args:
        text: made by `line_file`.
        at: where on T-1.
        way: its only leg.
        takeups: made by `joint`.
    """
    lines = [
        "  - name: T-2",
        "    medium: steam",
        f"    pipe: {DN150}",
        "    insulation: none",
        "    route:",
        f"      - {{ start: branch, as: branch, of: T-1, at: {at}, tee: welding tee }}",
        f"      - {{ go: {way}, to: branch end, as: main anchor }}",
    ]
    lines += ["    takeups:", *(f"      - {item}" for item in takeups)] if takeups else []
    return text + "\n".join([*lines, ""])
