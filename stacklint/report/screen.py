"""The report for a person at a screen: each stack drawn, and what is to be said of it beside the drawing."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import IO

from rich.console import Console, Group, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from stacklint.checked import CheckedPlan, CheckedStack, Waived
from stacklint.findings import Finding, Level
from stacklint.report.answer import CAUTION, Answer, counted
from stacklint.report.by_stack import by_stack
from stacklint.report.elevation import Keyed, elevation
from stacklint.report.figures import figures, looked_at
from stacklint.report.glyphs import Glyphs, glyphs_for
from stacklint.report.plain import plain
from stacklint.report.row import Ink, Row
from stacklint.report.waived import waived_words

SIDE_BY_SIDE = 100
"""Columns. From here on the findings stand beside the drawing, below that under it."""
NARROW = 60
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
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


class Screen:
    """Prints plans one after the other on ``file``, and a word at the end.

    Nothing that a plan says is taken as markup, as an emoji's name or as a terminal's control.
    """

    def __init__(self, file: IO[str], *, width: int | None = None, environ: Mapping[str, str] = os.environ) -> None:
        self._console = Console(
            file=file, width=width, markup=False, emoji=False, highlight=False, soft_wrap=False, legacy_windows=False
        )
        plain_locale = environ.get("LC_ALL") in ("C", "POSIX")
        self._glyphs = glyphs_for(getattr(file, "encoding", None), plain_locale=plain_locale)
        self._drawn = False
        self._levels: list[Level] = []
        self._plans = 0
        self._stacks = 0

    def plan(self, answer: Answer) -> None:
        """One plan: what is said of the whole of it, then its stacks."""
        checked = answer.checked
        self._plans += 1
        self._stacks += len(checked.stacks)
        self._levels += [finding.level for finding in checked.findings]
        self._print(Text(plain(checked.path), style="bold"))
        findings = by_stack(checked)
        whole = findings[None]
        if whole:
            said = _said([Keyed("", finding) for finding in whole], checked.path, self._width - 2)
            self._print(Padding(said, (0, 0, 0, 2)))
        if not checked.stacks and not whole:
            self._print(Text("  This text holds no pile and no charge: there is nothing to check in it."))
        for index, stack in enumerate(checked.stacks):
            self._print(Text())
            for part in self._stack(stack, findings[index], answer):
                self._print(part)
        for line in _waived(checked.waived):
            self._print(line)
        self._print(Text())

    def close(self) -> None:
        """What the drawings mean, how many findings there were, and the caution."""
        if self._drawn:
            self._print(Text(_legend(self._glyphs), style="dim"))
        plans = f"{self._plans} plan{'' if self._plans == 1 else 's'}"
        stacks = f"{self._stacks} stack{'' if self._stacks == 1 else 's'}"
        self._print(Text(f"{plans}, {stacks}: {counted(self._levels)}.", style="bold"))
        self._print(Text(CAUTION, style="dim"))

    @property
    def _width(self) -> int:
        return max(self._console.width, 20)

    def _print(self, what: RenderableType) -> None:
        self._console.print(what, overflow="fold")

    def _stack(self, checked: CheckedStack, mine: list[Finding], answer: Answer) -> Iterator[RenderableType]:
        stack = checked.stack
        title = f", {stack.title}" if stack.title else ""
        heading = Text(plain(f"{stack.kind.value.capitalize()} {stack.name.text}{title}"), style="bold")
        heading.append(f"  line {stack.where.line}", style="not bold dim")
        yield heading
        keyed = _keyed(mine)
        said: list[RenderableType] = [_said(keyed, answer.checked.path, self._side_width)] if mine else []
        if checked.facts is None:
            said.append(Text("Not drawn and not reckoned: what is wrong in its text comes first."))
        else:
            said += _answered(checked, len(answer.book.rules), clean=not mine)
        drawing = self._drawing(checked, keyed, answer.checked)
        if drawing is None:
            yield Group(*said)
        elif self._width >= SIDE_BY_SIDE:
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
        return self._width if self._width < SIDE_BY_SIDE else min(self._width * 55 // 100, 90)

    @property
    def _side_width(self) -> int:
        return self._width if self._width < SIDE_BY_SIDE else self._width - self._drawing_width - 2

    def _drawing(self, checked: CheckedStack, keyed: Sequence[Keyed], plan: CheckedPlan) -> Text | None:
        rows = elevation(checked, keyed, width=self._drawing_width, glyphs=self._glyphs, system=plan.system)
        if not rows:
            return None
        self._drawn = True
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


def _legend(glyphs: Glyphs) -> str:
    return (
        f"In the drawings: {glyphs.board} boards, {glyphs.some_rows} boards in some rows only,"
        f" {glyphs.sticker} stickers, {glyphs.bearer} bearers, {glyphs.fault} a faulty stretch;"
        " a letter stands for the finding that bears it."
    )
