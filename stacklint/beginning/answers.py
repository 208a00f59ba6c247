"""What is asked for a first plan, and whether an answer can stand in it.

Each answer is a stretch of a statement and is read as one, so that whatever the plan language takes is taken, and
what it refuses is refused in its words.
"""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass
from enum import Enum
from typing import NamedTuple

from stacklint import language
from stacklint.plan.node import Quantity, Range
from stacklint.plan.shelter import PlaceKind
from stacklint.units import System

_FORBIDDEN = frozenset('#"“”')
_BARE = re.compile(r"[\d\s.,x×]+", re.IGNORECASE)
"""Figures without a unit; in places the plan language takes a pair such as 2x8 for inches."""
_LONGEST = 200
"""Characters in an answer; no wood, place or figure has as many."""


class _Asked(NamedTuple):
    """``form`` is a text that the answer stands in. ``needed``: without it there is no plan."""

    words: str
    form: str
    inch: str | None
    metric: str | None
    needed: bool = False


class Question(Enum):
    """What is asked, in this order. ``value`` says it in words, with what is taken where no answer is given."""

    WOOD = _Asked("Which wood", "boards a: 1 of {} 4/4 x 6 in x 8 ft", None, None, needed=True)
    THICKNESS = _Asked("How thick are the boards", "boards a: 1 of white ash {} x random width x 8 ft", "4/4", "27 mm")
    WIDTH = _Asked("How wide", "boards a: 1 of white ash 1/8 in x {} x 8 ft", "6 in", "150 mm")
    LENGTH = _Asked("How long", "boards a: 1 of white ash 1/8 in x random width x {}", "8 ft", "2.4 m")
    AMOUNT = _Asked(
        "How many boards, or how much (60, 400 bf, 1 m3)",
        "boards a: {} of white ash 4/4 x 6 in x 8 ft",
        None,
        None,
        needed=True,
    )
    MOISTURE = _Asked(
        "How wet are they (green, 35%, air dried)", "boards a: 1 of white ash 4/4 x 6 in x 8 ft, {}", "green", "green"
    )
    PLACE = _Asked("Where will the pile stand (open yard, open shed, garage ...)", "place {}", "open yard", "open yard")
    NEAR = _Asked("Near which town, for its weather", 'place open yard\nsite "here"\n near "{}"', None, None)
    SIZE = _Asked("How large is the stack, length x width", "stack {}", None, None)
    STACKED = _Asked("On which day is it stacked", "stacked {}", None, None)
    WANT = _Asked("Which moisture content is wanted", "want {}", None, None)
    BY = _Asked("By which day", "want 12% by {}", None, None)
    USE = _Asked("For which use", "want 12% for {}", None, None)
    NAME = _Asked("What is the pile called", 'spot "{}"', "First pile", "First pile")

    @property
    def field(self) -> str:
        """Of :class:`Answers`."""
        return self.name.lower()

    def usual(self, system: System) -> str | None:
        """What is taken where nothing is answered; ``None`` where the plan then says nothing of it."""
        return self.value.inch if system is System.INCH else self.value.metric


_LENGTHS = (Question.THICKNESS, Question.WIDTH, Question.LENGTH, Question.SIZE)


class Refused(NamedTuple):
    """Why an answer cannot be taken, and what to answer instead, as sentences."""

    message: str
    instead: str


@dataclass(frozen=True, slots=True)
class Answers:
    """The answers, as written; ``None`` where none was given."""

    wood: str | None = None
    thickness: str | None = None
    width: str | None = None
    length: str | None = None
    amount: str | None = None
    moisture: str | None = None
    place: str | None = None
    near: str | None = None
    size: str | None = None
    stacked: str | None = None
    want: str | None = None
    by: str | None = None
    use: str | None = None
    name: str | None = None

    def to(self, question: Question) -> str | None:
        said: str | None = getattr(self, question.field)
        return said

    @property
    def missing(self) -> tuple[Question, ...]:
        """The questions without whose answers there is no plan."""
        return tuple(question for question in Question if question.value.needed and self.to(question) is None)

    @property
    def system(self) -> System:
        """The system of units that most of the lengths are answered in; inches where none is."""
        systems = [_system(question, said) for question in _LENGTHS if (said := self.to(question)) is not None]
        return System.METRIC if systems.count(System.METRIC) > systems.count(System.INCH) else System.INCH


def refused(question: Question, answer: str, today: datetime.date) -> Refused | None:
    """Why ``answer`` cannot be taken; ``None`` where it can."""
    asked = question.value
    if not answer.strip():
        return Refused("Nothing is answered.", f"Answer it: {asked.words}?")
    if len(answer) > _LONGEST or not answer.isprintable() or not _FORBIDDEN.isdisjoint(answer):
        return Refused(
            f"An answer is a few words or figures on one line, without quotation marks and {'#'}.",
            f"Answer in plain words: {asked.words}?",
        )
    if question in _LENGTHS and _BARE.fullmatch(answer):
        return Refused(f"'{answer}' names no unit.", f"Say it with its unit: {asked.inch or '16 ft x 4 ft'}.")
    read = language.read(_text(question, answer), today=today)
    if read.faults:
        return Refused(read.faults[0].message, read.faults[0].instead)
    stack = read.plan.stacks[0]
    if question is Question.MOISTURE and stack.boards[0].moisture is None:
        return Refused(f"'{answer}' is no moisture.", "Say green, air dried, kiln dried or a figure such as 35%.")
    if question is Question.WANT and (stack.want is None or stack.want.moisture is None):
        return Refused(f"'{answer}' is no moisture content.", "Say a figure such as 12%.")
    if question is Question.PLACE and stack.place is not None and stack.place.kind is PlaceKind.KILN:
        return Refused(
            "What goes into a kiln is a charge, not a pile.", "Begin the pile that the charge is taken from."
        )
    return None


def _system(question: Question, answer: str) -> System | None:
    """Of an answer that is a length; ``None`` where it cannot be read or has none, as random width."""
    (stack,) = language.read(_text(question, answer)).plan.stacks
    boards = stack.boards[0] if stack.boards else None
    said: Quantity | Range | None
    if question is Question.SIZE:
        said = stack.size.length if stack.size is not None else None
    else:
        said = getattr(boards, question.field, None)
    first = said.low if isinstance(said, Range) else said
    return first.unit.system if first is not None else None


def _text(question: Question, answer: str) -> str:
    return f'pile "here"\n {question.value.form.format(answer)}\n'
