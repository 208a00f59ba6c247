"""A tally beyond all measure is told with its limit, row by row; what is just within is read like any other."""

from __future__ import annotations

import pytest

from stacklint.convert import Converted, convert
from stacklint.convert.cells import LONGEST
from stacklint.convert.table import LONGEST_LINE, MOST_ROWS

HEADINGS = "species,thickness,width,length,count,notes\n"
ROW = "white ash,4/4,6 in,8 ft,60,"
AROUND = [pytest.param(-1, id="below"), pytest.param(0, id="at"), pytest.param(1, id="above")]


def converted(text: str) -> Converted:
    made = convert(text, "north lot")
    assert isinstance(made, Converted)
    return made


@pytest.mark.parametrize("more", AROUND)
def test_rows_of_a_tally(more: int) -> None:
    made = converted(HEADINGS + f"{ROW}\n" * (MOST_ROWS + more))
    assert made.text.count("\n  boards ") == min(MOST_ROWS, MOST_ROWS + more)
    assert [f"{MOST_ROWS:,} rows" in note for note in made.notes] == [True] * (more > 0)


@pytest.mark.parametrize("more", AROUND)
def test_characters_of_a_cell(more: int) -> None:
    made = converted(f"{HEADINGS}{ROW}{'x' * (LONGEST + more)}\n")
    assert [f"{LONGEST + more:,} characters" in row.why for row in made.unread] == [True] * (more > 0)


@pytest.mark.parametrize("more", AROUND)
def test_characters_of_a_line(more: int) -> None:
    made = converted(f"{HEADINGS}{ROW}{',' * (LONGEST_LINE - len(ROW) + more)}\n")
    assert [f"{LONGEST_LINE:,} characters" in row.why for row in made.unread] == [True] * (more > 0)
