"""The report for a person at a screen: each stack drawn, and what is to be said of it beside the drawing."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from io import StringIO
from typing import IO, TYPE_CHECKING, Literal, NamedTuple, Protocol

from rich.console import Console, Group, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from stacklint.checked import CheckedPlan, CheckedStack, Waived
from stacklint.findings import Finding, Level
from stacklint.report.answer import CAUTION, counted
from stacklint.report.by_stack import by_stack
from stacklint.report.elevation import Keyed, elevation
from stacklint.report.figures import figures, looked_at
from stacklint.report.glyphs import Glyphs, glyphs_for
from stacklint.report.plain import plain
from stacklint.report.row import Ink, Row
from stacklint.report.waived import waived_words

if TYPE_CHECKING:
    from stacklint.report.kept import Kept, Told

SIDE_BY_SIDE = 100
"""Columns. From here on the findings stand beside the drawing, below that under it."""
NARROW = 60
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
_IN_BRIEF = frozenset({"wood", "ready"})
"""The figures that a plan is answered with in a line."""
_LEVEL_STYLE = {Level.ERROR: "bold red", Level.WARNING: "bold yellow", Level.NOTE: "bold cyan"}
_INK_STYLE = {
    Ink.AIR: "",
    Ink.WOOD: "yellow",
    Ink.STICKER: "",
    Ink.SUPPORT: "",
    Ink.GROUND: "green",
    Ink.COVER: "blue",
    Ink.LOAD: "",
    Ink.SCALE: "dim",
    Ink.FAULT: "red",
    Ink.KEY: "bold reverse",
}


class Look(NamedTuple):
    """The screen that something is printed on. ``colour`` is how many colours it has, as rich names it, if any.

    ``brief``: a plan in which nothing is found is answered in a line, for there are many.
    """

    width: int
    colour: Literal["standard", "256", "truecolor", "windows"] | None
    no_colour: bool
    encoding: str | None
    plain_locale: bool
    brief: bool = False


def look_of(file: IO[str], *, width: int | None = None, environ: Mapping[str, str] = os.environ) -> Look:
    """The look of what is printed on ``file``."""
    console = Console(file=file, width=width, legacy_windows=False)
    return Look(
        width=console.width,
        colour=console.color_system,  # type: ignore[arg-type]
        no_colour=console.no_color,
        encoding=getattr(file, "encoding", None),
        plain_locale=environ.get("LC_ALL") in ("C", "POSIX"),
    )


def drawn(checked: CheckedPlan, rules: int, look: Look) -> str:
    """One plan as the screen shows it: what is said of the whole of it, then its stacks. There are so many ``rules``.

    Nothing that a plan says is taken as markup, as an emoji's name or as a terminal's control.
    """
    page = _Page(look)
    if look.brief and not checked.findings and not checked.waived and checked.stacks:
        page.in_brief(checked)
    else:
        page.plan(checked, rules)
    return page.text


class Written(Protocol):
    """Where text is printed."""

    def write(self, text: str, /) -> int: ...


class Screen:
    """Prints plans one after the other on ``file``, and a word at the end."""

    def __init__(self, file: Written, look: Look) -> None:
        self._file = file
        self._look = look
        self._drawings = False
        self._levels: list[Level] = []
        self._accepted = 0
        self._plans = 0
        self._stacks = 0

    def plan(self, plan: Kept, text: str, accepted: Callable[[Told], bool] = lambda _: False) -> None:
        """One plan, and its text as :func:`drawn` made it."""
        self._file.write(text)
        if before := _accepted_before(plan.findings, accepted):
            page = _Page(self._look)
            page.print(before)
            page.print(Text())
            self._file.write(page.text)
        self._plans += 1
        self._stacks += len(plan.stacks)
        self._count(plan.findings, accepted)
        self._drawings = self._drawings or (any(plan.figures) and bool(plan.findings or not self._look.brief))

    def yard(
        self, found: Mapping[str, Sequence[Told]], waived: Iterable[Waived], accepted: Callable[[Told], bool]
    ) -> None:
        """What is found between the plans, by the plan that it is told in."""
        waived = tuple(waived)
        if not any(found.values()) and not waived:
            return
        page = _Page(self._look)
        page.print(Text("What the plans say of one another", style="bold"))
        for path, told in found.items():
            page.print(Text(f"  {plain(path)}"))
            keyed = [Keyed("", each.finding) for each in sorted(told, key=lambda each: -each.finding.level.rank)]
            page.print(Padding(_said(keyed, path, page.width - 2), (0, 0, 0, 2)))
            if before := _accepted_before(told, accepted):
                page.print(before)
            self._count(told, accepted)
        for line in _waived(waived):
            page.print(line)
        page.print(Text())
        self._file.write(page.text)

    def close(self, further: Iterable[str] = ()) -> None:
        """What the drawings mean, how many findings there were, ``further`` lines, and the caution."""
        page = _Page(self._look)
        if self._drawings:
            page.print(Text(_legend(page.glyphs), style="dim"))
        plans = f"{self._plans} plan{'' if self._plans == 1 else 's'}"
        stacks = f"{self._stacks} stack{'' if self._stacks == 1 else 's'}"
        accepted = f" {self._accepted} of them accepted before." if self._accepted else ""
        page.print(Text(f"{plans}, {stacks}: {counted(self._levels)}.{accepted}", style="bold"))
        for line in further:
            page.print(Text(plain(line)))
        page.print(Text(CAUTION, style="dim"))
        self._file.write(page.text)

    def _count(self, told: Iterable[Told], accepted: Callable[[Told], bool]) -> None:
        for each in told:
            self._levels.append(each.finding.level)
            self._accepted += accepted(each)


class _Page:
    """Text for a screen of a certain look."""

    def __init__(self, look: Look) -> None:
        self._file = StringIO()
        self._console = Console(
            file=self._file,
            width=look.width,
            force_terminal=look.colour is not None,
            color_system=look.colour,
            no_color=look.no_colour,
            markup=False,
            emoji=False,
            highlight=False,
            soft_wrap=False,
            legacy_windows=False,
        )
        self.width = max(look.width, 20)
        self.glyphs = glyphs_for(look.encoding, plain_locale=look.plain_locale)

    @property
    def text(self) -> str:
        return self._file.getvalue()

    def print(self, what: RenderableType) -> None:
        self._console.print(what, overflow="fold")

    def in_brief(self, checked: CheckedPlan) -> None:
        """Its stacks with the figures that a careful person wants, a line each."""
        for stack in checked.stacks:
            said = [f"{figure.label} {figure.text}" for figure in figures(stack) if figure.label in _IN_BRIEF]
            name = f"{stack.stack.kind.value} {stack.stack.name.text}"
            line = Text(plain(checked.path), style="bold")
            line.append(plain(f": {', '.join((name, *said))}; nothing to change."), style="not bold")
            self.print(line)

    def plan(self, checked: CheckedPlan, rules: int) -> None:
        self.print(Text(plain(checked.path), style="bold"))
        findings = by_stack(checked)
        whole = findings[None]
        if whole:
            said = _said([Keyed("", finding) for finding in whole], checked.path, self.width - 2)
            self.print(Padding(said, (0, 0, 0, 2)))
        if not checked.stacks and not whole:
            self.print(Text("  This text holds no pile and no charge: there is nothing to check in it."))
        for index, stack in enumerate(checked.stacks):
            self.print(Text())
            for part in self._stack(stack, findings[index], checked, rules):
                self.print(part)
        for line in _waived(checked.waived):
            self.print(line)
        self.print(Text())

    def _stack(
        self, checked: CheckedStack, mine: list[Finding], plan: CheckedPlan, rules: int
    ) -> Iterator[RenderableType]:
        stack = checked.stack
        title = f", {stack.title}" if stack.title else ""
        heading = Text(plain(f"{stack.kind.value.capitalize()} {stack.name.text}{title}"), style="bold")
        heading.append(f"  line {stack.where.line}", style="not bold dim")
        yield heading
        keyed = _keyed(mine)
        said: list[RenderableType] = [_said(keyed, plan.path, self._side_width)] if mine else []
        if checked.facts is None:
            said.append(Text("Not drawn and not reckoned: what is wrong in its text comes first."))
        else:
            said += _answered(checked, rules, clean=not mine)
        drawing = self._drawing(checked, keyed, plan)
        if drawing is None:
            yield Group(*said)
        elif self.width >= SIDE_BY_SIDE:
            both = Table.grid(padding=(0, 2))
            both.add_column(no_wrap=True, width=self._drawing_width)
            both.add_column(ratio=1)
            both.add_row(drawing, Group(*said))
            yield both
        else:
            yield drawing
            yield Text()
            yield from said

    @property
    def _drawing_width(self) -> int:
        return self.width if self.width < SIDE_BY_SIDE else min(self.width * 55 // 100, 90)

    @property
    def _side_width(self) -> int:
        return self.width if self.width < SIDE_BY_SIDE else self.width - self._drawing_width - 2

    def _drawing(self, checked: CheckedStack, keyed: Sequence[Keyed], plan: CheckedPlan) -> Text | None:
        rows = elevation(checked, keyed, width=self._drawing_width, glyphs=self.glyphs, system=plan.system)
        if not rows:
            return None
        return Text("\n").join(_inked(row) for row in rows)


def _keyed(findings: Iterable[Finding]) -> list[Keyed]:
    """The gravest first, with a letter for each that marks a place, as far as there are letters."""
    letters = iter(_LETTERS)
    findings = sorted(findings, key=lambda finding: -finding.level.rank)
    return [Keyed(next(letters, "*") if finding.marks else "", finding) for finding in findings]


def _inked(row: Row) -> Text:
    text = Text(f"{row.label:>7} ", style="")
    for cell in row.cells:
        text.append(cell.character, style=_INK_STYLE[cell.ink])
    if row.after:
        text.append(" " + "".join(row.after), style=_INK_STYLE[Ink.KEY])
    text.rstrip()
    return text


def _said(keyed: Iterable[Keyed], path: str, width: int) -> Table:
    """The findings, a letter and a level before each; level and words under each other where it is narrow."""
    grid = Table.grid(padding=(0, 1))
    grid.add_column(width=1)
    if width >= NARROW:
        grid.add_column(width=7)
    grid.add_column(ratio=1)
    before: Level | None = None
    for key, finding in keyed:
        if before and (before, finding.level) != (Level.NOTE, Level.NOTE):
            grid.add_row()
        before = finding.level
        level = Text(finding.level.value, style=_LEVEL_STYLE[finding.level])
        words = _words(finding, path)
        letter = Text(key, style=_INK_STYLE[Ink.KEY])
        if width >= NARROW:
            grid.add_row(letter, level, words)
        else:
            grid.add_row(letter, Group(level, words))
    return grid


def _words(finding: Finding, path: str) -> Text:
    text = Text(plain(finding.message))
    if finding.instead:
        text.append("\n" + plain(finding.instead), style="italic")
    if finding.caution:
        text.append("\nCaution: " + plain(finding.caution), style="bold")
    where = finding.where
    other = f"{plain(where.path)} " if where.path and where.path != path else ""
    more = f", and {finding.more} more like it" if finding.more else ""
    text.append(f"\n{other}line {max(where.line, 1)}, {plain(finding.rule)}{more}", style="dim")
    return text


def _answered(checked: CheckedStack, rules: int, *, clean: bool) -> Iterator[RenderableType]:
    facts = checked.facts
    if facts is None:
        return
    if not clean:
        yield Text()
    else:
        yield Text(f"Nothing to change. {looked_at(facts, rules)}")
    grid = Table.grid(padding=(0, 1))
    grid.add_column(width=8)
    grid.add_column(ratio=1)
    for figure in figures(checked):
        grid.add_row(Text(figure.label, style="dim"), Text(plain(figure.text)))
    yield Padding(grid, (0, 0, 0, 2))


def _waived(waived: Iterable[Waived]) -> Iterator[RenderableType]:
    for each in waived:
        yield Padding(Text(plain(waived_words(each)), style="dim"), (0, 0, 0, 2))


def _accepted_before(told: Iterable[Told], accepted: Callable[[Told], bool]) -> RenderableType | None:
    """Which findings of a plan count no more."""
    known = [each.finding for each in told if accepted(each)]
    said = ", ".join(f"{each.rule} in line {max(each.where.line, 1)}" for each in known)
    return Padding(Text(plain(f"Accepted before: {said}."), style="dim"), (0, 0, 0, 2)) if known else None


def _legend(glyphs: Glyphs) -> str:
    return (
        f"In the drawings: {glyphs.board} boards, {glyphs.some_rows} boards in some rows only,"
        f" {glyphs.sticker} stickers, {glyphs.bearer} bearers, {glyphs.fault} a faulty stretch;"
        " a letter stands for the finding that bears it."
    )
