"""Every part of a plan knows where it was written."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

import pytest

from stacklint.language import UsedText, read
from stacklint.plan.node import Name, Node, Quantity
from stacklint.plan.stack import Stack
from stacklint.where import Where

SAMPLE = """\
use "yard.stackplan"                       # blocks shared by many plans

site "Cold Hollow"
  near "Columbus, OH"                      # a place in the climate table; or months of one's own:
  month jan -1 C 74%                       # mean temperature and relative humidity

kiln "North box"
  type dehumidification                    # dehumidification, vented, solar
  inside 17 ft x 5 ft x 6 ft               # length x width x height
  holds 1400 bf
  carries 9000 lb
  heats to 150 F
  removes 60 pt/day
  fans 4 of 2400 cfm
  plenum 18 in

pile "B2" "Ash for flooring"               # a name, and a title if wanted
  place open yard, site "Cold Hollow"      # the places are listed below
  spot "row 3"
  sawn 2026-03-30
  stacked 2026-04-02
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green, flatsawn
  boards b: 350 bf of white ash 4/4 x 5 to 9 in x 12 ft, 35%
  boards c: 40 of white ash 1 in x 6 in x 4 ft, air dried
  stack 16 ft x 4 ft                       # length x width
  course 1 to 6: 8 rows of a + a           # only where the builder wants to say
  course 7: 4 rows of b + c, 2 rows of a + a
  stickers 3/4 in x 1 1/4 in, every 24 in, 1 in from ends, dry, 4 ft long
  bearers 4 in x 6 in of white oak, every 24 in, on 8 in x 16 in pads
  clearance 14 in                          # ground to the underside of the lowest board
  ground gravel, flat                      # flat within 1/4 in; sloped is no fault, twisted is
  cover sheet metal, overhang 12 in, gap 4 in, slope 1 in 12, tied
  sides shade cloth                        # open, shade cloth, boards, plastic
  wind across                              # the wind crosses the boards, or runs along them
  top load 50 psf                          # or a weight: 600 lb; or straps
  ends coated                              # coated at the saw, coated late, painted, bare
  fan 2 of 1500 cfm                        # air moved by machine; also: removes 30 pt/day
  want 12% by 2027-02-01 for flooring
  reading 2026-05-10 41%
  waive stickers-wet because "kiln-dried sticks arrive Friday" until 2026-05-01

charge "2026-07" in kiln "North box"       # a pile's statements, and:
  starts 2026-07-01
  schedule T8-D4                           # the published code, if the operator names one
  baffles top, ends, floor
  sterilize
  from pile "B2"                           # boards come from a pile
"""


def sample() -> tuple[Node, tuple[object, ...]]:
    def find(name: str, _: str) -> UsedText:
        return UsedText(name, "")

    result = read(SAMPLE, "b2.stackplan", use=find, today=datetime.date(2026, 6, 1))
    return result.plan, result.faults


def nodes_in(node: Node) -> Iterator[Node]:
    yield node
    for value in node.__dict__.values():
        for item in value if isinstance(value, tuple) and not isinstance(value, Where) else (value,):
            if isinstance(item, Node):
                yield from nodes_in(item)


def text_at(where: Where) -> str:
    line = SAMPLE.split("\n")[where.line - 1]
    assert where.line == where.end_line
    return line[where.column - 1 : where.end_column - 1]


def test_the_sample_plan_has_no_fault() -> None:
    assert sample()[1] == ()


def test_every_part_of_the_sample_knows_its_text() -> None:
    plan, _ = sample()
    nodes = list(nodes_in(plan))[1:]
    assert len(nodes) > 100
    for node in nodes:
        said = text_at(node.where)
        assert node.where.path == "b2.stackplan"
        assert said == said.strip() and "#" not in said
        if isinstance(node, Quantity):
            assert said[0].isdigit() or said[0] == "-"
        if isinstance(node, Name):
            assert said.strip('"') == node.text


@pytest.mark.parametrize(
    ("field", "said"),
    [
        ("place", 'place open yard, site "Cold Hollow"'),
        ("size", "stack 16 ft x 4 ft"),
        ("stickers", "stickers 3/4 in x 1 1/4 in, every 24 in, 1 in from ends, dry, 4 ft long"),
        ("wind", "wind across"),
        ("sawn", "2026-03-30"),
        ("top_load", "top load 50 psf"),
    ],
)
def test_a_statement_of_the_sample_spans_its_words_without_its_comment(field: str, said: str) -> None:
    plan, _ = sample()
    pile = next(node for node in nodes_in(plan) if isinstance(node, Stack))
    assert text_at(getattr(pile, field).where) == said


def test_a_statement_over_several_lines_spans_them() -> None:
    stack = read('pile "B2"\n  stickers 3/4 in x 1 in,   # dry\n    every 24 in\n').plan.stacks[0]
    assert stack.stickers is not None and stack.stickers.every is not None
    assert stack.stickers.where[1:] == (2, 3, 3, 16)
    assert stack.stickers.every.where[1:] == (3, 11, 3, 16)
