"""What an editor offers to write in a plan is what the plan takes there."""

from __future__ import annotations

import pytest
from editor_marks import YARD, offered, shown, taken

from stacklint import language
from stacklint.editor.details import details
from stacklint.editor.offers import OfferKind
from stacklint.language import UsedText
from stacklint.language.statements import STATEMENTS, BlockKind
from stacklint.rulebook import builtin
from stacklint.tables import places, woods


def test_a_line_of_a_pile_begins_with_what_a_pile_takes():
    words = shown(f"{YARD}  |")
    assert {"stickers", "bearers", "cover", "boards", "want"} <= set(words)
    assert not {"near", "plenum", "starts", "schedule", "heats to"} & set(words)


def test_a_line_of_a_kiln_begins_with_what_a_kiln_takes():
    words = shown('kiln "Box"\n  |')
    assert {"holds", "plenum", "heats to"} <= set(words)
    assert "stickers" not in words


def test_a_statement_that_stands_once_is_not_offered_again():
    words = shown(f"{YARD}  |")
    assert "stack" not in words and "place" not in words
    assert "boards" in words, "a pile may list several groups"


def test_before_the_first_block_only_blocks_can_begin():
    assert shown("|") == ["site", "kiln", "wood", "pile", "charge", "use"]


def test_a_keyword_being_written_is_replaced_by_the_one_taken():
    assert taken(f"{YARD}  sti|", "stickers").endswith("\n  stickers")


def test_nothing_is_offered_in_a_comment():
    assert shown(f"{YARD}  # sti|") == []


def test_a_hash_in_a_name_begins_no_comment():
    assert "Cold Hollow" in shown(f'{YARD}pile "no # 4"\n  place open yard, site "|"')


@pytest.mark.parametrize("keyword", ["stickers", "bearers", "ground", "cover", "sides", "ends", "baffles", "stack"])
def test_after_a_keyword_its_details_are_offered(keyword):
    assert set(details(keyword)) <= set(shown(f'charge "C"\n  {keyword} |'))


HEADS = {
    "boards": "a: 6 of white ash 4/4 x 6 in x 8 ft, ",
    "reading": "2026-05-10 41%, ",
    "place": "open yard, ",
    "from pile": '"P", ',
}
"""What stands before the details of a statement that has more than them."""
ALONE = {
    "stack": ("16 ft x 4 ft",),
    "cover": ("none", "sheet metal", "plywood", "boards", "roof panels", "tarp"),
    "sides": ("open", "shade cloth", "boards", "plastic"),
    "wanted": ("13/16 in thick", "5 in wide"),
}
"""Details that one of must stand there; the others go behind it."""
LINES = [(statement, detail) for statement in STATEMENTS.values() for detail in details(statement.keyword)]


@pytest.mark.parametrize("statement, detail", LINES, ids=[f"{each.keyword}, {detail}" for each, detail in LINES])
def test_every_detail_that_is_offered_can_be_read_in_its_statement(statement, detail):
    first = ALONE.get(statement.keyword, (detail,))
    before = HEADS.get(statement.keyword, "") if detail in first else f"{first[-1]}, "
    block = statement.blocks[-1]
    text = 'pile "P"\n' + "".join(f"  boards {label}: 800 bf of white ash 4/4 x 6 in x 8 ft\n" for label in "ab")
    text += f'{block.value} "x"\n'
    if block in (BlockKind.PILE, BlockKind.CHARGE) and statement.keyword != "boards":
        text += "  boards a: 6 of white ash 4/4 x 6 in x 8 ft\n"
    read = language.read(f"{text}  {statement.keyword} {before}{detail}\n")
    assert [fault.message for fault in read.faults] == []


def test_a_detail_of_two_words_is_taken_as_a_whole():
    assert taken(f"{YARD}  cover sheet m|", "sheet metal").endswith("\n  cover sheet metal")


def test_places_come_first_in_a_place_statement_and_what_they_take_after():
    assert shown('pile "P"\n  place |')[:2] == ["open yard", "open shed"]
    assert "in the shade" in shown('pile "P"\n  place open yard, |')


@pytest.mark.parametrize(
    "line, units",
    [
        ("stickers 3/4 |", ["in", "ft", "mm", "cm", "m"]),
        ("stickers 3/4 in x 1 1/4 in, every 24 |", ["in", "ft", "mm", "cm", "m"]),
        ("boards b: 350 |", ["bf", "ft3", "m3"]),
        ("top load 50 |", ["lb", "kg", "psf", "psi", "kPa", "MPa", "kg/m2"]),
        ("bearers steel, carries 4000 |", ["lb", "kg", "psf", "psi", "kPa", "MPa", "kg/m2"]),
        ("ground gravel, bears 2000 |", ["psf", "psi", "kPa", "MPa", "kg/m2"]),
        ("want 12 |", ["%"]),
        ("clearance 14 i|", ["in", "ft", "mm", "cm", "m"]),
    ],
)
def test_a_figure_is_offered_the_units_that_belong_there(line, units):
    found = [offer.shown for offer in offered(f'pile "P"\n  {line}') if offer.kind is OfferKind.UNIT]
    assert sorted(found) == sorted(units)


def test_a_unit_is_set_behind_its_figure():
    assert taken('pile "P"\n  clearance 14 i|', "in").endswith("clearance 14 in")


def test_every_wood_of_the_table_is_offered_for_boards():
    assert set(woods.names()) <= set(shown('pile "P"\n  boards a: 60 of |'))


def test_a_wood_that_the_plan_describes_is_offered_first():
    assert shown(f"{YARD}  boards b: 60 of |")[0] == "bog oak"


def test_a_wood_of_two_words_is_taken_as_a_whole():
    text = taken('pile "P"\n  boards a: 60 of white a|', "white ash")
    assert text.endswith("boards a: 60 of white ash")


def test_bearers_and_stickers_are_of_a_wood_too():
    assert "white oak" in shown('pile "P"\n  bearers 4 in x 6 in of wh|')
    assert "plywood" in shown('pile "P"\n  stickers 3/4 in of |')


def test_a_waiver_is_offered_every_rule_with_its_title():
    found = {offer.shown: offer.detail for offer in offered('pile "P"\n  waive sag|')}
    assert found == {rule.name: rule.title for rule in builtin().rules}


def test_after_the_rule_a_waiver_says_why_and_until_when():
    assert shown('pile "P"\n  waive lift-too-heavy |') == ["because", "until"]


def test_near_is_offered_the_places_of_the_climate_table():
    assert shown('site "S"\n  near "|"') == list(places.names())
    assert taken('site "S"\n  near |', "Columbus, Ohio").endswith('near "Columbus, Ohio"')


def test_a_name_is_closed_if_it_is_not_yet():
    assert taken('site "S"\n  near "Col|', "Columbus, Ohio").endswith('near "Columbus, Ohio"')
    assert taken('site "S"\n  near "Col|"', "Columbus, Ohio").endswith('near "Columbus, Ohio"')


def test_sites_kilns_and_piles_of_the_plan_are_offered_where_they_are_named():
    assert shown(f'{YARD}pile "B3"\n  place open yard, site |') == ["Cold Hollow"]
    assert shown(f'{YARD}charge "C" in kiln "|"') == ["North box"]
    assert shown(f'{YARD}charge "C"\n  from pile "|') == ["B2"]
    assert shown(f'{YARD}charge "C"\n  from pile "B2", "|') == ["B2"]


def test_what_used_files_define_is_offered_too():
    def use(_name, _using):
        return UsedText("yard.stackplan", YARD)

    text = 'use "yard.stackplan"\ncharge "C" in kiln "|"'
    assert shown(text, use) == ["North box"]


def test_courses_and_readings_are_offered_the_labels_of_their_stack():
    assert shown(f"{YARD}  course 1: 4 rows of |") == ["a"]
    assert shown(f"{YARD}  course 1: 4 rows of a + |") == ["a"]


def test_a_part_of_a_pile_is_offered_the_labels_of_that_pile():
    piles = f'{YARD}pile "B3"\n  boards w: 6 of white ash 4/4 x 6 in x 8 ft\ncharge "C"\n  from pile '
    assert shown(f'{piles}"B3", 4 of |') == ["w"]
    assert shown(f'{piles}"B3", 4 of w, "b2", all of |') == ["a"]
    assert {"40 of a", "all of a", "B2"} <= set(shown(f'{piles}"B3", |'))
    assert {"bf", "m3"} <= set(shown(f'{piles}"B3", 200 |')) and "in" not in shown(f'{piles}"B3", 200 |')


def test_a_pile_of_a_used_file_offers_its_labels_too():
    def use(_name, _using):
        return UsedText("yard.stackplan", YARD)

    assert shown('use "yard.stackplan"\ncharge "C"\n  from pile "B2", 200 bf of |', use) == ["a"]


def test_a_site_is_offered_stickers_and_bearers_for_its_stock():
    assert shown('site "S"\n  stock 60 |') == ["bearers", "stickers"]
    assert {"spots", "holds", "stock"} <= set(shown('site "S"\n  |'))


def test_a_new_charge_is_offered_its_kiln():
    assert shown('charge "C" |') == ["in kiln"]


def test_a_statement_on_the_line_after_a_comma_goes_on_with_its_details():
    assert "grooved" in shown('pile "P"\n  stickers 3/4 in,\n    |')


def test_months_and_types_of_kiln_are_offered():
    assert shown('site "S"\n  month |')[:2] == ["jan", "feb"]
    assert shown('kiln "K"\n  type |') == ["dehumidification", "vented", "solar"]
