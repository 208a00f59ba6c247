"""Every row of every table says where it is from."""

from __future__ import annotations

from importlib.resources import files

import pytest

from stacklint.tables import woods
from stacklint.tables.rows import read

TABLES = sorted(
    entry.name.removesuffix(".csv") for entry in files("stacklint.tables").iterdir() if entry.name.endswith(".csv")
)
HOW = {"found", "memory", "none", "derived", "computed", "computed from found", "computed from memory"}


@pytest.mark.parametrize("table", TABLES)
def test_every_row_has_a_source(table: str) -> None:
    for row in read(table):
        sources = [cell for column, cell in row.items() if column.startswith("source")]
        assert any(sources), row


@pytest.mark.parametrize("table", TABLES)
def test_every_row_that_says_how_it_was_got_uses_the_known_words(table: str) -> None:
    for row in read(table):
        for word in row.get("how", "found").split(";"):
            assert word.rpartition(":")[2] in HOW, row


def test_there_are_more_than_sixty_woods() -> None:
    assert len(woods.names()) >= 60
    assert len(set(woods.names())) == len(woods.names())
