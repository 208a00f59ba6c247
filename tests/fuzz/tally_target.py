"""Fuzz target ``tally``: a text in comma-separated values is made a pile."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from fuzz.plan_target import TODAY

from stacklint.changes import with_line_ends
from stacklint.convert.convert import convert
from stacklint.convert.headings import Column
from stacklint.convert.table import TableTrouble
from stacklint.language import read
from stacklint.units import Unit

HEADINGS = (
    *("species", "size", "thickness (in)", "width (mm)", "length ft", "qty", "pcs", "no.", "bf", "% MC", "MBF", "m3"),
    *("notes", "grade", "#", "T", "W", "L", "quarters", "volume in bf"),
)
CELLS = (
    *("oak, white", "white ash", "4/4", "5/4x6x10'", "2x8-16", "27 x 150 mm", "6 to 9 in", "random", "1,5", "1,500"),
    *("8' 6\"", '"', '""', "\n", "\r\n", ",", ";", "\t", "\x00", "1/0", "9" * 400, "1e308", "-1", "12%", "1 1/4", "#"),
)
_ROOT = Path(__file__).parents[2]


def seeds() -> Iterator[bytes]:
    """The tallies of the examples, and small ones in every notation."""
    for file in sorted((_ROOT / "examples").rglob("*.csv")):
        yield file.read_bytes()
    yield b"species,thickness,width,length,count\nwhite ash,4/4,6 in,8 ft,60\nred oak,5/4,random,10',12\n"
    yield b"species;T (mm);W (mm);L (m);qty;notes\noak, white;27;150;2,4;12;wet\nfir;27;120 to 150;3,0;7;\n"
    yield b"Tally of the north lot\n\nsize\tpcs\twood\tMC\n5/4x6x10'\t40\twhite ash\t12%\n2x8-16\t3\tpine\tgreen\n"
    yield b'size,"bf",wood\n"4/4 x 6"" x 8\'",350,white ash\n27 x 150 mm x 2.4 m,"1,400",beech\n'


def words() -> tuple[str, ...]:
    """Headings, and what cells may say."""
    return (*(column.value for column in Column), *HEADINGS, *CELLS, *(unit.symbol for unit in Unit if unit.symbol))


def examine(data: bytes) -> None:
    text = with_line_ends(data.decode("utf-8", "replace"), "\n")
    for wood, together in ((None, False), ("white ash", True)):
        made = convert(text, "north lot", wood=wood, together=together)
        if isinstance(made, TableTrouble):
            assert made.message
            continue
        found = read(made.text, today=TODAY)
        assert found.faults == (), f"what comes out is faulty: {found.faults[:1]}"
        assert len(found.plan.stacks) == 1
        for row in made.unread:
            assert 1 <= row.line <= text.count("\n") + 1
            assert f"line {row.line}, not read" in made.text
