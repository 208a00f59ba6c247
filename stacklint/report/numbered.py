"""Findings numbered for paper: a number on the drawing stands for the finding that bears it in the list."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from stacklint.findings import Finding


class Numbered(NamedTuple):
    """A finding and its number, from 1 on."""

    number: int
    finding: Finding


def numbered(findings: Iterable[Finding]) -> tuple[Numbered, ...]:
    """The findings of one stack as the screen tells them: the gravest first, else in the order of the plan."""
    ordered = sorted(findings, key=lambda finding: -finding.level.rank)
    return tuple(Numbered(number, finding) for number, finding in enumerate(ordered, 1))
