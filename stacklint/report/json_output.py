"""Findings and figures as JSON, described by a JSON Schema that is generated from the models here."""

from __future__ import annotations

import io
import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from tempfile import SpooledTemporaryFile
from types import MappingProxyType
from typing import IO, Any

from pydantic import Field

from stacklint import __version__
from stacklint.faults import Measure
from stacklint.files import Trouble
from stacklint.findings import Level, Related
from stacklint.plan.stack import StackKind
from stacklint.report.accepted import Accepted
from stacklint.report.answer import Answers
from stacklint.report.json_stream import Laid, pieces
from stacklint.report.kept import Kept, Told, ToldWaived, kept
from stacklint.report.stack_figures import Model, StackFigures, finite

IsAccepted = Callable[[Told], bool]
"""Whether a finding was recorded before."""
_IN_MEMORY = 8_000_000
"""Bytes that wait in memory; what is beyond waits on disk."""


class Amount(Model):
    value: float = Field(allow_inf_nan=False)
    unit: str = Field(description="the SI unit; C for degrees Celsius, 1 for a plain number or a share")

    @classmethod
    def of(cls, measure: Measure | None) -> Amount | None:
        value = finite(measure.value) if measure else None
        if measure is None or value is None:
            return None
        return cls(value=value, unit=measure.dimension.si)


class RelatedOutput(Model):
    """Another place that has a share in a finding: the pile that stands in the spot already."""

    path: str
    line: int
    column: int
    words: str = Field(description="what is there")

    @classmethod
    def of(cls, related: Related, path: str) -> RelatedOutput:
        where = related.where
        return cls(path=where.path or path, line=max(where.line, 1), column=max(where.column, 1), words=related.words)


class FindingOutput(Model):
    rule: str
    level: Level
    message: str
    instead: str = Field(description="what to do")
    stack: str | None = Field(description="the pile or charge; null for the plan as a whole")
    path: str = Field(description="the text that the place is in, where a plan uses others")
    line: int = Field(description="counted from 1, as are columns")
    column: int
    end_line: int
    end_column: int = Field(description="one past the last character")
    found: Amount | None
    limit: Amount | None
    more: int = Field(description="other places on the same line of which the same would be said")
    caution: str | None = Field(description="a sentence of safety that goes with the finding")
    related: tuple[RelatedOutput, ...] = Field(description="other places that have a share in it, in any text")
    fingerprint: str = Field(description="the same for the same finding after an unrelated change")
    accepted: bool = Field(description="recorded with --accept-today before: it does not fail the check")

    @classmethod
    def of(cls, told: Told, path: str, accepted: IsAccepted) -> FindingOutput:
        return cls.model_validate(_finding(told, path, accepted))


class WaivedOutput(FindingOutput):
    """A finding that a waive statement keeps silent."""

    reason: str | None
    until: str | None = Field(description="the last day that the waiver holds, ISO 8601")

    @classmethod
    def of_waived(cls, told: ToldWaived, path: str) -> WaivedOutput:
        finding, waiver = told.waived
        until = waiver.until.date.isoformat() if waiver.until else None
        said = _finding(Told(finding, told.fingerprint), path, _none)
        return cls.model_validate(said | {"reason": waiver.reason, "until": until})


class StackOutput(Model):
    name: str
    kind: StackKind
    title: str | None
    facts: StackFigures | None = Field(description="null where faults of the text stood in the way")


class PlanOutput(Model):
    path: str
    stacks: tuple[StackOutput, ...] = Field(description="none where --since tells only what is found between plans")
    findings: tuple[FindingOutput, ...]
    waived: tuple[WaivedOutput, ...]

    @classmethod
    def of(cls, plan: Kept, accepted: IsAccepted) -> PlanOutput:
        stacks = (
            StackOutput(name=stack.name, kind=stack.kind, title=stack.title, facts=figures)
            for stack, figures in zip(plan.stacks, plan.figures, strict=True)
            if stack.kind is not None
        )
        return cls(
            path=plan.path,
            stacks=tuple(stacks),
            findings=tuple(FindingOutput.of(told, plan.path, accepted) for told in plan.findings),
            waived=tuple(WaivedOutput.of_waived(told, plan.path) for told in plan.waived),
        )


class Unread(Model):
    """A file that could not be read, and why; or a fault in a rule file, with its place."""

    path: str
    message: str
    line: int | None = Field(description="where one place is at fault, counted from 1; null where the file is")
    column: int | None

    @classmethod
    def of(cls, trouble: Trouble) -> Unread:
        where = trouble.where
        line, column = (where.line, where.column) if where is not None else (None, None)
        return cls(path=trouble.path, message=trouble.message, line=line, column=column)


class Gone(Model):
    """A finding that was recorded with --accept-today and is found no more."""

    rule: str
    level: Level
    path: str
    stack: str | None
    message: str = Field(description="as it was recorded")
    fingerprint: str

    @classmethod
    def of(cls, accepted: Accepted) -> Gone:
        return cls(
            rule=accepted.rule,
            level=accepted.level,
            path=accepted.path,
            stack=accepted.stack or None,
            message=accepted.message,
            fingerprint=accepted.fingerprint,
        )


class Output(Model):
    """What ``stacklint check --as json`` prints."""

    stacklint: str = Field(description="the version that wrote this")
    plans: tuple[PlanOutput, ...]
    unread: tuple[Unread, ...]
    gone: tuple[Gone, ...]


class JsonReport:
    """Takes plan after plan; those that wait for what is found in the yard as a whole wait on disk."""

    def __init__(self, accepted: IsAccepted | None = None) -> None:
        self._accepted = accepted or _none
        self._waiting = SpooledTemporaryFile(  # noqa: SIM115 - it ends with the report
            max_size=_IN_MEMORY, mode="w+", encoding="ascii", newline="\n"
        )
        self._plans: list[tuple[str, int, int]] = []

    def plan(self, plan: Kept) -> None:
        self._wait(PlanOutput.of(plan, self._accepted))

    def write(
        self,
        out: IO[str],
        yard: Mapping[str, tuple[Sequence[Told], Sequence[ToldWaived]]] = MappingProxyType({}),
        troubles: Iterable[Trouble] = (),
        gone: Iterable[Accepted] = (),
    ) -> None:
        """Writes all the plans, each with what is found of it in the ``yard``, by its path; of a plan that was not told
        of, that alone."""
        told = {path for path, *_ in self._plans}
        for path in (each for each in yard if each not in told):
            self._wait(PlanOutput(path=path, stacks=(), findings=(), waived=()))
        output = {
            "stacklint": __version__,
            "plans": (Laid(self._laid(place, yard)) for place in self._plans),
            "unread": [_plain(Unread.of(trouble)) for trouble in troubles],
            "gone": [_plain(Gone.of(each)) for each in gone],
        }
        out.writelines(pieces(output))
        out.write("\n")

    def _wait(self, plan: PlanOutput) -> None:
        text = written(plan)
        self._plans.append((plan.path, self._waiting.tell(), len(text)))
        self._waiting.write(text)

    def _laid(
        self, place: tuple[str, int, int], yard: Mapping[str, tuple[Sequence[Told], Sequence[ToldWaived]]]
    ) -> str:
        path, start, length = place
        self._waiting.seek(start)
        text = self._waiting.read(length)
        if path not in yard:
            return text
        findings, waived = yard[path]
        plan = json.loads(text)
        plan["findings"] += [_plain(FindingOutput.of(told, path, self._accepted)) for told in findings]
        plan["waived"] += [_plain(WaivedOutput.of_waived(told, path)) for told in waived]
        for found in (plan["findings"], plan["waived"]):
            found.sort(key=lambda each: _place(each, path))
        return json.dumps(plan, indent=1, allow_nan=False)


def as_json(answers: Answers) -> str:
    """The answers as a JSON text that any encoding carries."""
    report = JsonReport()
    for answer in answers.plans:
        report.plan(kept(answer.checked))
    out = io.StringIO()
    report.write(out, troubles=answers.troubles)
    return out.getvalue().rstrip("\n")


def written(output: Model) -> str:
    return json.dumps(output.model_dump(mode="json"), indent=1, allow_nan=False)


def schema(output: type[Model] = Output) -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of an output."""
    return {"$schema": "https://json-schema.org/draft/2020-12/schema"} | output.model_json_schema(mode="serialization")


def _plain(output: Model) -> Any:
    return output.model_dump(mode="json")


def _none(_: Told) -> bool:
    return False


def _place(found: Mapping[str, Any], path: str) -> tuple[bool, str, int, int, int]:
    """As the findings of a plan are sorted: see :func:`stacklint.checked.place_order`."""
    place = found["path"] != path, found["path"], found["line"], found["column"]
    return (*place, -Level(found["level"]).rank)


def _finding(told: Told, path: str, accepted: IsAccepted) -> dict[str, object]:
    finding = told.finding
    where = finding.where
    return {
        "rule": finding.rule,
        "level": finding.level,
        "message": finding.message,
        "instead": finding.instead,
        "stack": finding.stack,
        "path": where.path or path,
        "line": max(where.line, 1),
        "column": max(where.column, 1),
        "end_line": max(where.end_line, 1),
        "end_column": max(where.end_column, 1),
        "found": Amount.of(finding.found),
        "limit": Amount.of(finding.limit),
        "more": finding.more,
        "caution": finding.caution,
        "related": tuple(RelatedOutput.of(related, path) for related in finding.related),
        "fingerprint": told.fingerprint,
        "accepted": accepted(told),
    }
