"""Data sheets of joints that their maker has filled in.     (choose/comparison/forms.py)

A form is a sheet of a workbook with the heads "Quantity" and "As certified" in one row, in any language of `labels.py`,
wherever that row stands; below it a quantity a row, to the first row without one. The joint's tag and the number of the
certificate stand behind their labels, anywhere on the sheet. A unit may be another than was printed, as long as it is
one of a table of joints. A form becomes a table of one row, so that from there on it is read as every other sheet of
certified values; one in which no box is filled in certifies nothing and is left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from takeup.choose.comparison.labels import HEADS, LABELS, NAMES, ROLES, UNIT_WORDS, plain
from takeup.choose.comparison.quantities import BY_QUANTITY
from takeup.joints.tables.cells import Cells, Place
from takeup.joints.tables.measures import SUFFIXES
from takeup.joints.tables.workbook import Page, letters_of
from takeup.reading.faultlist import FaultList
from takeup.reading.fields import nearest
from takeup.reading.sheet import quoted

_NEEDED = ("quantity", "certified", "unit")


@dataclass(frozen=True, kw_only=True, slots=True)
class _Form:
    """A data sheet: the page, the row of its heads, and the column of each, all counted from nought."""

    page: Page
    head: int
    columns: Mapping[str, int]

    def word(self, row: int, role: str) -> str:
        """Return what stands in a row under a head; "" past the end of the row."""
        cells = self.page.words[row]
        return cells[self.columns[role]] if self.columns[role] < len(cells) else ""

    def place(self, row: int, role: str) -> Place:
        """Return where that is, counted from one."""
        return row + 1, self.columns[role] + 1

    @property
    def rows(self) -> Iterator[int]:
        """The rows under its heads, as far as they name something."""
        for row in range(self.head + 1, len(self.page.words)):
            if not self.word(row, "quantity"):
                return
            yield row


def form_cells(pages: Sequence[Page], file: str, faults: FaultList) -> tuple[Cells, ...] | None:
    """Return what every filled-in data sheet of a workbook certifies, a row each; None where it holds no data sheet.

    Args:
        pages: the sheets of the workbook.
        file: as faults name it.
        faults: where they go; also that no box of any sheet is filled in.
    """
    forms = [form for page in pages if (form := _form(page)) is not None]
    if not forms:
        return None
    filled = [form for form in forms if any(form.word(row, "certified") for row in form.rows)]
    if not filled:
        for form in forms:
            _note_empty(form, faults)
    return tuple(_cells(form, file, faults) for form in filled)


def _form(page: Page) -> _Form | None:
    """Return a page as a form; None where no row has the heads."""
    for number, row in enumerate(page.words):
        found: dict[str, int] = {}
        for column, words in enumerate(row):
            role = ROLES.get(plain(words)) if words else None
            if role is not None:
                found.setdefault(role, column)
        if set(_NEEDED) <= set(found):
            return _Form(page=page, head=number, columns=found)
    return None


def _note_empty(form: _Form, faults: FaultList) -> None:
    """Note that nothing is filled in, and name the boxes."""
    place = form.place(form.head, "certified")
    boxes = [
        f"{quoted(form.word(row, 'quantity'))} ({letters_of(form.columns['certified'] + 1)}{row + 1})"
        for row in form.rows
    ]
    said = quoted(form.word(form.head, "certified"))
    tag, _ = _after(form, "tag")
    whose = f" of {quoted(tag)}" if tag else ""
    words = f"no box{whose} under {said} is filled in: {', '.join(boxes)}; one value at least certifies a joint"
    faults.add(*place, form.page.called(place) + words)


def _after(form: _Form, role: str) -> tuple[str, Place]:
    """Return what stands behind a label, the next cell of its row that says something, and where; "" where nothing."""
    for number, row in enumerate(form.page.words[: form.head]):
        for column, words in enumerate(row):
            if words and ROLES.get(plain(words)) == role:
                for behind in range(column + 1, len(row)):
                    if row[behind]:
                        return row[behind], (number + 1, behind + 1)
                return "", (number + 1, column + 1)
    return "", form.place(form.head, "quantity")


def _cells(form: _Form, file: str, faults: FaultList) -> Cells:
    """Return a form as a table of one row: the tag, the certificate, and every box that is filled in."""
    tag, tag_place = _after(form, "tag")
    if not tag:
        heads = " or ".join(quoted(heads["tag"]) for heads in HEADS.values())
        faults.add(
            *tag_place, f"{form.page.called(tag_place)}the sheet does not say whose it is: no tag behind {heads}"
        )
    found: list[tuple[str, str, Place, Place]] = [("takeup", tag, tag_place, tag_place)]
    certificate, place = _after(form, "certificate")
    if certificate:
        found.append(("certificate", certificate, place, place))
    found += _boxes(form, faults)
    return Cells(
        file=file,
        header=tuple(name for name, _, _, _ in found),
        columns=tuple((value,) for _, value, _, _ in found),
        head=form.place(form.head, "quantity"),
        header_place=lambda column: found[column][2],
        place=lambda _, column: found[column][3],
        called=form.page.called,
        remarks=(),
    )


def _boxes(form: _Form, faults: FaultList) -> Iterator[tuple[str, str, Place, Place]]:
    """Yield every box that is filled in: name of its column, value, place of its name and of the value."""
    for row in form.rows:
        value, place = form.word(row, "certified"), form.place(row, "certified")
        said = form.word(row, "quantity")
        name = NAMES.get(plain(said))
        if place in form.page.formulas or place in form.page.errors:
            what = "this is a formula; put its value here" if place in form.page.formulas else "the cell holds an error"
            faults.add(*place, f"{form.page.called(place)}{what}")
        elif value and name is None:
            where = form.place(row, "quantity")
            known = tuple(words for language in LABELS.values() for words in language.values())
            hint = nearest(said, known)
            faults.add(*where, f"{form.page.called(where)}{quoted(said)} is no quantity of a data sheet{hint}")
        elif value and name is not None:
            heading = _heading(form, row, name, faults)
            if heading is not None:
                yield heading, value, form.place(row, "quantity"), place


def _heading(form: _Form, row: int, name: str, faults: FaultList) -> str | None:
    """Return a quantity with the unit of its row as the name of a column; None where the unit is none of it."""
    measure = BY_QUANTITY[name].column.measure
    if measure is None:
        return name
    unit, place = form.word(row, "unit"), form.place(row, "unit")
    suffix = UNIT_WORDS.get(plain(unit), "")
    if suffix not in SUFFIXES[measure]:
        known = ", ".join(word for word, one in UNIT_WORDS.items() if one in SUFFIXES[measure])
        faults.add(*place, f"{form.page.called(place)}{quoted(unit)} is no unit of {measure} here: {known}")
        return None
    return f"{name}_{suffix}"


__all__ = ["form_cells"]
