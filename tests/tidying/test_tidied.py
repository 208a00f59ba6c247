"""The standard layout, shown on plans as people write them."""

from __future__ import annotations

import datetime
import re
from pathlib import Path

import pytest

from stacklint.checking import check
from stacklint.files import lending, project_root
from stacklint.language import read
from stacklint.language.statements import STATEMENTS
from stacklint.tidying import tidied, tidy
from stacklint.tidying.layout import ORDER
from stacklint.tidying.statement import WIDTH
from stacklint.units import System
from stacklint.where import NOWHERE

TODAY = datetime.date(2026, 6, 1)
ROOT = Path(__file__).parent.parent.parent
PLANS = sorted([*(ROOT / "examples").rglob("*.stackplan"), *(ROOT / "tests" / "rules").rglob("*.stackplan")])


REFERENCE = (ROOT / "grammar" / "REFERENCE.md").read_text(encoding="utf-8")
README = (ROOT / "README.md").read_text(encoding="utf-8")


def rows(page: str, heading: str) -> list[list[str]]:
    """The first table under a heading, without its head."""
    section = page.split(f"# {heading}\n")[1].split("\n#")[0]
    return [re.findall(r"`([^`]+)`", line) for line in section.splitlines() if line.startswith("| `")]


def plans_in(page: str) -> list[str]:
    examples = re.findall(r"^```stackplan ?(\w*)\n(.*?)^```$", page, re.MULTILINE | re.DOTALL)
    return [f'pile "example"\n{text}' if kind == "pile" else text for kind, text in examples]


def one(statement: str, block: str = 'pile "B2"') -> str:
    """A statement, tidied alone in a block."""
    opening, *lines = tidied(f"{block}\n{statement}\n").splitlines()
    assert opening == block
    return "\n".join(line.removeprefix("  ") for line in lines)


def test_a_plan_off_the_back_of_an_envelope_is_laid_out_in_the_standard_way() -> None:
    assert tidied(
        """
PILE   "B2"    “Ash for flooring”
want 12 percent, for flooring, by 2027-02-01
Stickers dry, every 24", 3/4" x 1-1/4"
  boards a : 60 pieces of white ash 4/4 x 6" x 8', wet off the saw
sawn 2026-03-30
PLACE in the sun, site "Cold Hollow", yard


site "Cold Hollow"
near "Burlington, VT"
use "woods.stackplan"
"""
    ) == (
        """\
use "woods.stackplan"

site "Cold Hollow"
  near "Burlington, VT"

pile "B2" "Ash for flooring"
  place yard, site "Cold Hollow", in the sun
  sawn 2026-03-30
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green
  stickers 3/4 in x 1 1/4 in, every 24 in, dry
  want 12% by 2027-02-01 for flooring
"""
    )


@pytest.mark.parametrize(
    ("written", "tidy"),
    [
        (
            'boards a: 40 of white ash 4/4x6"x16\' 6", AD',
            "boards a: 40 of white ash 4/4 x 6 in x 16 ft 6 in, air dried",
        ),
        (
            "boards a: 40 of white ash 4/4 x 6 in x 8'-6\" to 10'",
            "boards a: 40 of white ash 4/4 x 6 in x 8 ft 6 in to 10 ft",
        ),
        (
            "boards a: 1.5 MBF of white ash 27mm × 0.15m × 2.4 metres",
            "boards a: 1500 bf of white ash 27 mm x 0.15 m x 2.4 m",
        ),
        ("boards a: 12,500 bdft of white ash 4/4 x 6 in x 8 ft", "boards a: 12,500 bf of white ash 4/4 x 6 in x 8 ft"),
        ("stickers 20 x 45 mm, 500mm centres", "stickers 20 mm x 45 mm, every 500 mm"),
        ("bolsters 4x6, every 2 foot", "bearers 4 in x 6 in, every 2 ft"),
        ("clearance 1.25 feet", "clearance 1.25 ft"),
        ("clearance 14.75 inches", "clearance 14 3/4 in"),
        ("cover tin, slope 2:12", "cover sheet metal, slope 2 in 12"),
        ("cover tin, slope 8 percent", "cover sheet metal, slope 8%"),
        ("top load 30 lbs per square foot", "top load 30 psf"),
        ("hold 150 deg F for 30 min", "hold 150 F for 30 min"),
        ("sterilise", "sterilize"),
        ("place garage, 60 degrees F 45% RH", "place garage, 60 F 45%"),
    ],
)
def test_a_figure_keeps_its_unit_in_the_standard_spelling(written: str, tidy: str) -> None:
    assert one(written, 'charge "1"') == tidy


@pytest.mark.parametrize(
    ("written", "tidy"),
    [
        ("boards a: about 40 of white ash 4/4x6\"x8'", "boards a: about 40 of white ash 4/4 x 6 in x 8 ft"),
        ('clearance ~ 14"', "clearance ~ 14 in"),
        ("sides burlap, on both sides", "sides burlap, on both sides"),
    ],
)
def test_a_word_that_means_something_to_people_alone_is_kept(written: str, tidy: str) -> None:
    assert one(written) == tidy


def test_a_length_said_twice_stays_so_since_lengths_decide_the_units_of_the_findings() -> None:
    """Two lengths in inches against one in millimetres: the findings come in inches, as before."""
    text = 'pile "B2"\ncover tin, overhang 12" ends, 12" sides\nclearance 350mm\n'
    assert tidied(text) == 'pile "B2"\n  clearance 350 mm\n  cover tin, overhang 12 in ends, 12 in sides\n'
    assert read(tidied(text)).system is read(text).system is System.INCH


def test_a_name_that_no_line_can_hold_in_straight_marks_alone_is_kept() -> None:
    assert one("boards a: 4 of “no. 2 #1 ash” 1 in x 6 in x 8 ft") == 'boards a: 4 of "no. 2 #1 ash" 1 in x 6 in x 8 ft'


@pytest.mark.parametrize(("written", "plain"), rows(REFERENCE, "Everyday spellings"))
def test_every_everyday_spelling_of_the_reference_is_written_plainly(written: str, plain: str) -> None:
    said = plain.replace("a: 40", "a: about 40") if "about 40" in written else plain
    assert one(written) == said


@pytest.mark.parametrize("text", plans_in(REFERENCE))
def test_every_plan_of_the_reference_says_the_same_once_tidied(text: str) -> None:
    assert read(tidied(text), today=TODAY).plan == read(text, today=TODAY).plan
    assert tidied(tidied(text)) == tidied(text)


def test_the_plan_that_shows_the_standard_layout_is_in_it() -> None:
    shown = plans_in(REFERENCE)[-1]
    assert "# the long pile" in shown
    assert tidied(shown) == shown


def test_the_readme_shows_what_tidying_does() -> None:
    (section,) = re.findall(r"^## Tidy plans\n(.*?)^## ", README, re.MULTILINE | re.DOTALL)
    both = [line[4:] for line in section.splitlines() if line.startswith("    ") and "   " in line[8:]]
    column = both[0].rindex("pile")
    before = "".join(f"{line[:column].rstrip()}\n" for line in both)
    assert tidied(before) == "".join(f"{line[column:]}\n" for line in both)


def test_comments_stand_above_and_behind_what_they_stood_above_and_behind() -> None:
    assert tidied(
        """\
# The yard behind the saw.

# the long pile
pile "B2"   # Joe's
#the stickers came from the mill
   stickers 3/4 in x 1 1/4 in   # 400 of them
      # from the north lot,
      # felled in January

   boards a: 60 of white ash 4/4 x 6 in x 8 ft    # dear
   # that is all

# the kiln
kiln "Box"
  # of 2019
# An old pile:
# pile "B1"
"""
    ) == (
        """\
# The yard behind the saw.

# the kiln
kiln "Box"
  # of 2019

# the long pile
pile "B2"  # Joe's
  # from the north lot,
  # felled in January
  boards a: 60 of white ash 4/4 x 6 in x 8 ft  # dear
  #the stickers came from the mill
  stickers 3/4 in x 1 1/4 in  # 400 of them
  # that is all

# An old pile:
# pile "B1"
"""
    )


def test_comments_amid_a_statement_keep_their_details() -> None:
    assert (
        one('stickers 3/4" x 1-1/4", # from the mill\n dry,\n# measured twice\n every 24"  # mostly')
        == """\
stickers 3/4 in x 1 1/4 in,  # from the mill
         dry,
         # measured twice
         every 24 in  # mostly"""
    )


def test_a_statement_over_several_lines_is_put_on_one_if_it_fits() -> None:
    assert one("stickers 1 in x 1 1/2 in,\n    every 24 in,\n\n    dry  # all") == (
        "stickers 1 in x 1 1/2 in, every 24 in, dry  # all"
    )


def test_a_long_statement_goes_on_under_its_first_detail() -> None:
    places = ", ".join(f"{place} in" for place in range(1, 200, 12))
    laid = one(f"stickers 3/4 in x 1 1/2 in, at {places}")
    assert laid == (
        "stickers 3/4 in x 1 1/2 in, at 1 in, 13 in, 25 in, 37 in, 49 in, 61 in, 73 in, 85 in, 97 in,\n"
        "         109 in, 121 in, 133 in, 145 in, 157 in, 169 in, 181 in, 193 in"
    )
    assert max(len(line) for line in tidied(f'pile "B2"\n{laid}\n').splitlines()) <= WIDTH


def test_a_long_course_goes_on_behind_its_colon() -> None:
    rows = ", ".join(f"{count} rows of a + b" for count in range(2, 9))
    first, second = one(f"course 1 to 4: {rows}").splitlines()
    assert first.startswith("course 1 to 4: 2 rows of a + b, ")
    assert second.startswith(" " * len("course 1 to 4: ") + "6 rows of")


def test_a_comment_behind_a_long_line_goes_above_it() -> None:
    comment = "# " + "they came off the saw in the first week of the year, and were end coated at once"
    assert one(f"boards a: 60 of white ash 4/4 x 6 in x 8 ft, green  {comment}") == (
        f"{comment}\nboards a: 60 of white ash 4/4 x 6 in x 8 ft, green"
    )


def test_one_empty_line_parts_blocks_and_none_stand_inside() -> None:
    assert tidied('\n\npile "1"\n\n  wind along\n\n\n\npile "2"\n\n') == 'pile "1"\n  wind along\n\npile "2"\n'


def test_piles_and_charges_keep_their_order_among_themselves() -> None:
    text = 'charge "c"\n\npile "b"\n\ncharge "a"\n'
    assert tidied(text) == text


def test_groups_of_boards_and_readings_keep_their_order_among_themselves() -> None:
    text = """\
pile "B2"
  boards b: 6 of white ash 4/4 x 6 in x 8 ft
  boards a: 6 of white ash 4/4 x 6 in x 8 ft
  reading 2026-05-10 41%
  reading 2026-05-01 44%
"""
    assert tidied(text) == text


def test_a_line_that_cannot_be_read_is_left_and_its_block_keeps_its_order() -> None:
    text = """\
pile "B2"
wind along
\tstikers   3/4" x 1 1/4"   # bent
# rough
boards a: 6 of white ash 4/4 x 6" x 8'

pile "B3"
wind along
boards a: 6 of white ash 4/4 x 6" x 8'
kiln "Box"
"""
    laid = tidy(text)
    assert laid.left == (3,)
    assert laid.text == (
        """\
pile "B2"
  wind along
\tstikers   3/4" x 1 1/4"   # bent
# rough
  boards a: 6 of white ash 4/4 x 6 in x 8 ft

pile "B3"
  boards a: 6 of white ash 4/4 x 6 in x 8 ft
  wind along

kiln "Box"
"""
    )


def test_every_statement_has_its_place_in_its_block() -> None:
    for statement in STATEMENTS.values():
        for kind in statement.blocks:
            assert statement.keyword in ORDER[kind]


def test_a_second_statement_of_what_may_be_said_once_stays_second() -> None:
    text = 'pile "B2"\n  sawn 2026-03-30\n  clearance 14 in\n  clearance 12 in\n  place garage\n'
    assert tidied(text) == text


def test_a_wood_that_no_table_knows_is_no_hindrance() -> None:
    assert one("boards a: 6 of white ahs 4/4x6\"x8'") == "boards a: 6 of white ahs 4/4 x 6 in x 8 ft"


def test_a_statement_too_long_to_be_read_is_left() -> None:
    long = "stickers at " + ", ".join(["1 in"] * 5000)
    text = f'pile "B2"\n{long}\n  wind along\n'
    assert tidied(text) == text


def test_an_unfinished_line_at_the_end_is_left() -> None:
    text = 'pile "B2"\n  wind along,\n# more to come\n'
    assert tidied(text) == text


@pytest.mark.parametrize("text", ["", "\n", "  \n\n"])
def test_a_text_of_nothing_is_nothing(text: str) -> None:
    assert tidied(text) == ""


def test_a_text_without_a_line_end_gets_one() -> None:
    assert tidied('pile "B2"') == 'pile "B2"\n'


@pytest.mark.parametrize("path", PLANS, ids=lambda path: str(path.relative_to(ROOT)))
def test_every_example_says_the_same_once_tidied_and_has_the_same_findings(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    laid = tidied(text)
    use = lending(project_root(path.parent))
    assert read(laid, str(path), use, TODAY).plan == read(text, str(path), use, TODAY).plan
    assert findings(laid, path) == findings(text, path)
    assert tidied(laid) == laid


def findings(text: str, path: Path) -> list[str]:
    """What is found, apart from the places: those move with their lines."""
    checked = check(text, str(path), today=TODAY, use=lending(project_root(path.parent)))
    # Lines are named where a finding speaks of two places, and they move.
    moved = (finding._replace(where=NOWHERE, related=()) for finding in checked.findings)
    return sorted(re.sub(r"\(line \d+\)", "", repr(finding)) for finding in moved)


@pytest.mark.parametrize(
    "path", sorted((ROOT / "examples").rglob("*.stackplan")), ids=lambda path: str(path.relative_to(ROOT))
)
def test_the_examples_are_tidy(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert tidied(text) == text
