"""What every paper says of itself, from the results alone.     (papers/frame/head.py)

Whose line it is, which document, by which code and for which conditions, made by what from which file, what to take
care of and what is not covered. Everything here is a finished text in the language and units of the paper.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from takeup.drawing.reading import Record, Results, number_of, record_of, records_of, text_of, texts_of
from takeup.edge import SI, Units
from takeup.papers.common.alike import names_told
from takeup.papers.common.numerals import as_given
from takeup.papers.words import ENGLISH, Language, Texts, texts

_INVENTED = ("demonstration", "invented", "erfunden")
"""Words that a source of demonstration data bears, in each language of the papers."""

Fact = tuple[str, str]


@dataclass(frozen=True, kw_only=True, slots=True)
class Head:
    """What a paper carries. A text that the file does not give is "", a date that it does not give is None.

    `units` has the decimal mark of the language already; `lines` is "line A" or "lines A and B"; `running` heads
    every page; `demonstration` is one sentence, "" where no datum is invented; `remarks` are what a paper in
    these units and this language has to say of itself.
    """

    language: Language
    units: Units
    project: str
    number: str
    revision: str
    date: date | None
    lines: str
    running: str
    verdict: str
    basis: str
    conditions: tuple[Fact, ...]
    tool: str
    file: str
    sha256: str
    demonstration: str
    cautions: tuple[str, ...]
    not_covered: tuple[str, ...]
    remarks: tuple[str, ...]

    @property
    def day(self) -> str:
        """The date as it is written, "" where there is none."""
        return "" if self.date is None else self.date.isoformat()

    @property
    def texts(self) -> Texts:
        """The texts of the paper's language."""
        return texts(self.language)

    @property
    def facts(self) -> tuple[Fact, ...]:
        """Everything of the head that is one fact, with its label, in order; those that are not given are blank."""
        said = self.texts
        return (
            (said("frame.project"), self.project),
            (said("frame.document"), self.number),
            (said("frame.revision"), self.revision),
            (said("frame.date"), self.day),
            (said("frame.line"), self.lines),
            (said("frame.basis"), self.basis),
            *self.conditions,
            (said("frame.verdict"), self.verdict),
            (said("frame.tool"), self.tool),
            (said("frame.input"), self.file),
            (said("frame.sha256"), self.sha256),
        )


def head_of(results: Results, units: Units = SI, language: Language = ENGLISH) -> Head:
    """Return what a paper of these results carries.

    Args:
        results: the results document.
        units: what its numbers are written in.
        language: what it is written in.
    """
    said = texts(language)
    marked = units if language == ENGLISH else units.marked(said.mark).told(said.said)
    entry, basis, tool = (record_of(results, key) for key in ("input", "basis", "tool"))
    document = record_of(entry, "document")
    lines = lines_of(results, said)
    return Head(
        language=language,
        units=marked,
        project=text_of(entry, "project"),
        number=text_of(document, "number"),
        revision=text_of(document, "revision"),
        date=day_of(results),
        lines=lines,
        running=_running(document, lines, said),
        verdict=said.said(text_of(record_of(results, "verdict"), "outcome")),
        basis=said("frame.basis_words", code=text_of(basis, "code"), edition=text_of(basis, "edition")),
        conditions=tuple(_conditions(results, marked, said)),
        tool=f"{text_of(tool, 'name')} {text_of(tool, 'version')}",
        file=text_of(entry, "file"),
        sha256=text_of(entry, "sha256"),
        demonstration=_demonstration(results, said),
        cautions=tuple(said.said(words) for words in texts_of(results, "cautions")),
        not_covered=tuple(
            f"{said.said(text_of(item, 'what'))}: {said.said(text_of(item, 'because'))}."
            for item in records_of(results, "not_covered")
        ),
        remarks=tuple(filter(None, (said.said(units.said), said("frame.left_english") if language != ENGLISH else ""))),
    )


def day_of(results: Results) -> date | None:
    """Return the document's date, None where it has none; no clock is ever read."""
    day = text_of(record_of(record_of(results, "input"), "document"), "date")
    return date.fromisoformat(day) if day else None


def lines_of(results: Results, said: Texts) -> str:
    """Return "line A", or "lines A, B and C"."""
    *others, last = [text_of(line, "name") for line in records_of(results, "lines")]
    if not others:
        return said("frame.one_line", names=last)
    return said("frame.more_lines", names=f"{', '.join(others)} {said('frame.and')} {last}")


def _running(document: Record, lines: str, said: Texts) -> str:
    """Return what stands at the head of every page; without a number and revision, the lines alone."""
    number, revision = text_of(document, "number"), text_of(document, "revision")
    if not (number or revision):
        return lines
    return said("frame.running", number=number, revision=revision, lines=lines)


def _conditions(results: Results, units: Units, said: Texts) -> Iterator[Fact]:
    """Yield design, operating and test conditions, those of zones that differ from them, vacuum and surroundings."""
    resolved = record_of(record_of(results, "input"), "resolved")
    for key in ("design", "operating", "test"):
        general = record_of(resolved, key)
        if not general:
            continue
        yield said(f"frame.{key}"), _condition(general, units, said)
        for zone in records_of(results, "zones"):
            own = record_of(record_of(zone, "conditions"), key)
            if own and any(own[name] != general.get(name) for name in own):
                name = said("frame.zone", condition=said(f"frame.{key}"), zone=text_of(zone, "name"))
                yield name, _condition(own, units, said)
    vacuum, site = record_of(resolved, "vacuum"), record_of(resolved, "site")
    if vacuum:
        yield said("frame.vacuum"), _vacuum(vacuum, units, said)
    heat = units.temperature
    coldest, installed, hottest = (
        heat.named(as_given(number_of(site, f"{key}_c"), heat)) for key in ("coldest", "installation", "hottest")
    )
    yield said("frame.installation"), installed
    yield said("frame.range"), said("frame.range_words", coldest=coldest, hottest=hottest)


def _condition(record: Record, units: Units, said: Texts) -> str:
    pressure = units.pressure.named(as_given(number_of(record, "pressure_bar"), units.pressure))
    temperature = units.temperature.named(as_given(number_of(record, "temperature_c"), units.temperature))
    words, medium = f"{pressure}, {temperature}", text_of(record, "with")
    return said("frame.test_words", words=words, medium=said.said(medium)) if medium else words


def _vacuum(vacuum: Record, units: Units, said: Texts) -> str:
    if not vacuum.get("possible"):
        return said("frame.vacuum_not", because=text_of(vacuum, "because"))
    pressure = units.pressure.named(as_given(number_of(vacuum, "pressure_bar"), units.pressure))
    return said("frame.vacuum_possible", pressure=pressure)


def _demonstration(results: Results, said: Texts) -> str:
    """Return which data are invented: joints by name, and limits of checks; "" where no source says so."""
    joints = [
        text_of(joint, "name")
        for joint in records_of(results, "takeups")
        if _invented(text_of(joint, "provenance"), text_of(record_of(joint, "data"), "source"))
        or _invented(text_of(record_of(joint, "chosen"), "series"))
    ]
    limits = any(
        _invented(text_of(check, "because"), text_of(check, "source")) for check in records_of(results, "checks")
    )
    order = [text_of(joint, "name") for joint in records_of(results, "takeups")]
    told = names_told(joints, order, said.from_to)
    names = [*told, *([said("frame.demonstration_limits")] if limits else [])]
    return said("frame.demonstration", names=", ".join(names)) if names else ""


def _invented(*sources: str) -> bool:
    return any(word in source.lower() for source in sources for word in _INVENTED)


__all__ = ["Fact", "Head", "day_of", "head_of", "lines_of"]
