"""A rule's reasons and limits on one page, for an editor."""

from __future__ import annotations

from collections.abc import Iterator

from stacklint.editor.markdown import code, escaped
from stacklint.rulebook import Rule, Skipped
from stacklint.rulebook.explain import explain


def rule_page(rule: Rule) -> str:
    """What a rule catches, why, when, and where its limits come from."""
    return "\n\n".join(_parts(rule))


def skipped_page(skipped: Skipped) -> str:
    return f"House rules skip this rule: {escaped(skipped.reason)}\n\n{rule_page(skipped.rule)}"


def _parts(rule: Rule) -> Iterator[str]:
    told = explain(rule)
    yield f"**{escaped(told.name)}**: {escaped(told.title)}"
    yield escaped(told.why)
    if told.caution:
        yield f"Caution: {escaped(told.caution)}"
    yield "\n".join(f"- {level.level.value} when {code(level.when)}" for level in told.levels)
    limits = [
        f"- {escaped(limit.name)} = {escaped(limit.value)}{' (house rules)' if limit.changed else ''}"
        + (f": {escaped(limit.source)}" if limit.source else "")
        + (" [recalled from memory]" if limit.memory else "")
        for limit in told.limits
    ]
    if limits:
        yield "\n".join(limits)
