"""What a search stands on: every line that is to be arranged, their places, prices.     (choose/arrange/ground.py)

Lines that a file lets be arranged and that are joined make a tree: each has a path of its own over its places, and one
arrangement has a path for every line. What meets at a branch is for the study to say (spans.py, verify.py).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from takeup.choose.arrange.course import Course
from takeup.choose.arrange.places import places_of
from takeup.choose.arrange.prices import Prices
from takeup.choose.arrange.records import Place
from takeup.choose.resolve import choose_joints
from takeup.choose.rules import branches_of
from takeup.errors import TakeupError
from takeup.line import Study


@dataclass(frozen=True, kw_only=True)
class Ground:
    """The lines that are to be arranged, in their study.

    Args:
        study: as read, joints that the file leaves to series chosen.
        courses: of each line, in the order of the file: a branch comes after its main.
        prices: of all parts.
    """

    study: Study
    courses: tuple[Course, ...]
    prices: Prices

    @cached_property
    def places(self) -> tuple[Place, ...]:
        """The places of all lines, one line after the other."""
        return tuple(place for course in self.courses for place in course.places)

    @cached_property
    def firsts(self) -> tuple[int, ...]:
        """The number of the first place of each line among all places."""
        counts = [len(course.places) for course in self.courses]
        return tuple(sum(counts[:number]) for number in range(len(counts)))

    @property
    def names(self) -> tuple[str, ...]:
        """The names of the lines."""
        return tuple(course.line.name for course in self.courses)

    def with_places(self, change: Callable[[Place], Place]) -> Ground:
        """Return a ground whose places are changed, and nothing else.

        Args:
            change: of one place.
        """
        courses = (replace(course, places=tuple(map(change, course.places))) for course in self.courses)
        return replace(self, courses=tuple(courses))

    def course_of(self, place: int) -> Course:
        """Return the line that a place belongs to."""
        return self.course(self.places[place].line)

    def course(self, line: str) -> Course:
        """Return a line by its name."""
        return next(course for course in self.courses if course.line.name == line)


def ground_of(study: Study, prices: Prices) -> Ground:
    """Return what a search stands on.

    Args:
        study: as read.
        prices: of parts.

    Raises:
        TakeupError: No line of the file says what proposals may do.
    """
    asked = [line for line in study.lines if line.allowed.may_hold or line.allowed.series or line.allowed.loop_room]
    if not asked:
        raise TakeupError(
            f"{study.file}: no line says what may be proposed: where it 'may_hold', what 'takeups_from' which series"
        )
    return ground_with(choose_joints(study), prices, [line.name for line in asked])


def ground_with(study: Study, prices: Prices, names: Sequence[str]) -> Ground:
    """Return a ground of some lines of a study whose joints are chosen.

    Args:
        study: the file.
        prices: of parts.
        names: of the lines that are arranged, in the order of the file.
    """
    courses = []
    for name in names:
        line = study.line(name)
        tees = tuple(branches_of(study, line))
        courses.append(Course(study=study, line=line, places=places_of(study, line), prices=prices, tees=tees))
    return Ground(study=study, courses=tuple(courses), prices=prices)


__all__ = ["Ground", "ground_of", "ground_with"]
