"""The desk itself: the opened file, what it says, and the work that runs beside it.     (desk/desk.py)

Everything that the server answers comes from here, from any thread. What a text says is read at once; joints to be
chosen from a series, the whole study, proposals and papers run in processes of their own, and pages are told.
"""

from __future__ import annotations

import threading
from pathlib import Path

from takeup.desk.interface import (
    ArrangeAsked,
    Change,
    ChangeAsked,
    Document,
    Fault,
    Look,
    LookAsked,
    News,
    Papers,
    PapersAsked,
    Proposals,
    Scenario,
    Solids,
    StudyNews,
    TakeAsked,
    Topic,
    Views,
    Walk,
    Why,
)
from takeup.desk.opened.alone import Alone
from takeup.desk.opened.changes import ChangeRefused, changed, typed_words
from takeup.desk.opened.palette import palette
from takeup.desk.opened.project import Project
from takeup.desk.opened.readings import Reading, chosen, faults_of, reading_of
from takeup.desk.played.scenes import scene_look
from takeup.desk.seen.bench import Bench, bench_of, news_of_study
from takeup.desk.web.news import Newsboard
from takeup.desk.work.arranging import Found, arranged, key_of, proposals_of, text_of
from takeup.desk.work.jobs import Work
from takeup.desk.work.making_papers import Made, made, papers_folder, papers_of
from takeup.desk.work.studying import Studied, studied
from takeup.desk.work.within import words_within
from takeup.errors import TakeupError
from takeup.line import Study

_OLDER_PROPOSALS = (
    "These were found for an earlier text. One that is taken over stands in the place of what was changed since; undo "
    "brings that back."
)
_CHOOSING = "choosing joints from their series: each is proved by a study"


class Conflict(TakeupError):
    """A change that was made on another revision than the one that stands."""


class NothingToShow(TakeupError):
    """There is no revision yet without faults."""


class Desk:
    """A line file on the desk.

    Args:
        path: of the file.

    Raises:
        InputError: it cannot be read as text.
        OpenElsewhere: another desk has it open.
    """

    def __init__(self, path: Path) -> None:
        self.news = Newsboard()
        self._alone = Alone(path)
        try:
            self._project = Project(path)
        except BaseException:
            self._alone.end()
            raise
        self._lock = threading.RLock()
        self._read_at = 0
        self._reading = Reading()
        self._bench: Bench | None = None
        self._of: dict[str, int] = {"study": 0, "proposals": 0, "papers": 0, "choice": 0}
        self._study: Work[Studied] = Work(studied, lambda: self._tell("study"), self.told)
        self._choice: Work[Study | tuple[Fault, ...]] = Work(chosen, self._choice_news, self.told)
        self._arranging: Work[Found] = Work(arranged, lambda: self._tell("proposals"), self.told)
        self._papers: Work[Made] = Work(made, lambda: self._tell("papers"), self.told)
        self._take_in()

    @property
    def path(self) -> Path:
        """Of the file."""
        return self._project.path

    @property
    def papers_folder(self) -> Path:
        """Where papers are written: the only other place that is read."""
        return papers_folder(self.path.parent, self.path.name)

    def told(self, words: str) -> str:
        """Return words as pages are told them: a desk may be shared, and where its folder lies is nobody's matter."""
        return words_within(words, self.path.parent)

    def close(self) -> bool:
        """End every work and every stream; return whether changes are kept beside the file, unsaved."""
        for work in (self._study, self._choice, self._arranging, self._papers):
            work.close()
        self.news.close()
        kept = self._project.close()
        self._alone.end()
        return kept

    # ------------------------------------------------------------------ the document

    def document(self) -> Document:
        """Return the file as it stands."""
        with self._lock:
            standing, bench = self._project.standing, self._bench
            read = self._reading.read
            return Document(
                revision=standing.revision,
                file=self.path.name,
                project=read.project if read is not None else bench.study.project if bench is not None else "",
                text=standing.text,
                saved=standing.saved,
                undo=standing.undo,
                redo=standing.redo,
                outside=standing.outside,
                recovered=standing.recovered,
                readable=self._reading.resolved is not None and not self._reading.faults,
                outline_revision=bench.revision if bench is not None else 0,
                busy=_CHOOSING if self._reading.is_open else "",
                faults=[Fault(**{**one, "message": self.told(one["message"])}) for one in self._reading.faults],
                lines=bench.outline() if bench is not None else [],
                states=bench.states() if bench is not None else [],
                palette=palette(),
            )

    def change(self, asked: ChangeAsked) -> Document:
        """Make a change and return the document after it.

        Raises:
            Conflict: the revision that it was made on stands no more.
            TakeupError: it cannot be made; the message says why.
        """
        with self._lock:
            if asked["revision"] != self._project.standing.revision:
                raise Conflict("the text was changed in another window since; this change was not made")
            self._make(asked["change"])
            self._take_in()
        self._tell_of_change()
        return self.document()

    def save(self, *, overwrite: bool) -> Document:
        """Write the text to the file.

        Raises:
            SaveRefused: the file was changed by something else, and is not to be overwritten.
            OSError: it cannot be written.
        """
        with self._lock:
            self._project.save(overwrite=overwrite)
        self._tell("document")
        return self.document()

    def take_proposal(self, asked: TakeAsked) -> Document:
        """Put the line file of a proposal in the place of the text, as one change.

        Raises:
            Conflict: the text that it was to stand in the place of stands no more.
            ChangeRefused: there is no such proposal any more, or another one has its number.
        """
        number = asked["number"]
        with self._lock:
            if asked["revision"] != self._project.standing.revision:
                raise Conflict(f"the text was changed in another window since; proposal {number} was not taken over")
            found = self._arranging.progress.answer
            if found is None or not 1 <= number <= len(found.rows):
                raise ChangeRefused(f"there is no proposal {number} any more")
            text = text_of(found, number)
            if key_of(text) != asked["key"]:
                raise ChangeRefused(f"proposal {number} is another one by now; it was not taken over")
            self._project.change(text, f"taking over proposal {number}")
            self._take_in()
        self._tell_of_change()
        return self.document()

    def look_outside(self) -> None:
        """Look whether the file on disk was changed by something else, and tell pages if so."""
        if self._project.look_outside():
            self._tell("outside")

    # ------------------------------------------------------------------ what is seen of it

    def look(self, asked: LookAsked) -> Look:
        """Return the line as asked for.

        Raises:
            NothingToShow: no revision is without faults yet.
            TakeupError: there is no such scene.
        """
        return scene_look(asked) if asked["scene"] else self._shown().look(asked)

    def walk(self, scenario: Scenario) -> Walk:
        """Return the track of states."""
        return self._shown().walk(scenario)

    def views(self) -> Views:
        """Return the drawings of every line."""
        return self._shown().views()

    def solids(self) -> Solids:
        """Return the lines in space."""
        return self._shown().solids()

    def why(self, place: str) -> Why:
        """Return everything about one place."""
        with self._lock:
            bench, study = self._shown(), self._study.progress.answer
        results = study.results if study is not None and study.revision == bench.revision else None
        return bench.why(place, results)

    # ------------------------------------------------------------------ work beside it

    def study(self) -> StudyNews:
        """Return how far the whole study is, and what it says."""
        with self._lock:
            progress, revision = self._study.progress, self._of["study"]
        answer = progress.answer
        if answer is None:
            return news_of_study(revision, progress.job, progress.words, None, 0.0)
        return news_of_study(answer.revision, progress.job, progress.words, answer.results, answer.took)

    def proposals(self) -> Proposals:
        """Return what was found so far."""
        with self._lock:
            found = proposals_of(self._of["proposals"], self._arranging.progress)
            if found["rows"] and found["revision"] != self._project.standing.revision:
                found["words"] = " ".join(filter(None, (_OLDER_PROPOSALS, found["words"])))
        return found

    def arrange(self, asked: ArrangeAsked) -> Proposals:
        """Begin to search for proposals."""
        with self._lock:
            standing = self._project.standing
            self._of["proposals"] = standing.revision
            self._arranging.start(standing.text, self.path.name, str(self.path.parent), asked)
        return self.proposals()

    def stop_arranging(self) -> Proposals:
        """End the search; what was found stays."""
        self._arranging.stop()
        return self.proposals()

    def papers(self) -> Papers:
        """Return which papers were made."""
        with self._lock:
            return papers_of(self._of["papers"], self._papers.progress)

    def make_papers(self, asked: PapersAsked) -> Papers:
        """Begin to make papers."""
        with self._lock:
            standing = self._project.standing
            self._of["papers"] = standing.revision
            self._papers.start(standing.text, self.path.name, str(self.path.parent), asked)
        return self.papers()

    # ------------------------------------------------------------------ within

    def _make(self, change: Change) -> None:
        text = self._project.standing.text
        if change["do"] == "undo":
            self._project.undo()
        elif change["do"] == "redo":
            self._project.redo()
        elif change["do"] == "outside":
            self._project.take_outside()
        elif change["do"] == "text":
            new = change.get("text", text)
            self._project.change(new, typed_words(text, new), typed=True)
        else:
            self._project.change(*changed(text, self._reading, change))

    def _take_in(self) -> None:
        """Read the text as it stands; begin what follows from it."""
        standing = self._project.standing
        if standing.revision == self._read_at:
            return
        self._read_at, self._reading = standing.revision, reading_of(standing.text, self.path)
        self._choice.stop()
        self._study.stop()
        if self._reading.is_open:
            self._of["choice"] = standing.revision
            self._choice.start(self._reading.read)
        else:
            self._show()

    def _show(self) -> None:
        """Put what was read on the bench, and begin its whole study."""
        read, resolved = self._reading.read, self._reading.resolved
        if read is None or resolved is None:
            return
        self._bench = bench_of(read, resolved, self._read_at)
        self._of["study"] = self._read_at
        self._study.start(resolved, self._read_at)

    def _choice_news(self) -> None:
        """Take the joints that were chosen."""
        with self._lock:
            progress = self._choice.progress  # asked here: before, it might be that of a text that stands no more
            if progress.job not in ("done", "failed") or self._of["choice"] != self._read_at or self._reading.resolved:
                return
            if isinstance(progress.answer, Study):
                self._reading = Reading(read=self._reading.read, resolved=progress.answer)
                self._show()
            else:
                faults = progress.answer or faults_of(TakeupError(progress.words))
                self._reading = Reading(read=self._reading.read, faults=faults)
        self._tell("document")

    def _shown(self) -> Bench:
        if self._bench is None:
            raise NothingToShow("there is nothing to show yet: the text has faults, or its joints are being chosen")
        return self._bench

    def _tell_of_change(self) -> None:
        """Tell of another text; proposals that were found before are then of an earlier one."""
        self._tell("document")
        if self._of["proposals"]:
            self._tell("proposals")

    def _tell(self, what: Topic) -> None:
        self.news.tell(News(what=what, revision=self._project.standing.revision))


__all__ = ["Conflict", "Desk", "NothingToShow"]
