"""A tally in comma-separated values (RFC 4180) becomes a pile that says the same."""

from __future__ import annotations

from itertools import islice

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.convert import Converted, TableTrouble, convert
from stacklint.convert.table import MOST_ROWS
from stacklint.language import read
from stacklint.plan.boards import Boards, MoistureWord
from stacklint.units import Unit

HEADINGS = "species,thickness,width,length,count"


def converted(text: str, **options: object) -> Converted:
    made = convert(text, "tally", **options)  # type: ignore[arg-type]
    assert isinstance(made, Converted), made
    return made


def boards_of(made: Converted) -> list[Boards]:
    """What the plan says of its boards, read back without a fault."""
    plan = read(made.text)
    assert plan.faults == ()
    (pile,) = plan.plan.stacks
    return list(pile.boards)


def boards_in(text: str, **options: object) -> list[Boards]:
    made = converted(text, **options)
    assert made.unread == ()
    return boards_of(made)


def lines(text: str, **options: object) -> list[str]:
    """The ``boards`` statements without their labels."""
    made = converted(text, **options)
    assert made.unread == ()
    boards_of(made)
    return [line.split(": ", 1)[1] for line in made.text.splitlines() if line.startswith("  boards ")]


def told(text: str, **options: object) -> str:
    """Why the only row that cannot be read is not."""
    made = converted(text, **options)
    boards_of(made)
    (row,) = made.unread
    return row.why


def test_each_row_of_a_tally_is_a_line_of_boards() -> None:
    assert lines(f"{HEADINGS}\nwhite ash,4/4,6 in,8 ft,60\nblack cherry,27 mm,150 mm,2.4 m,12\n") == [
        "60 of white ash 4/4 x 6 in x 8 ft",
        "12 of black cherry 27 mm x 150 mm x 2.4 m",
    ]


@pytest.mark.parametrize(
    "heads",
    [
        "wood,thick,wide,long,pieces",
        "Timber;T;W;L;No.",
        "Lumber\tThk\tWidth\tLen\tPcs",
        "SPECIES,Thickness:,Width:,Length:,Qty",
    ],
)
def test_everyday_headings_are_known_whatever_parts_the_cells(heads: str) -> None:
    mark = next(mark for mark in ",;\t" if mark in heads)
    row = mark.join(["white ash", "4/4", "6 in", "8 ft", "60"])
    assert lines(f"{heads}\n{row}\n") == ["60 of white ash 4/4 x 6 in x 8 ft"]


def test_columns_may_stand_in_any_order() -> None:
    assert lines("qty,length,moisture,width,wood,thickness\n60,8',green,6\",white ash,5/4\n") == [
        "60 of white ash 5/4 x 6 in x 8 ft, green"
    ]


@pytest.mark.parametrize(
    "heads, row, line",
    [
        ("species,thickness (in),width (in),length (ft),qty", "white ash,1,6,8,60", "1 in x 6 in x 8 ft"),
        ("species,thickness_mm,width_mm,length_mm,qty", "white ash,27,150,2400,60", "27 mm x 150 mm x 2400 mm"),
        ("species,T mm,W mm,L [m],qty", "white ash,27,150,2.4,60", "27 mm x 150 mm x 2.4 m"),
        ("species,quarters,width in inches,length in feet,qty", "", ""),
        ("species,thickness (quarters),width in inches,length in feet,qty", "white ash,5,6-9,8,60", "5/4 x 6 to 9 in"),
        ("species,thickness (in),width (in),length (ft),qty", "white ash,5/4,6,8' 6\",60", "5/4 x 6 in x 102 in"),
        ("species,thickness,width,length,qty", "white ash,1,4-6,8 ft,60", "1 in x 4 to 6 in x 8 ft"),
        ("species,size (mm),qty", "white ash,27x150x2400,60", "27 mm x 150 mm x 2400 mm"),
    ],
)
def test_a_unit_in_the_heading_counts_for_bare_figures_alone(heads: str, row: str, line: str) -> None:
    if not row:
        assert isinstance(convert(f"{heads}\nwhite ash,5,6,8,60\n", "x"), TableTrouble)
        return
    (found,) = lines(f"{heads}\n{row}\n")
    assert f"of white ash {line}" in found


@pytest.mark.parametrize(
    "size, line",
    [
        ("5/4x6x10'", "5/4 x 6 in x 10 ft"),
        ("2x8-16", "2 in x 8 in x 16 ft"),
        ("2x8-16'", "2 in x 8 in x 16 ft"),
        ("2x6 x 16'", "2 in x 6 in x 16 ft"),
        ('4/4 x 6-9" x 8 ft', "4/4 x 6 to 9 in x 8 ft"),
        ("27 mm × 150 mm × 2.4 m", "27 mm x 150 mm x 2.4 m"),
        ('1 1/4" by 6" by 8\' 6"', "1 1/4 in x 6 in x 102 in"),
        ("3\" thick x 3' wide x 10' long", "3 in x 3 ft x 10 ft"),
    ],
)
def test_a_size_is_read_as_the_trade_writes_it(size: str, line: str) -> None:
    quoted = size.replace('"', '""')
    assert lines(f'species,size,qty\nwhite ash,"{quoted}",30\n') == [f"30 of white ash {line}"]


def test_a_length_in_a_cell_of_its_own_completes_a_size() -> None:
    assert lines("species,size,length (ft),qty\nwhite ash,5/4x6-9,10,30\n") == [
        "30 of white ash 5/4 x 6 to 9 in x 10 ft"
    ]


@pytest.mark.parametrize(
    "heads, amount, line",
    [
        ("count", "60 pcs", "60 of"),
        ("count", '"1,400"', "1400 of"),
        ("count", "60.0", "60 of"),
        ("qty", "800 bdft", "800 bf of"),
        ("qty (bf)", "800", "800 bf of"),
        ("volume", "0.4 m3", "0.4 m3 of"),
        ("m3", "0.4", "0.4 m3 of"),
        ("bf", "800", "800 bf of"),
        ("board feet", '"1,200"', "1200 bf of"),
        ("volume (MBF)", "1.5", "1500 bf of"),
    ],
)
def test_how_many_or_how_much_is_read_as_it_is_written(heads: str, amount: str, line: str) -> None:
    (found,) = lines(f"species,size,{heads}\nwhite ash,4/4 x 6 in x 8 ft,{amount}\n")
    assert found.startswith(line)


@pytest.mark.parametrize("amount", ["1/0", "9" * 400])
def test_an_amount_beyond_all_figures_is_told_not_taken(amount: str) -> None:
    assert "expected a volume" in told(f"species,size,bf\nwhite ash,4/4 x 6 in x 8 ft,{amount}\n")


@pytest.mark.parametrize(
    "heads, cell, moisture",
    [
        ("mc", "green", MoistureWord.GREEN),
        ("mc", "AD", MoistureWord.AIR_DRIED),
        ("moisture", "kiln-dried", MoistureWord.KILN_DRIED),
        ("moisture", "18% MC", 18),
        ("moisture content (%)", "18", 18),
        ("% MC", "18", 18),
    ],
)
def test_moisture_is_a_word_or_a_percentage(heads: str, cell: str, moisture: object) -> None:
    (boards,) = boards_in(f"species,size,qty,{heads}\nwhite ash,4/4x6x8',3,{cell}\n")
    assert getattr(boards.moisture, "number", boards.moisture) == moisture


def test_a_comma_in_cells_that_semicolons_part_is_a_decimal_mark() -> None:
    (boards,) = boards_in("wood;thickness (mm);width (mm);length (m);count\nwhite ash;27;150;2,4;12\n")
    assert (boards.length.number, boards.length.unit) == (2.4, Unit.METRE)


def test_a_comma_that_may_part_thousands_as_well_is_not_guessed_at() -> None:
    assert "2,400 may be 2.400 or 2400" in told("wood;size;length (m);count\nwhite ash;27 mm x 150 mm;2,400;12\n")


def test_a_wood_named_back_to_front_is_turned_about() -> None:
    assert lines('species,size,qty\n"oak, white",4/4x6x8\',3\n') == ["3 of white oak 4/4 x 6 in x 8 ft"]


def test_a_stray_quotation_mark_beside_a_wood_is_no_part_of_its_name() -> None:
    assert lines('species;size;qty\noak, white";4/4x6x8\';1\n') == ["1 of white oak 4/4 x 6 in x 8 ft"]


def test_one_wood_may_be_said_for_all_rows() -> None:
    assert lines("size,qty\n4/4x6x8',3\n", wood="white ash") == ["3 of white ash 4/4 x 6 in x 8 ft"]


@pytest.mark.parametrize(
    "row, why",
    [
        (",4/4,6 in,8 ft,3", "expected the wood, found nothing"),
        ("oak,4/4,6 in,8 ft,3", "white oak"),
        ("white ash,,6 in,8 ft,3", "expected the thickness, found nothing"),
        ("white ash,4/4,,8 ft,3", "write random for random widths"),
        ("white ash,4/4,6 in,eight,3", "expected a length such as 8 ft or 2.4 m, found 'eight'"),
        ("white ash,4/4,6 in,8,3", "8 has no unit"),
        ("white ash,4/4,6 in,8 ft,a bunk", "expected a number of boards such as 60, found 'a bunk'"),
        ("white ash,4/4,6 in,8 ft,", "expected how many boards or how much lumber, found nothing"),
        ("white ash,4/4,6 in,8 ft,2.5", "2.5 is not a whole number"),
        ("white ash,4/4,6 in,800 ft,3", "800 ft cannot be"),
        ("white ash,27 mm,150-200,2.4 m,3", "expected a width with its unit, such as 6 to 9 in, found '150 to 200'"),
        ("white ash,4,6-9,2.4 m,3", "expected a width with its unit"),
        ("white ash,25 in,2 in,7 ft,3", "thickness cannot be more than its width"),
        ("white ash,2/4,6 in,8 ft,3", "expected a thickness"),
        ("white ash,4/4,6 in,8 ft,3,extra", "6 cells under 5 headings"),
        ('white ash,4/4,"6" in,8 ft,3', "must end with one"),
        ('white ash,4/4,"6 in,8 ft,3', "must end with one"),
    ],
)
def test_a_row_that_cannot_be_read_is_told_kept_and_does_not_stop_the_others(row: str, why: str) -> None:
    made = converted(f"{HEADINGS}\nwhite ash,4/4,6 in,8 ft,1\n{row}\nwhite ash,4/4,6 in,8 ft,2\n")
    assert [boards.count for boards in boards_of(made)] == [1, 2]
    (unread,) = made.unread
    assert unread.line == 3
    assert why in unread.why
    assert "  # line 3, not read: " in made.text


def test_what_a_row_that_cannot_be_read_says_stands_in_the_plan() -> None:
    made = converted(f"{HEADINGS}\nwhite ash,4/4,6 in,eight,1\n")
    assert "  # line 2, not read: white ash | 4/4 | 6 in | eight | 1" in made.text.splitlines()


def test_a_cell_over_several_lines_does_not_put_the_line_numbers_out() -> None:
    made = converted('species,size,qty,notes\nwhite ash,4/4x6x8\',1,"two\nlines"\nwhite ash,odd,1,\n')
    assert [row.line for row in made.unread] == [4]
    assert "# two lines" in made.text


def test_notes_and_titles_are_kept_as_comments_and_other_columns_are_told() -> None:
    made = converted(
        "Tally of 3 May\n\nspecies,size,qty,volume,grade,notes,sawyer\nwhite ash,4/4x6x8',60,240 bf,FAS,# wet #,Jo\n"
    )
    boards_of(made)
    assert "  # Tally of 3 May" in made.text
    assert "x 8 ft  # # wet #; volume: 240 bf\n" in made.text
    assert [note.split(" was left out")[0] for note in made.notes] == ["the column sawyer", "the column grade"]


def test_rows_that_are_alike_are_summed_when_asked() -> None:
    text = (
        "species,size,qty,notes\nwhite ash,4/4x6x8',60,first\nwhite ash,4/4x6x10',1,\nwhite ash,4/4x6x8',40,second\n"
        "white ash,4/4x6x8',0.1 m3,\nwhite ash,4/4x6x8',0.2 m3,\n"
    )
    assert lines(text, together=True) == [
        "100 of white ash 4/4 x 6 in x 8 ft",
        "1 of white ash 4/4 x 6 in x 10 ft",
        "0.3 m3 of white ash 4/4 x 6 in x 8 ft",
    ]
    assert len(lines(text)) == 5
    made = converted(text, together=True)
    assert made.text.index("# first") < made.text.index("# second") < made.text.index("boards a")


def test_a_sum_never_outgrows_what_one_statement_may_say() -> None:
    # stacklint checks up to 100,000 boards in a group.
    counts = [
        boards.count for boards in boards_in("species,size,qty\n" + "white ash,4/4x6x8',60000\n" * 3, together=True)
    ]
    assert counts == [60_000, 60_000, 60_000]


def test_labels_go_on_after_z() -> None:
    rows = "".join(f"white ash,4/4 x 6 in x {length / 4} ft,3\n" for length in range(4, 34))
    labels = [boards.label.text for boards in boards_in("species,size,qty\n" + rows)]
    assert labels[:2] == ["a", "b"]
    assert labels[25:28] == ["z", "aa", "ab"]
    assert len(set(labels)) == len(labels)


def test_no_more_rows_are_read_than_a_tally_of_a_stack_has() -> None:
    made = converted("size,qty\n" + "odd,3\n" * (MOST_ROWS + 1), wood="white ash")
    assert len(made.unread) == MOST_ROWS
    assert any("only the first 5,000 rows were read" in note for note in made.notes)


@pytest.mark.parametrize(
    "text, why",
    [
        ("", "no line of headings"),
        ("a few boards of ash\nand some oak\n", "no line of headings"),
        ("thickness,width,length,count\n4/4,6 in,8 ft,3\n", "no column that names the wood"),
        ("species,thickness,length,count\nwhite ash,4/4,8 ft,3\n", "no column for the width"),
        ("species,size\nwhite ash,4/4x6x8'\n", "how many or how much"),
    ],
)
def test_a_table_that_lacks_what_all_rows_need_is_told_whole(text: str, why: str) -> None:
    made = convert(text, "x")
    assert isinstance(made, TableTrouble)
    assert why in made.message


def test_a_column_that_numbers_the_rows_is_not_taken_for_counts() -> None:
    for heads, row in (
        ("No.,species,size,qty", "1,white ash,4/4x6x8',60"),
        ("qty,species,size,#", "60,white ash,4/4x6x8',1"),
    ):
        made = converted(f"{heads}\n{row}\n")
        assert [boards.count for boards in boards_of(made)] == [60]
        assert made.notes[0].endswith("was left out: it numbers the rows")
    numbered = convert("No.,species,size\n" + "".join(f"{number},white ash,4/4x6x8'\n" for number in range(1, 6)), "x")
    assert isinstance(numbered, TableTrouble)
    assert "numbers its rows in the column No." in numbered.message
    assert [b.count for b in boards_in("No.,species,size\n3,white ash,4/4x6x8'\n1,white ash,4/4x6x9'\n")] == [3, 1]


def test_of_two_columns_for_one_measure_none_is_guessed_at() -> None:
    # Feet and inches in columns of their own would lose the inches.
    made = convert("species,size,length (ft),length (in),qty\nwhite ash,4/4x6,8,6,3\n", "x")
    assert isinstance(made, TableTrouble)
    assert "two columns for the length, length (ft) and length (in)" in made.message


def test_a_second_column_of_notes_is_told() -> None:
    made = converted("species,size,qty,notes,remarks\nwhite ash,4/4x6x8',3,first,second\n")
    assert made.notes == ("the column remarks was left out: the column notes says the same",)


def test_a_heading_beyond_all_measure_is_none() -> None:
    made = converted(f"species,size,qty,{'length ' * 600}\nwhite ash,4/4x6x8',3,\n")
    assert len(made.notes) == 1


@pytest.mark.parametrize("cell", ["=1+1", "+cmd|' /C calc'!A0", "@SUM(A1)", "-2+3", "\x1b[31mred", "a\u202eb", "#REF!"])
def test_formulas_and_controls_in_a_tally_are_text(cell: str) -> None:
    made = converted(
        f'species,size,qty,notes\n"{cell}",4/4x6x8\',1,\nwhite ash,"{cell}",1,\nwhite ash,4/4x6x8\',"{cell}",\n'
        f'white ash,4/4x6x8\',1,"{cell}"\n'
    )
    assert [boards.count for boards in boards_of(made)] == [1]
    assert [row.line for row in made.unread] == [2, 3, 4]
    assert all(line.isprintable() for line in made.text.splitlines())


@pytest.mark.parametrize("name", ['north "lot"', "two\nlines", "", "x" * 500, "\x1b[0m"])
def test_any_name_makes_a_pile_that_can_be_read(name: str) -> None:
    made = convert("species,size,qty\nwhite ash,4/4x6x8',1\n", name)
    assert isinstance(made, Converted)
    boards_of(made)


_CELLS = st.sampled_from(
    [
        "white ash",
        "oak, white",
        "4/4",
        "5/4",
        '6"',
        "6-9 in",
        "8'",
        "2x8-16",
        "60",
        "800 bdft",
        "green",
        "=x",
        "#",
        "",
        ",",
    ]
) | st.text(max_size=12)


@given(
    heads=st.permutations(["species", "size", "thickness", "width (in)", "length", "qty", "mc", "notes"]),
    rows=st.lists(st.lists(_CELLS, max_size=9), max_size=6),
    mark=st.sampled_from(",;\t"),
    quote=st.booleans(),
    together=st.booleans(),
)
def test_whatever_the_cells_hold_the_plan_is_read_without_a_fault(
    heads: list[str], rows: list[list[str]], mark: str, quote: bool, together: bool
) -> None:
    def cell(text: str) -> str:
        doubled = text.replace('"', '""')
        return f'"{doubled}"' if quote else text

    text = "\n".join([mark.join(heads), *(mark.join(map(cell, row)) for row in rows)])
    made = convert(text, "tally", together=together)
    assert isinstance(made, Converted)
    boards_of(made)


@given(text=st.text(max_size=300))
def test_whatever_a_text_holds_it_is_converted_or_refused(text: str) -> None:
    made = convert(text, "tally", wood="white ash")
    assert isinstance(made, TableTrouble) or boards_of(made) is not None


_WOODS = ("white ash", "black cherry", "northern red oak")
_PIECES = st.tuples(
    st.sampled_from(_WOODS), st.sampled_from([4, 5, 6, 8]), st.integers(4, 12), st.integers(4, 16), st.integers(1, 500)
)


@given(pieces=st.lists(_PIECES, min_size=1, max_size=40))
def test_a_tally_written_out_reads_back_as_the_same_boards(pieces: list[tuple[str, int, int, int, int]]) -> None:
    rows = "".join(f"{wood},{t}/4,{w},{long},{count}\n" for wood, t, w, long, count in pieces)
    found = boards_in(f"species,thickness,width (in),length (ft),count\n{rows}")
    said = [
        (b.wood.text, b.thickness.number, b.width.number, b.length.number, b.count)  # type: ignore[union-attr]
        for b in found
    ]
    assert said == pieces
    summed = boards_in(f"species,thickness,width (in),length (ft),count\n{rows}", together=True)
    assert sum(b.count or 0 for b in summed) == sum(piece[-1] for piece in pieces)
    assert len(summed) == len({piece[:-1] for piece in pieces})


def test_every_label_is_one_that_courses_and_readings_can_name() -> None:
    from stacklint.convert.convert import _labels

    for label in islice(_labels(), 800):
        plan = read(
            f'pile "x"\nboards {label}: 3 of white ash 4/4 x 6 in x 8 ft\ncourse 1: 3 rows of {label} + {label}\n'
            f"wanted 13/16 in thick of {label}"
        )
        assert plan.faults == ()
