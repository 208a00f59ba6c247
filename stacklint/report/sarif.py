"""Findings as SARIF 2.1.0 (OASIS Standard, 27 March 2020), for code review and CI.

Section numbers in comments are those of the standard (memory). Addresses count from the project's first folder, as code
review wants them, whichever folder the command is run in.
"""

from __future__ import annotations

import io
import os
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path
from typing import IO
from urllib.parse import quote

from stacklint import __version__
from stacklint.faults import Measure
from stacklint.files import Trouble
from stacklint.findings import Level, Related
from stacklint.report.accepted import Accepted, Record
from stacklint.report.answer import Answers
from stacklint.report.json_stream import pieces
from stacklint.report.kept import Told, ToldWaived, kept
from stacklint.report.lines import also
from stacklint.report.plain import plain
from stacklint.report.stack_figures import finite
from stacklint.rulebook import Limit, Rule, RuleBook
from stacklint.where import Where

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"

FINGERPRINT = "stacklintFinding/v1"
"""The name that fingerprints bear; another number where they are made otherwise (3.27.17)."""

ROOT = "PROJECT"
"""What addresses count from (3.4.4)."""
_ROOT_IS = "The project's first folder: the nearest one under version control, or else the folder that was checked."

Json = dict[str, object]
Home = Callable[[str], str]


class SarifReport:
    """Takes plan after plan. Only what is found is kept of each.

    ``home`` gives a path in its project. ``record`` is what was accepted before; ``None`` where nobody asked for that.
    """

    def __init__(self, home: Home = str, record: Record | None = None) -> None:
        self._home = home
        self._record = record
        self._book: RuleBook | None = None
        self._found: list[tuple[str, tuple[Told, ...], tuple[ToldWaived, ...]]] = []
        self._rules: dict[str, Json] = {}

    def plan(self, path: str, findings: tuple[Told, ...], waived: tuple[ToldWaived, ...], book: RuleBook) -> None:
        """What is found in the plan at a path, and the rule book that judged it."""
        self._book = book
        self._found.append((path, findings, waived))
        for finding in (*(each.finding for each in findings), *(each.waived.finding for each in waived)):
            self._describe(finding.rule)

    def write(self, out: IO[str], troubles: Iterable[Trouble] = (), gone: Iterable[Accepted] = ()) -> None:
        """One run with a result for each finding; a waived one is a suppressed result, one that is gone is absent."""
        gone = tuple(gone)
        for each in gone:
            self._describe(each.rule)
        driver = {"name": "stacklint", "version": __version__, "rules": list(self._rules.values())}
        run = {
            "tool": {"driver": driver},
            # 3.14.17: columns are counted as Python counts characters.
            "columnKind": "unicodeCodePoints",
            # 3.14.14: where the project lies on this machine is nobody's business, so only its meaning is told.
            "originalUriBaseIds": {ROOT: {"description": {"text": _ROOT_IS}}},
            "invocations": [_invocation(troubles, self._home)],
            "results": self._results(gone),
        }
        out.writelines(pieces({"$schema": SCHEMA, "version": "2.1.0", "runs": iter([run])}))
        out.write("\n")

    def _results(self, gone: Iterable[Accepted]) -> Iterator[Json]:
        index = {name: position for position, name in enumerate(self._rules)}
        for path, findings, waived in self._found:
            for told in findings:
                yield self._result(told, path, index)
            for each in waived:
                told = Told(each.waived.finding, each.fingerprint)
                yield self._result(told, path, index) | _suppression(each)
        yield from (_absent(each, index) for each in gone)

    def _describe(self, name: str) -> None:
        if name not in self._rules:
            rule = self._book.rule(name) if self._book is not None else None
            self._rules[name] = _descriptor(rule) if rule is not None else {"id": name}

    def _result(self, told: Told, path: str, index: Mapping[str, int]) -> Json:
        return _result(told, lambda where: _location(where, self._home, path), index) | self._state(told)

    def _state(self, told: Told) -> Json:
        """3.27.24: whether the baseline, which is what was accepted, had the result, or had it less grave."""
        if self._record is None:
            return {}
        if self._record.has(told):
            return {"baselineState": "unchanged"}
        return {"baselineState": "updated" if self._record.knows(told.fingerprint) else "new"}


def as_sarif(answers: Answers) -> str:
    """The answers as one SARIF log."""
    report = SarifReport()
    for answer in answers.plans:
        plan = kept(answer.checked)
        report.plan(plan.path, plan.findings, plan.waived, answer.book)
    out = io.StringIO()
    report.write(out, answers.troubles)
    return out.getvalue().rstrip("\n")


def _descriptor(rule: Rule) -> Json:
    limits = [_limit(limit) for limit in rule.limits]
    descriptor: Json = {
        "id": rule.name,
        "shortDescription": {"text": _text(f"{rule.title}.")},
        "fullDescription": {"text": _text(rule.why)},
        "help": {"text": "\n".join(_text(part) for part in (rule.why, *limits, rule.caution) if part)},
    }
    if rule.levels:
        descriptor["defaultConfiguration"] = {"level": rule.levels[0].value}
    if rule.card:
        descriptor["properties"] = {"tags": [plain(rule.card)]}
    return descriptor


def _text(words: str) -> str:
    """Words as a message that shows them as they are: no placeholder (3.11.5) and no link (3.11.6) begins in them."""
    return plain(words).replace("{", "{{").replace("}", "}}").replace("](", "] (")


def _limit(limit: Limit) -> str:
    recalled = " (recalled, not read there)" if limit.memory else ""
    return f"Limit {limit.name}: {limit.written}. Source: {limit.source}{recalled}."


def _result(told: Told, location_of: Callable[[Where], Json], index: Mapping[str, int]) -> Json:
    finding = told.finding
    sentences = (finding.message, finding.instead, also(finding), finding.caution or "")
    location = location_of(finding.where)
    if finding.stack:
        location["logicalLocations"] = [{"name": plain(finding.stack), "kind": "object"}]
    result: Json = {
        "ruleId": finding.rule,
        "ruleIndex": index[finding.rule],
        "level": finding.level.value,
        "message": {"text": _text(" ".join(sentence for sentence in sentences if sentence))},
        "locations": [location],
        # 3.27.17: the same for the same finding after an unrelated change, so that it is not told as new.
        "partialFingerprints": {FINGERPRINT: told.fingerprint},
    }
    if finding.related:
        # 3.27.22, and 3.28.5 for what is there.
        result["relatedLocations"] = [_related(each, location_of(each.where)) for each in finding.related]
    figures = {"found": _measure(finding.found), "limit": _measure(finding.limit)}
    if known := {name: figure for name, figure in figures.items() if figure}:
        result["properties"] = known
    return result


def _suppression(told: ToldWaived) -> Json:
    # 3.35.2 and 3.35.3: a suppression that stands in the text itself is "inSource", and it holds.
    suppression: Json = {"kind": "inSource", "status": "accepted"}
    if told.waived.waiver.reason:
        suppression["justification"] = plain(told.waived.waiver.reason)
    return {"suppressions": [suppression]}


def _absent(gone: Accepted, index: Mapping[str, int]) -> Json:
    """3.27.24: a result that the baseline had and that is found no more."""
    return {
        "ruleId": gone.rule,
        "ruleIndex": index[gone.rule],
        "level": gone.level.value,
        "message": {"text": _text(gone.message)},
        "locations": [{"physicalLocation": {"artifactLocation": _artifact(gone.path)}}],
        "partialFingerprints": {FINGERPRINT: gone.fingerprint},
        "baselineState": "absent",
    }


def _related(related: Related, location: Json) -> Json:
    return location | {"message": {"text": _text(related.words)}}


def _location(where: Where, home: Home, path: str = "") -> Json:
    """``path`` is the text's where the place names none."""
    artifact = _artifact(home(where.path or path))
    return {"physicalLocation": {"artifactLocation": artifact, "region": _region(where)}}


def _artifact(path: str) -> Json:
    # 3.4.4: an absolute address counts from nothing.
    return {"uri": uri(path)} if Path(path).is_absolute() else {"uri": uri(path), "uriBaseId": ROOT}


def _region(where: Where) -> Json:
    return {
        "startLine": max(where.line, 1),
        "startColumn": max(where.column, 1),
        "endLine": max(where.end_line, 1),
        "endColumn": max(where.end_column, 1),
    }


def _measure(measure: Measure | None) -> Json | None:
    value = finite(measure.value) if measure else None
    return None if measure is None or value is None else {"value": value, "unit": measure.dimension.si}


def _invocation(troubles: Iterable[Trouble], home: Home) -> Json:
    notifications = [_notification(trouble, home) for trouble in troubles]
    invocation: Json = {"executionSuccessful": not notifications}
    if notifications:
        invocation["toolExecutionNotifications"] = notifications
    return invocation


def _notification(trouble: Trouble, home: Home) -> Json:
    """A trouble at one place names it as its location (3.58.4); else its message names the file."""
    notification: Json = {"level": Level.ERROR.value}
    if trouble.where is None:
        return notification | {"message": {"text": _text(f"{trouble.path}: {trouble.message}")}}
    return notification | {"message": {"text": _text(trouble.message)}, "locations": [_location(trouble.where, home)]}


def uri(path: str) -> str:
    """``path`` as a URI reference (RFC 3986): relative as it was written, ``file:`` where it is absolute."""
    if Path(path).is_absolute():
        return Path(path).as_uri()
    return quote(os.fsencode(path.replace(os.sep, "/")), safe="/")
