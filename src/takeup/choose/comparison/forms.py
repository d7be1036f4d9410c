"""Data sheets of joints that their maker has filled in.     (choose/comparison/forms.py)

A form is a sheet of a workbook with the heads "Quantity" and "As certified" in one row, in any language of `labels.py`,
wherever that row stands; below it a quantity a row, to the first row without one. The joint's tag, the number of the
certificate and the line file that the sheet was made from stand behind their labels, above that row; the kind of joint,
which must be that of the line file, below it. A unit may be another than was printed, as long as it is one of a table
of joints. A form becomes a table of one row, so that from there on it is read as every other sheet of certified values;
one in which no box is filled in certifies nothing and is left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from takeup.choose.comparison.labels import HEADS, LABELS, NAMES, ROLES, UNIT_WORDS, plain
from takeup.choose.comparison.quantities import BY_QUANTITY
from takeup.joints import WRITTEN_KINDS
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
    read = [_cells(form, file, faults) for form in filled]
    return tuple(cells for cells in read if cells is not None)


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
        if plain(form.word(row, "quantity")) in NAMES  # what stands right below them is a note, and no box
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


def _kind(form: _Form) -> tuple[str, Place]:
    """Return the kind of joint that a sheet says it is for, below its boxes, and where; "" where it says none of ours.

    It is held against the line file: joints of two projects may have one tag. Only a kind in the words of a line file
    can be; a sheet in another language has a word of its own.
    """
    for number in range(form.head + 1, len(form.page.words)):
        label, *behind = form.page.words[number] or ("",)
        if label and ROLES.get(plain(label)) == "kind":
            for column, word in enumerate(behind):
                if word in WRITTEN_KINDS:
                    return word, (number + 1, column + 2)
    return "", form.place(form.head, "quantity")


@dataclass(frozen=True, kw_only=True, slots=True)
class _Said:
    """What a cell of a form says: name of its column, value, place of that name and of the value."""

    column: str
    value: str
    label: Place
    place: Place


Wrong = tuple[Place, str]
"""Where something is wrong, and what."""


def _cells(form: _Form, file: str, faults: FaultList) -> Cells | None:
    """Return a form as a table of one row: the tag, the certificate, and every box that is filled in.

    One with a fault is told and left out, so that nothing else is said of what it seems to say.
    """
    tag, tag_place = _after(form, "tag")
    found = [_Said(column="takeup", value=tag, label=tag_place, place=tag_place)]
    certificate, place = _after(form, "certificate")
    if certificate:
        found.append(_Said(column="certificate", value=certificate, label=place, place=place))
    made_from, place = _after(form, "made_from")
    if made_from:
        found.append(_Said(column="made_from", value=made_from, label=place, place=place))
    kind, place = _kind(form)
    if kind:
        found.append(_Said(column="kind", value=kind, label=place, place=place))
    wrong: list[Wrong] = []
    if not tag:
        heads = " or ".join(quoted(heads["tag"]) for heads in HEADS.values())
        wrong.append((tag_place, f"the sheet does not say whose it is: no tag behind {heads}"))
    for row in form.rows:
        box = _box(form, row) if form.word(row, "certified") else None
        if isinstance(box, _Said):
            found.append(box)
        elif box is not None:
            wrong.append(box)
    for where, why in wrong:
        faults.add(*where, form.page.called(where) + why)
    return None if wrong else _table(form, file, tuple(found))


def _table(form: _Form, file: str, found: tuple[_Said, ...]) -> Cells:
    return Cells(
        file=file,
        header=tuple(one.column for one in found),
        columns=tuple((one.value,) for one in found),
        head=form.place(form.head, "quantity"),
        header_place=lambda column: found[column].label,
        place=lambda _, column: found[column].place,
        called=form.page.called,
        remarks=(),
    )


def _box(form: _Form, row: int) -> _Said | Wrong:
    """Return what a filled-in box says, or what is wrong with it."""
    said, unit = form.word(row, "quantity"), form.word(row, "unit")
    label, place = form.place(row, "quantity"), form.place(row, "certified")
    if place in form.page.formulas:
        return place, "this is a formula; put its value here, so that it stays what it is"
    if place in form.page.errors:
        return place, "the cell holds an error"
    name = NAMES.get(plain(said))
    if name is None:
        known = tuple(words for language in LABELS.values() for words in language.values())
        return label, f"{quoted(said)} is no quantity of a data sheet{nearest(said, known)}"
    measure = BY_QUANTITY[name].column.measure
    suffix = UNIT_WORDS.get(plain(unit), "")
    if measure is None or suffix in SUFFIXES[measure]:
        column = name if measure is None else f"{name}_{suffix}"
        return _Said(column=column, value=form.word(row, "certified"), label=label, place=place)
    known_units = ", ".join(word for word, one in UNIT_WORDS.items() if one in SUFFIXES[measure])
    return form.place(row, "unit"), f"{quoted(unit)} is no unit of {measure} here: {known_units}"


__all__ = ["form_cells"]
