"""Findings as SARIF 2.1.0 (OASIS Standard, 27 March 2020), for code review and CI.

Section numbers in comments are those of the standard (memory).
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterable
from pathlib import Path
from urllib.parse import quote

from stacklint import __version__
from stacklint.checked import Waived
from stacklint.faults import Measure
from stacklint.files import Trouble
from stacklint.findings import Finding, Level
from stacklint.report.answer import Answers
from stacklint.report.lines import also
from stacklint.report.plain import plain
from stacklint.report.stack_figures import finite
from stacklint.rulebook import Limit, Rule
from stacklint.where import Where

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"

Json = dict[str, object]


def as_sarif(answers: Answers) -> str:
    """One run with a result for each finding; a waived finding is a suppressed result."""
    return json.dumps({"$schema": SCHEMA, "version": "2.1.0", "runs": [_run(answers)]}, indent=1, allow_nan=False)


def _run(answers: Answers) -> Json:
    rules = _rules_met(answers)
    index = {name: position for position, name in enumerate(rules)}
    results: list[Json] = []
    for answer in answers.plans:
        path = answer.checked.path
        results.extend(_result(finding, path, index) for finding in answer.checked.findings)
        results.extend(_suppressed(waived, path, index) for waived in answer.checked.waived)
    return {
        "tool": {"driver": {"name": "stacklint", "version": __version__, "rules": list(rules.values())}},
        # 3.14.17: columns are counted as Python counts characters.
        "columnKind": "unicodeCodePoints",
        "invocations": [_invocation(answers.troubles)],
        "results": results,
    }


def _rules_met(answers: Answers) -> dict[str, Json]:
    """A descriptor for each rule that found something, in the order of first meeting."""
    found: dict[str, Json] = {}
    for answer in answers.plans:
        waived = (each.finding for each in answer.checked.waived)
        for name in (finding.rule for finding in (*answer.checked.findings, *waived)):
            if name not in found:
                rule = answer.book.rule(name)
                found[name] = _descriptor(rule) if rule else {"id": name}
    return found


def _descriptor(rule: Rule) -> Json:
    limits = [_limit(limit) for limit in rule.limits]
    descriptor: Json = {
        "id": rule.name,
        "shortDescription": {"text": _text(f"{rule.title}.")},
        "help": {"text": "\n".join(_text(part) for part in (rule.why, *limits))},
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


def _result(finding: Finding, path: str, index: dict[str, int]) -> Json:
    sentences = (finding.message, finding.instead, also(finding), finding.caution or "")
    location = _location(finding.where, path)
    if finding.stack:
        location["logicalLocations"] = [{"name": plain(finding.stack), "kind": "object"}]
    result: Json = {
        "ruleId": finding.rule,
        "ruleIndex": index[finding.rule],
        "level": finding.level.value,
        "message": {"text": _text(" ".join(sentence for sentence in sentences if sentence))},
        "locations": [location],
    }
    figures = {"found": _measure(finding.found), "limit": _measure(finding.limit)}
    if known := {name: figure for name, figure in figures.items() if figure}:
        result["properties"] = known
    return result


def _suppressed(waived: Waived, path: str, index: dict[str, int]) -> Json:
    # 3.35.2: a suppression that stands in the text itself is "inSource".
    suppression: Json = {"kind": "inSource"}
    if waived.waiver.reason:
        suppression["justification"] = plain(waived.waiver.reason)
    return _result(waived.finding, path, index) | {"suppressions": [suppression]}


def _location(where: Where, path: str = "") -> Json:
    """``path`` is the text's where the place names none."""
    artifact = {"uri": uri(where.path or path)}
    return {"physicalLocation": {"artifactLocation": artifact, "region": _region(where)}}


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


def _invocation(troubles: Iterable[Trouble]) -> Json:
    notifications = [_notification(trouble) for trouble in troubles]
    invocation: Json = {"executionSuccessful": not notifications}
    if notifications:
        invocation["toolExecutionNotifications"] = notifications
    return invocation


def _notification(trouble: Trouble) -> Json:
    """A trouble at one place names it as its location (3.58.4); else its message names the file."""
    notification: Json = {"level": Level.ERROR.value}
    if trouble.where is None:
        return notification | {"message": {"text": _text(f"{trouble.path}: {trouble.message}")}}
    return notification | {"message": {"text": _text(trouble.message)}, "locations": [_location(trouble.where)]}


def uri(path: str) -> str:
    """``path`` as a URI reference (RFC 3986): relative as it was written, ``file:`` where it is absolute."""
    if Path(path).is_absolute():
        return Path(path).as_uri()
    return quote(os.fsencode(path.replace(os.sep, "/")), safe="/")
