"""Pieces of Markdown (CommonMark 0.31; tables as most editors show them), with every text of a plan escaped."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

_MEANS_SOMETHING = re.compile(r"([\\`*_{}\[\]<>#|~&@]|^[+-]|:(?=//)|(?<=www)\.)")
"""Signs of emphasis, links, code, tables and markup, and what editors make links of by themselves."""


def escaped(text: str) -> str:
    """A text that Markdown takes as it stands, on one line."""
    return _MEANS_SOMETHING.sub(r"\\\1", " ".join(text.split()))


def listed_items(items: Iterable[tuple[str, str]]) -> str:
    """A list of labels and what goes with them; what has nothing to say is left out."""
    return "\n".join(f"- {escaped(label)}: {escaped(text)}" for label, text in items if text)


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    lines = [head, ["---"] * len(head)]
    shown = ["| " + " | ".join(lines[0]) + " |", "|" + "|".join(lines[1]) + "|"]
    shown += ["| " + " | ".join(escaped(cell) for cell in row) + " |" for row in rows]
    return "\n".join(shown)
