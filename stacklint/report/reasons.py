"""Tells of rules: the book by topic; one rule with its limits, reasons, sources and example; the whole book."""

from __future__ import annotations

import shutil
import textwrap
from collections.abc import Callable, Iterator, Sequence
from itertools import groupby
from pathlib import PurePath
from typing import TYPE_CHECKING, NamedTuple

from stacklint.report.plain import plain
from stacklint.rulebook import Rule, RuleBook, Skipped
from stacklint.rulebook.explain import LimitExplained, amended, explain

if TYPE_CHECKING:
    from stacklint.lessons import Lesson, Step

_WIDEST = 96


class Topic(NamedTuple):
    """The rules that stand in one file, which is named for what they are about."""

    name: str
    path: str
    rules: tuple[Rule, ...]


def topics(book: RuleBook) -> tuple[Topic, ...]:
    """The rules of a book, file by file."""
    return tuple(
        Topic(PurePath(path).stem.capitalize(), path, tuple(rules))
        for path, rules in groupby(book.rules, key=lambda rule: rule.where.path)
    )


def rule_book(book: RuleBook) -> Iterator[str]:
    """Every rule with its title, under the name of the file that it stands in."""
    longest = max((len(rule.name) for rule in book.rules), default=0)
    for number, topic in enumerate(topics(book)):
        if number:
            yield ""
        yield plain(f"{topic.name} ({topic.path})")
        for rule in topic.rules:
            yield from _wrapped(rule.title, f"  {rule.name:<{longest}}  ")
    if book.skipped:
        yield ""
        yield "Skipped by house rules"
        for skipped in book.skipped:
            yield from _wrapped(skipped.reason, f"  {skipped.rule.name:<{longest}}  ")


def whole_book(book: RuleBook, lesson: Callable[[str], Lesson | None]) -> Iterator[str]:
    """Every rule told in full, topic by topic, the list of them first."""
    yield from rule_book(book)
    for topic in topics(book):
        yield from ("", "", plain(topic.name.upper()))
        for rule in topic.rules:
            yield from ("", "")
            yield from rule_reasons(rule, lesson(rule.name))
    for skipped in book.skipped:
        yield from ("", "")
        yield from skipped_reasons(skipped, lesson(skipped.rule.name))


def skipped_reasons(skipped: Skipped, lesson: Lesson | None = None) -> Iterator[str]:
    """The rule, and that it is skipped."""
    where = skipped.where
    yield from _wrapped(f"House rules skip this rule ({where.path}, line {where.line}): {skipped.reason}")
    yield ""
    yield from rule_reasons(skipped.rule, lesson)


def rule_reasons(rule: Rule, lesson: Lesson | None = None) -> Iterator[str]:
    """What a rule catches, when, by which limits, and why; a plan that fails it, and how that is mended."""
    told = explain(rule)
    yield plain(told.name)
    yield from _wrapped(f"{told.title}.", "  ")
    yield ""
    yield from _wrapped(told.why)
    if told.caution:
        yield from _wrapped(f"Caution: {told.caution}")
    yield ""
    yield from _wrapped(f"Judged for each {told.each}{f', where {told.where}' if told.where else ''}.")
    for level in told.levels:
        yield from _wrapped(level.when, f"  {level.level.value:<8} when ")
    for name, value in told.lets:
        yield from _wrapped(f"{name} = {value}", "           with ")
    if told.limits:
        yield ""
        yield "Limits"
    for limit in told.limits:
        yield from _limit(limit)
    yield ""
    yield plain(f"Written in {told.place.path}, line {told.place.line}.")
    for said in told.history:
        yield from _wrapped(amended(said))
    if lesson is not None:
        yield ""
        yield from _lesson(lesson, changed=told.changed)


def _lesson(lesson: Lesson, *, changed: bool) -> Iterator[str]:
    yield f"A plan that fails it{' by the limits of the rule book' if changed else ''}"
    yield ""
    for line in lesson.plan:
        yield from _plan_line("    ", line)
    yield ""
    found = lesson.finding
    yield from _wrapped(found.message, f"  {found.level.value:<8} ")
    yield from _wrapped(found.instead, "           ")
    yield ""
    yield "The plan mended"
    for step in lesson.steps:
        yield ""
        for lead, line in step_lines(step):
            yield from _plan_line(f"  {lead:<8} ", line)


def _plan_line(lead: str, line: str) -> Iterator[str]:
    """A line of a plan, going on over several where it is too wide; each but the last ends in a comma, as it must."""
    indent = " " * (len(line) - len(line.lstrip()))
    said = plain(f"{lead}{line}").rstrip()
    while len(said) > _width() and "#" not in said:
        commas = [
            place for place in range(len(said)) if said.startswith(", ", place) and said.count('"', 0, place) % 2 == 0
        ]
        fitting = [place for place in commas if len(lead) < place < _width()]
        if not fitting:
            break
        yield said[: fitting[-1] + 1]
        said = f"{' ' * len(lead)}{indent}  {said[fitting[-1] + 2 :]}"
    yield said


def step_lines(step: Step) -> Iterator[tuple[str, str]]:
    """A step of a mend: its lines, before the first of each kind what to do with it."""
    if not step.old:
        yield from _led("below", (step.below,))
        yield from _led("add", step.new)
        return
    yield from _led("change" if step.new else "take out", step.old)
    yield from _led("to", step.new)


def _led(word: str, lines: Sequence[str]) -> Iterator[tuple[str, str]]:
    """The lines, moved to the left together and without empty ones at their ends."""
    said = textwrap.dedent("\n".join(lines)).strip().splitlines()
    yield from zip((word, *[""] * len(said)), said, strict=False)


def _limit(limit: LimitExplained) -> Iterator[str]:
    changed = " (house rules)" if limit.changed else ""
    yield plain(f"  {limit.name} = {limit.value}{changed}")
    recalled = " [recalled from memory, not read there]" if limit.memory else ""
    yield from _wrapped(f"{limit.source}{recalled}", "      source: ")


def _wrapped(text: str, lead: str = "") -> Iterator[str]:
    width = _width()
    hang = " " * len(lead) if len(lead) * 2 < width else "    "
    lines = textwrap.wrap(plain(text), width=max(width, 20), initial_indent=plain(lead), subsequent_indent=hang)
    yield from lines or [plain(lead).rstrip()]


def _width() -> int:
    return min(shutil.get_terminal_size().columns, _WIDEST)
