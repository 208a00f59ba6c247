"""The rule book as one page for a browser and for paper."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

from stacklint import __version__
from stacklint.report.page import rendered
from stacklint.report.reasons import step_lines, topics
from stacklint.rulebook import Rule, RuleBook
from stacklint.rulebook.explain import Explanation, amended, explain

if TYPE_CHECKING:
    from stacklint.lessons import Lesson


class RuleTold(NamedTuple):
    """A rule as the page tells it; ``skipped`` is why house rules leave it out."""

    told: Explanation
    lesson: Lesson | None
    skipped: str | None = None


class TopicTold(NamedTuple):
    name: str
    path: str
    rules: tuple[RuleTold, ...]


def rules_html(book: RuleBook, lesson: Callable[[str], Lesson | None]) -> str:
    """Every rule told in full, topic by topic, the list of them first."""

    def told(rule: Rule, skipped: str | None = None) -> RuleTold:
        return RuleTold(explain(rule), lesson(rule.name), skipped)

    told_topics = tuple(
        TopicTold(topic.name, topic.path, tuple(told(rule) for rule in topic.rules)) for topic in topics(book)
    )
    skipped = tuple(told(each.rule, each.reason) for each in book.skipped)
    return rendered(
        "rules.html.jinja",
        topics=told_topics,
        skipped=skipped,
        step_lines=step_lines,
        amended=amended,
        version=__version__,
    )
