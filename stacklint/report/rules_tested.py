"""Tells whether rules do what their examples say: in lines, those that do not at the place of the example; as JSON."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from pydantic import Field

from stacklint import __version__
from stacklint.files import Trouble
from stacklint.findings import Finding, Level
from stacklint.report.fingerprints import fingerprints, texts_of
from stacklint.report.json_output import FindingOutput, Unread, written
from stacklint.report.kept import Told
from stacklint.report.plain import plain
from stacklint.report.stack_figures import Model
from stacklint.rulebook.examples import Expected
from stacklint.rulebook.tested import RuleTested, Tried, Untried

_MOST_NAMED = 6
"""Findings of other rules that are named; a plan that fires more is no good example."""


def tested_lines(rule: RuleTested) -> Iterator[str]:
    """What became of a rule's examples; nothing for a rule without one, which the summary names."""
    if rule.holds and rule.examples:
        examples = "its example says" if len(rule.tried) == 1 else f"its {len(rule.tried)} examples say"
        yield plain(f"{rule.where.path}:{rule.where.line}: {rule.name} does what {examples}")
    for tried in rule.tried:
        if not tried.holds:
            where = tried.example.where
            yield plain(f"{where.path}:{where.line}:{where.column}: error: {_miss(rule.name, tried)} [{rule.name}]")


def summary(rules: Sequence[RuleTested], files: int) -> Iterator[str]:
    """How many rules do what their examples say, and which have none."""
    shown = [rule for rule in rules if rule.examples]
    sound = sum(rule.holds for rule in shown)
    untried = sum(bool(rule.untried) for rule in shown)
    said = f"{_counted(len(rules), 'rule')} in {_counted(files, 'file')}: {sound} as their examples say"
    said += f", {len(shown) - sound - untried} not"
    if untried:
        said += f", {untried} not tried"
    bare = [rule.name for rule in rules if not rule.examples]
    yield plain(f"{said}; without an example: {', '.join(bare)}" if bare else said)


def _miss(name: str, tried: Tried) -> str:
    return " ".join((_instead(name, tried), *_waived(tried), _others(tried)))


def _instead(name: str, tried: Tried) -> str:
    wanted = tried.example.level
    if tried.example.expected is Expected.PASSES:
        first = tried.own[0]
        return f"{tried.path} is to pass {name}, and {_given(first)}: {first.message}"
    as_wanted = f" with {_with_article(wanted)}" if wanted is not None else ""
    if not tried.own:
        return f"{tried.path} is to fail {name}{as_wanted}, and the rule finds nothing there."
    return f"{tried.path} is to fail {name}{as_wanted}, and {', '.join(map(_given, tried.own))}."


def _given(finding: Finding) -> str:
    return f"the rule gives {_with_article(finding.level)} in line {finding.where.line}"


def _with_article(level: Level) -> str:
    return f"an {level.value}" if level is Level.ERROR else f"a {level.value}"


def _waived(tried: Tried) -> Iterator[str]:
    if tried.waived:
        yield f"The plan waives what the rule finds in line {tried.waived[0].where.line}."


def _others(tried: Tried) -> str:
    if not tried.others:
        return "No other rule finds anything in it."
    found = list(dict.fromkeys(f"{each.rule} ({each.level.value}, line {each.where.line})" for each in tried.others))
    named = found[:_MOST_NAMED]
    more = len(found) - len(named)
    return f"Other rules find: {', '.join(named)}{f' and {more} more' if more else ''}."


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


class ExampleOutput(Model):
    expected: Expected
    level: Level | None = Field(description="the level that the rule is to give; null for any")
    plan: str = Field(description="the path as the rule file writes it")
    line: int = Field(description="where the rule file names it, counted from 1")
    column: int
    holds: bool | None = Field(description="null where the plan cannot be read")
    findings: tuple[FindingOutput, ...] = Field(description="all that a check of the plan finds, whatever the rule")


class RuleOutput(Model):
    rule: str
    path: str
    line: int
    holds: bool | None = Field(description="null for a rule without an example")
    examples: tuple[ExampleOutput, ...]

    @classmethod
    def of(cls, rule: RuleTested) -> RuleOutput:
        return cls(
            rule=rule.name,
            path=rule.where.path,
            line=rule.where.line,
            holds=rule.holds if rule.examples else None,
            examples=tuple(map(_example, rule.examples)),
        )


def _example(one: Tried | Untried) -> ExampleOutput:
    example = one.example
    return ExampleOutput(
        expected=example.expected,
        level=example.level,
        plan=example.plan,
        line=example.where.line,
        column=example.where.column,
        holds=one.holds if isinstance(one, Tried) else None,
        findings=_findings(one) if isinstance(one, Tried) else (),
    )


class RulesTestOutput(Model):
    """What ``stacklint rules-test --as json`` prints."""

    stacklint: str = Field(description="the version that wrote this")
    rules: tuple[RuleOutput, ...]
    unread: tuple[Unread, ...]


def tested_json(rules: Iterable[RuleTested], troubles: Iterable[Trouble]) -> str:
    """The same as a JSON text that any encoding carries."""
    output = RulesTestOutput(
        stacklint=__version__,
        rules=tuple(map(RuleOutput.of, rules)),
        unread=tuple(map(Unread.of, troubles)),
    )
    return written(output)


def _findings(tried: Tried) -> tuple[FindingOutput, ...]:
    found = sorted((*tried.own, *tried.others), key=lambda finding: finding.where)
    told = map(Told, found, fingerprints(found, str, texts_of({})))
    return tuple(FindingOutput.of(each, tried.path, lambda _: False) for each in told)
