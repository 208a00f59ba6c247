"""Tells of rules: the book by topic, and one rule with its limits, reasons and sources."""

from __future__ import annotations

import shutil
import textwrap
from collections.abc import Iterator
from pathlib import PurePath

from stacklint.report.plain import plain
from stacklint.rulebook import Rule, RuleBook, Skipped
from stacklint.rulebook.explain import LimitExplained, explain

_WIDEST = 96


def rule_book(book: RuleBook) -> Iterator[str]:
    """Every rule with its title, under the name of the file that it stands in."""
    topic = ""
    longest = max((len(rule.name) for rule in book.rules), default=0)
    for rule in book.rules:
        name = PurePath(rule.where.path).stem
        if name != topic:
            if topic:
                yield ""
            topic = name
            yield plain(f"{topic.capitalize()} ({rule.where.path})")
        yield from _wrapped(rule.title, f"  {rule.name:<{longest}}  ")
    if book.skipped:
        yield ""
        yield "Skipped by house rules"
        for skipped in book.skipped:
            yield from _wrapped(skipped.reason, f"  {skipped.rule.name:<{longest}}  ")


def skipped_reasons(skipped: Skipped) -> Iterator[str]:
    """The rule, and that it is skipped."""
    where = skipped.where
    yield from _wrapped(f"House rules skip this rule ({where.path}, line {where.line}): {skipped.reason}")
    yield ""
    yield from rule_reasons(skipped.rule)


def rule_reasons(rule: Rule) -> Iterator[str]:
    """What a rule catches, when, by which limits, and why."""
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
    for where in told.changes:
        yield plain(f"Changed in {where.path}, line {where.line}.")


def _limit(limit: LimitExplained) -> Iterator[str]:
    changed = " (house rules)" if limit.changed else ""
    yield plain(f"  {limit.name} = {limit.value}{changed}")
    recalled = " [recalled from memory, not read there]" if limit.memory else ""
    yield from _wrapped(f"{limit.source}{recalled}", "      source: ")


def _wrapped(text: str, lead: str = "") -> Iterator[str]:
    width = min(shutil.get_terminal_size().columns, _WIDEST)
    hang = " " * len(lead) if len(lead) * 2 < width else "    "
    lines = textwrap.wrap(plain(text), width=max(width, 20), initial_indent=plain(lead), subsequent_indent=hang)
    yield from lines or [plain(lead).rstrip()]
