"""The language reference says what is so: its examples are read, its tables hold, nothing is left out of it."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from typing import NamedTuple

import pytest

from stacklint.data import folder
from stacklint.faults import FaultKind
from stacklint.language import ReadPlan, UsedText, read
from stacklint.plan.stack import Stack
from stacklint.units import Unit

REFERENCE = (folder("grammar") / "REFERENCE.md").read_text(encoding="utf-8")
TODAY = datetime.date(2026, 6, 1)
YARD = 'site "Cold Hollow"\n  near "Burlington, VT"\n'
"""What the examples' ``use "yard.stackplan"`` brings in."""


class Example(NamedTuple):
    heading: str
    kind: str
    """What follows ``stackplan`` on the fence: ``pile`` for statements of a pile, ``faulty``, or nothing."""
    text: str


def _examples() -> Iterator[Example]:
    heading = ""
    for match in re.finditer(r"^#+ ([^\n]+)$|^```stackplan ?(\w*)\n(.*?)^```$", REFERENCE, re.MULTILINE | re.DOTALL):
        if match[1]:
            heading = match[1]
            continue
        text = f'pile "example"\n{match[3]}' if match[2] == "pile" else match[3]
        yield Example(heading, match[2], text)


EXAMPLES = tuple(_examples())
SOUND = [example for example in EXAMPLES if example.kind != "faulty"]
SHOWN = "\n".join(re.sub("#.*", "", example.text).lower() for example in SOUND)


def table(heading: str) -> list[list[str]]:
    """The rows of the first table under a heading, without its head."""
    section = re.split(r"^#+ ", REFERENCE.split(f"# {heading}\n")[1], flags=re.MULTILINE)[0]
    rows = [line.strip("| ").split(" | ") for line in section.splitlines() if line.startswith("|")]
    return [[_unfenced(cell.strip()) for cell in row] for row in rows[2:]]


def _unfenced(cell: str) -> str:
    return cell.strip("`") if cell.count("`") == 2 else cell


def read_example(text: str) -> ReadPlan:
    return read(text, "example.stackplan", use=lambda _name, _user: UsedText("yard.stackplan", YARD), today=TODAY)


def stack_with(line: str) -> tuple[Stack, ReadPlan]:
    back = read_example(f'pile "example"\n  {line}\n')
    return back.plan.stacks[0], back


@pytest.mark.parametrize("example", SOUND, ids=lambda example: f"{example.heading}: {example.text.splitlines()[-1]}")
def test_every_example_of_the_reference_is_read_without_a_fault(example: Example) -> None:
    back = read_example(example.text)
    assert back.faults == ()
    assert back.plan.stacks or back.plan.sites or back.plan.kilns or back.plan.woods


def test_the_faulty_example_has_the_four_faults_that_the_reference_counts() -> None:
    (faulty,) = [example for example in EXAMPLES if example.kind == "faulty"]
    back = read_example(faulty.text)
    lines = faulty.text.splitlines()
    marked = [(fault.where.line, lines[fault.where.line - 1][fault.where.column - 1 :]) for fault in back.faults]
    assert [line for line, _ in marked] == [2, 3, 4, 4]
    assert marked[0][1].startswith("white ahs")
    assert marked[1][1].startswith("stikers")
    assert "12" in marked[2][1]
    assert marked[3][1].startswith("tyed")
    assert back.faults[0].kind is FaultKind.UNKNOWN_SPECIES


@pytest.mark.parametrize(("written", "plain"), table("Everyday spellings"))
def test_an_everyday_spelling_means_what_the_reference_says(written: str, plain: str) -> None:
    stack, everyday = stack_with(written)
    assert everyday.faults == ()
    assert stack == stack_with(plain)[0]
    assert stack != stack_with("")[0]


@pytest.mark.parametrize(
    ("written", "plain"), [(row[0], row[-1]) for row in table("What is refused, and how to say it plainly")]
)
def test_what_the_reference_calls_unclear_is_refused_and_the_plain_way_is_taken(written: str, plain: str) -> None:
    assert len(stack_with(written)[1].faults) == 1
    assert stack_with(plain)[1].faults == ()


@pytest.mark.parametrize("row", table("place"), ids=lambda row: row[0])
def test_every_place_of_the_reference_goes_by_its_everyday_names(row: list[str]) -> None:
    kinds = [kind.strip("` ") for kind in row[0].split(",")]
    for kind in kinds:
        place = stack_with(f"place {kind}")[0].place
        assert place is not None
        assert place.kind.value == kind
    for everyday in filter(None, row[1].split(", ")) if len(row) > 1 else ():
        place = stack_with(f"place {everyday}")[0].place
        assert place is not None
        assert place.kind.value == kinds[0]


@pytest.mark.parametrize("unit", [unit for unit in Unit if unit is not Unit.QUARTER], ids=lambda unit: unit.symbol)
def test_the_table_of_units_knows_every_unit_that_a_plan_can_hold(unit: Unit) -> None:
    only_rules_use = {Unit.SECOND, Unit.KILOGRAM_PER_CUBIC_METRE, Unit.POUND_PER_CUBIC_FOOT}
    only_rules_use |= {Unit.FEET_PER_MINUTE, Unit.MILE_PER_HOUR, Unit.METRE_PER_SECOND}
    written = {
        symbol
        for row in table("Figures and units")
        for symbol in re.findall(r"`([^`]+)`", row[1] if "`" in row[1] else f"`{row[1]}`")
    }
    assert (unit.symbol in written) is (unit not in only_rules_use)


STATEMENTS = (
    "use site near month spots stock kiln type inside holds carries heats_to removes fans plenum collector wood like "
    "hardwood softwood specific_gravity stiffness crushing green_moisture shrinks source pile charge "
    "place spot sawn stacked boards stack course stickers bearers clearance ground cover sides wind "
    "top_load ends fan want wanted reading waive starts schedule runs_at hold baffles sterilize from_pile "
)

DETAILS = {
    "boards": (
        "green; air dried; kiln dried; 35%; flatsawn; quartersawn; riftsawn; live edge; boxed heart; squares; "
        "6 to 10 ft; random width; for 13/16 in finished; bf; m3"
    ),
    "place": (
        "60 f 45%; in the sun; in the shade; windy; sheltered; floor carries; open yard; open shed; closed "
        "barn; garage; container; basement; attic; greenhouse; heated shop; kiln; site"
    ),
    "stack": "boards 1 in apart; next pile 3 ft away; flue 8 in",
    "stickers": (
        "none; 3/4 to 1 in; dry; green; wet; of plywood; of white oak; grooved; out of line; 4 ft long; 7 a "
        "course; at 1 in, 2 ft, 4 ft; every; from ends"
    ),
    "bearers": "steel; pallets; none; every; at; pads; blocks; carries 4000 lb; of white oak",
    "ground": (
        "gravel; concrete; grass; bare soil; clay; soft clay; sand; flat; twisted; uneven 1 in; sloped; bears "
        "2000 psf; damp; drained"
    ),
    "cover": (
        "none; sheet metal; plywood; boards; roof panels; tarp; overhang 12 in; overhang 12 in ends, 6 in "
        "sides; gap; slope; tied; untied; weighted 200 lb; hanging down"
    ),
    "sides": "open; shade cloth; boards; plastic; on one side; on the ends",
    "wind": "across; along",
    "top load": "psf; lb; straps",
    "ends": "coated; coated at the saw; coated late; painted; bare",
    "fan": "of 1500 cfm; removes",
    "want": "12%; by; for flooring",
    "wanted": "13/16 in thick of a; 20 mm thick; 110 mm wide; of b; 5 in wide",
    "reading": "41%; of a; outer boards; core",
    "waive": "because; until",
    "stock": "stickers; bearers; of 6 ft",
    "from pile": "40 of a; 200 bf of b; all of c",
    "type": "dehumidification; vented; solar",
    "collector": "120 ft2",
    "runs at": "110 f 85%; 110 f / 102 f",
    "hold": "150 f for 4 h",
    "fans": "of 2400 cfm; 12 h/day",
    "baffles": "top; ends; floor",
    "stiffness": "psi green; dry",
    "shrinks": "radial; tangential; volumetric",
    "charge": "in kiln",
}
"""The details of each statement, as the design of the language lists them."""


@pytest.mark.parametrize("keyword", [statement.replace("_", " ") for statement in STATEMENTS.split()])
def test_every_statement_has_an_example(keyword: str) -> None:
    assert re.search(rf"^ *{keyword}\b", SHOWN, re.MULTILINE)


@pytest.mark.parametrize(
    ("keyword", "detail"), [(keyword, detail) for keyword, all_of in DETAILS.items() for detail in all_of.split("; ")]
)
def test_every_detail_has_an_example(keyword: str, detail: str) -> None:
    assert re.search(rf"^ *{keyword}\b.*(?<!\w){re.escape(detail)}", SHOWN, re.MULTILINE)


def test_every_statement_of_the_grammar_has_an_example() -> None:
    """The other way round: the grammar may not know a statement that the reference is silent about."""
    grammar = (folder("grammar") / "plan.lark").read_text(encoding="utf-8")
    head = re.split(r"^\?head:", grammar, flags=re.MULTILINE)[1].split("\n?detail:")[0]
    keywords = set(re.findall(r'^(?:\s+\||)\s*"(\w+)"', head, re.MULTILINE))
    assert keywords
    assert [keyword for keyword in keywords if not re.search(rf"^ *{keyword}\b", SHOWN, re.MULTILINE)] == []
