"""Pieces of Markdown (CommonMark 0.31; tables as most editors show them), with every text of a plan escaped."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from stacklint.report.plain import plain

_MEANS_SOMETHING = re.compile(r"([\\`*_{}\[\]<>#|~&@]|^[+-]|:(?=//)|(?<=www)\.)")
"""Signs of emphasis, links, code, tables and markup, and what editors make links of by themselves."""


def escaped(text: str) -> str:
    """A text that Markdown takes as it stands, on one line."""
    return _MEANS_SOMETHING.sub(r"\\\1", " ".join(plain(text).split()))


def code(text: str) -> str:
    """A text as code: between more backticks in a row than it holds (CommonMark 0.31, 6.1)."""
    shown = " ".join(plain(text).split())
    fence = "`" * (max((len(run) for run in re.findall("`+", shown)), default=0) + 1)
    blank = " " if "`" in (shown[:1], shown[-1:]) else ""
    return f"{fence}{blank}{shown}{blank}{fence}"


def listed_items(items: Iterable[tuple[str, str]]) -> str:
    """A list of labels and what goes with them; what has nothing to say is left out."""
    return "\n".join(f"- {escaped(label)}: {escaped(text)}" for label, text in items if text)


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    lines = [head, ["---"] * len(head)]
    shown = ["| " + " | ".join(lines[0]) + " |", "|" + "|".join(lines[1]) + "|"]
    shown += ["| " + " | ".join(escaped(cell) for cell in row) + " |" for row in rows]
    return "\n".join(shown)
