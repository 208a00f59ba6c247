"""The table of limits in DEVELOPERS.md has the figures of the code."""

from __future__ import annotations

import re
from importlib import import_module
from pathlib import Path

import pytest

ROWS = re.findall(
    r"^\| .+ \| ([\d,]+) \| `([\w.]+)\.(\w+)` \|$",
    (Path(__file__).parent.parent / "DEVELOPERS.md").read_text(encoding="utf-8"),
    re.MULTILINE,
)


def test_there_is_a_table() -> None:
    assert len(ROWS) > 20


@pytest.mark.parametrize("figure, module, name", ROWS)
def test_a_limit_is_what_the_table_says(figure: str, module: str, name: str) -> None:
    assert getattr(import_module(f"stacklint.{module}"), name) == int(figure.replace(",", ""))
