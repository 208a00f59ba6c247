"""From answers to a first plan: the boards as answered, all else as the wood and its thickness want it."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from stacklint import language
from stacklint.arranging.sizes import best_length, usual_lengths
from stacklint.beginning.answers import Answers, Question
from stacklint.beginning.choices import LADDERS, TOO_TALL, TOP_NOT_FULL, WIDTHS_INCH, WIDTHS_METRIC, standing
from stacklint.checking import check
from stacklint.findings import Finding, Level
from stacklint.language.write import write
from stacklint.language.written import amount
from stacklint.plan.boards import Boards, MoistureWord
from stacklint.plan.node import Quantity, Range
from stacklint.plan.shelter import PlaceKind
from stacklint.rulebook import RuleBook, builtin
from stacklint.tables import woods
from stacklint.units import ONE_FOOT, ONE_INCH, System

HEADER = (
    "# A first plan, begun with the usual figures. Change what is otherwise in your yard,\n"
    "# then see what stacklint check says of it.\n\n"
)
_WET = 0.25
"""Moisture content from which full stickers and gaps between the boards are needed (TM 38-400, 1994, p. 5-7: 24%)."""
_COATED = 0.30
"""Drier ends have checked already (rule ends-bare)."""
_THICK = 1.2 * ONE_INCH
"""TM 38-400 (1994) p. 5-7: hardwood of 1 1/4 in and thicker in an open yard takes stickers of 1 in."""
_TOO_WIDE = "sticker-spacing-too-wide"
_LONGEST = 16 * ONE_FOOT
"""No pile of boards end to end is begun longer (common practice, no published source)."""


class Begun(NamedTuple):
    """A first plan as text, and what a check still finds in it, notes apart."""

    text: str
    findings: tuple[Finding, ...]


def begin(answers: Answers, *, book: RuleBook | None = None, today: datetime.date | None = None) -> Begun:
    """The plan of a pile.

    Each answer must be one that :func:`stacklint.beginning.answers.refused` lets pass, and none that is needed may
    lack. What is chosen is mended until the rules of ``book`` find nothing, as far as choices can.

    Raises:
        ValueError: if an answer is lacking or cannot stand in a plan.
    """
    if answers.missing:
        raise ValueError(f"no plan without an answer to: {answers.missing[0].value.words}")
    book = book if book is not None else builtin()
    today = today if today is not None else datetime.date.today()
    draft = _Draft(answers, today)
    draft.space_for(book, today)
    while True:
        text = draft.text()
        findings = check(text, book=book, today=today).findings
        wrong = tuple(finding for finding in findings if finding.level is not Level.NOTE)
        if not any(draft.mend(finding.rule) for finding in wrong):
            return Begun(HEADER + write(language.read(text, today=today).plan), wrong)


class _Draft:
    """A plan with a rung of each ladder chosen."""

    def __init__(self, answers: Answers, today: datetime.date) -> None:
        self._answers = answers
        self._system = answers.system
        self._rungs = {ladder.name: 0 for ladder in LADDERS}
        read = language.read(f'pile "here"\n place {self._said(Question.PLACE)}\n {self._boards_line()}', today=today)
        if read.faults:
            raise ValueError(f"{read.faults[0].message} {read.faults[0].instead}")
        (self._stack,) = read.plan.stacks
        self._boards: Boards = self._stack.boards[0]
        self._sizes = self._all_sizes()
        self._size = self._width = 0

    def space_for(self, book: RuleBook, today: datetime.date) -> None:
        """Take the widest spacing that the wood allows, whatever the length of the stack makes of it."""
        while True:
            apart = f"0 mm, {self._chosen['spacing']}"
            text = self.text().replace(f"every {self._chosen['spacing']}, dry", f"dry, at {apart}", 1)
            fired = {finding.rule for finding in check(text, book=book, today=today).findings}
            if _TOO_WIDE not in fired or not self.mend(_TOO_WIDE):
                return

    def mend(self, rule: str) -> bool:
        """Take the next rung of what a rule finds fault with; false where there is none."""
        if rule in TOO_TALL and self._size + 1 < len(self._sizes):
            self._size, self._width = self._size + 1, 0
            return True
        if rule in TOP_NOT_FULL and self._width + 1 < len(self._sizes[self._size]):
            self._width += 1
            return True
        for ladder in LADDERS:
            if rule in ladder.rules and self._rungs[ladder.name] + 1 < len(ladder.rungs(self._system)):
                self._rungs[ladder.name] += 1
                return True
        return False

    def text(self) -> str:
        lines = [*self._site(), f'pile "{self._said(Question.NAME)}"', *self._place(), self._boards_line()]
        return "\n ".join([*lines, *self._building(), *self._sheltering(), *self._wanting()]) + "\n"

    def _said(self, question: Question) -> str:
        said = self._answers.to(question) or question.usual(self._system)
        assert said is not None
        return said

    def _boards_line(self) -> str:
        amount, wood, *size, moisture = (
            self._said(question)
            for question in (
                Question.AMOUNT,
                Question.WOOD,
                Question.THICKNESS,
                Question.WIDTH,
                Question.LENGTH,
                Question.MOISTURE,
            )
        )
        return f"boards a: {amount} of {wood} {' x '.join(size)}, {moisture}"

    def _site(self) -> Iterator[str]:
        if self._answers.near is not None:
            yield f'site "Home yard"\n near "{self._answers.near}"\n'

    def _place(self) -> Iterator[str]:
        site = ', site "Home yard"' if self._answers.near is not None else ""
        yield f"place {self._said(Question.PLACE)}{site}"
        if self._answers.stacked is not None:
            yield f"stacked {self._answers.stacked}"

    def _building(self) -> Iterator[str]:
        chosen = self._chosen
        inch = self._system is System.INCH
        apart = (", boards 1/2 in apart" if inch else ", boards 15 mm apart") if self._moisture > _WET else ""
        yield f"stack {self._sizes[self._size][self._width]}{apart}"
        yield f"stickers {self._sticker_thickness} x {chosen['sticker_width']}, every {chosen['spacing']}, dry"
        stands = standing(self._place_kind)
        on_pads = f", on {chosen['pads']} pads" if stands.raised else ""
        yield f"bearers {chosen['bearers']} of white oak, every {chosen['spacing']}{on_pads}"
        if stands.raised:
            # 12 in at the least (Wengert, Drying oak lumber step 4A), and a little in hand.
            yield f"clearance {'14 in' if inch else '350 mm'}"
            yield "ground gravel, flat, drained"

    def _sheltering(self) -> Iterator[str]:
        chosen = self._chosen
        stands = standing(self._place_kind)
        if stands.covered:
            gap = "4 in" if self._system is System.INCH else "100 mm"
            yield f"cover sheet metal, overhang {chosen['overhang']}, gap {gap}, slope 1 in 12, tied"
        if chosen["sides"]:
            yield f"sides {chosen['sides']}"
        if stands.windy:
            yield "wind across"
        if chosen["top_load"]:
            yield f"top load {chosen['top_load']}"
        if self._moisture > _COATED:
            yield "ends coated"
        if chosen["fan"]:
            yield f"fan {chosen['fan']}"

    def _wanting(self) -> Iterator[str]:
        answers = self._answers
        parts = [
            answers.want,
            f"by {answers.by}" if answers.by is not None else None,
            f"for {answers.use}" if answers.use is not None else None,
        ]
        said = " ".join(part for part in parts if part is not None)
        if said:
            yield f"want {said}"

    @property
    def _chosen(self) -> Mapping[str, str]:
        return {ladder.name: ladder.rungs(self._system)[self._rungs[ladder.name]] for ladder in LADDERS}

    @property
    def _place_kind(self) -> PlaceKind:
        return self._stack.place.kind if self._stack.place is not None else PlaceKind.OPEN_YARD

    @property
    def _moisture(self) -> float:
        """Of the boards; a word stands for more or less than any limit here."""
        said = self._boards.moisture
        if isinstance(said, Quantity):
            return said.si
        return 1.0 if said in (None, MoistureWord.GREEN) else 0.0

    @property
    def _sticker_thickness(self) -> str:
        wood = woods.find(self._boards.wood.text)
        thick = wood is not None and wood.hardwood and self._boards.thickness.si > _THICK
        if thick and self._place_kind is PlaceKind.OPEN_YARD:
            return "1 in" if self._system is System.INCH else "25 mm"
        return "3/4 in" if self._system is System.INCH else "20 mm"

    def _all_sizes(self) -> tuple[tuple[str, ...], ...]:
        """The size that was answered; else that of one board's length, or of the length that the lengths of the
        boards fill best, then longer and wider ones for piles that would be too tall; each in several widths."""
        if self._answers.size is not None:
            return ((self._answers.size,),)
        widths = WIDTHS_INCH if self._system is System.INCH else WIDTHS_METRIC
        length = self._boards.length
        if isinstance(length, Range):
            lengths = [best_length(self._stack, tuple(usual_lengths(length.high.si, _LONGEST, self._system)))]
        else:
            lengths = [length.si] + [2 * length.si] * (2 * length.si <= _LONGEST + ONE_INCH)
        said = [_length(each, length) for each in lengths]
        kinds = [*((each, widths.usual) for each in said), (said[-1], widths.wide)]
        return tuple(tuple(f"{each} x {width}" for width in offered) for each, offered in kinds)


def _length(metres: float, written: Quantity | Range) -> str:
    """A stack's length in the unit of the boards' own."""
    unit = (written.low if isinstance(written, Range) else written).unit
    return amount(Quantity(number=round(unit.from_si(metres), 6), unit=unit))
