"""Findings and figures as JSON, described by a JSON Schema that is generated from the models here."""

from __future__ import annotations

import json
from typing import Any

from pydantic import Field

from stacklint import __version__
from stacklint.checked import CheckedPlan, CheckedStack, Waived
from stacklint.faults import Measure
from stacklint.files import Trouble
from stacklint.findings import Finding, Level
from stacklint.plan.stack import StackKind
from stacklint.report.answer import Answers
from stacklint.report.stack_figures import Model, StackFigures, finite


class Amount(Model):
    value: float = Field(allow_inf_nan=False)
    unit: str = Field(description="the SI unit; C for degrees Celsius, 1 for a plain number or a share")

    @classmethod
    def of(cls, measure: Measure | None) -> Amount | None:
        value = finite(measure.value) if measure else None
        if measure is None or value is None:
            return None
        return cls(value=value, unit=measure.dimension.si)


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

    @classmethod
    def of(cls, finding: Finding, path: str) -> FindingOutput:
        return cls.model_validate(_finding(finding, path))


class WaivedOutput(FindingOutput):
    """A finding that a waive statement keeps silent."""

    reason: str | None
    until: str | None = Field(description="the last day that the waiver holds, ISO 8601")

    @classmethod
    def of_waived(cls, waived: Waived, path: str) -> WaivedOutput:
        until = waived.waiver.until.date.isoformat() if waived.waiver.until else None
        return cls.model_validate(_finding(waived.finding, path) | {"reason": waived.waiver.reason, "until": until})


class StackOutput(Model):
    name: str
    kind: StackKind
    title: str | None
    facts: StackFigures | None = Field(description="null where faults of the text stood in the way")

    @classmethod
    def of(cls, checked: CheckedStack) -> StackOutput:
        stack = checked.stack
        figures = StackFigures.of(checked.facts, checked.forecast) if checked.facts else None
        return cls(name=stack.name.text, kind=stack.kind, title=stack.title, facts=figures)


class PlanOutput(Model):
    path: str
    stacks: tuple[StackOutput, ...]
    findings: tuple[FindingOutput, ...]
    waived: tuple[WaivedOutput, ...]

    @classmethod
    def of(cls, checked: CheckedPlan) -> PlanOutput:
        return cls(
            path=checked.path,
            stacks=tuple(StackOutput.of(stack) for stack in checked.stacks),
            findings=tuple(FindingOutput.of(finding, checked.path) for finding in checked.findings),
            waived=tuple(WaivedOutput.of_waived(waived, checked.path) for waived in checked.waived),
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


class Output(Model):
    """What ``stacklint check --as json`` prints."""

    stacklint: str = Field(description="the version that wrote this")
    plans: tuple[PlanOutput, ...]
    unread: tuple[Unread, ...]

    @classmethod
    def of(cls, answers: Answers) -> Output:
        return cls(
            stacklint=__version__,
            plans=tuple(PlanOutput.of(answer.checked) for answer in answers.plans),
            unread=tuple(Unread.of(trouble) for trouble in answers.troubles),
        )


def as_json(answers: Answers) -> str:
    """The answers as a JSON text that any encoding carries."""
    return written(Output.of(answers))


def written(output: Model) -> str:
    return json.dumps(output.model_dump(mode="json"), indent=1, allow_nan=False)


def schema(output: type[Model] = Output) -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of an output."""
    return {"$schema": "https://json-schema.org/draft/2020-12/schema"} | output.model_json_schema(mode="serialization")


def _finding(finding: Finding, path: str) -> dict[str, object]:
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
    }
