"""Plans that build sheets are written of: the examples, and those that ask most of a page."""

from __future__ import annotations

import datetime
from pathlib import Path

from stacklint.checked import CheckedPlan, CheckedStack
from stacklint.checking import check
from stacklint.language import UsedText, UseRefused

EXAMPLES = Path(__file__).parent.parent / "examples"
TODAY = datetime.date(2026, 6, 1)
YARD = (EXAMPLES / "yard.stackplan").read_text(encoding="utf-8")

TALL = """\
pile "Tall" "Fifty courses"
  place open shed
  stacked 2026-05-02
  boards a: 160 of sugar maple 4/4 x 6 in x 12 ft, green
  boards b: 120 of sugar maple 4/4 x 5 to 9 in x 8 to 12 ft, green
  boards c: 60 of white ash 8/4 x 8 in x 12 ft, 35%
  stack 12 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in, dry
  bearers 6 in x 6 in of white oak, every 24 in, on 8 in x 8 in x 16 in blocks
  ground gravel, flat
  top load straps
  want 12% by 2026-12-01 for flooring
"""
METRIC = """\
site "Hohe Wiese"
  near "Burlington, VT"

pile "M1" "Eiche, zweiter Stamm"
  place open yard, site "Hohe Wiese", windy
  stacked 2026-03-02
  boards a: 80 of European oak 54 mm x 150 to 300 mm x 2.4 m, 60%
  boards b: 30 of European oak 18 mm x 150 mm x 2.4 m, 60%
  stack 2.4 m x 1.2 m
  stickers 25 mm x 40 mm, every 0.6 m, dry, of white oak
  bearers 100 mm x 150 mm of white oak, every 0.6 m, on 200 mm x 400 mm pads
  clearance 0.4 m
  ground clay, uneven 20 mm, damp
  cover roof panels, overhang 0.3 m, slope 2 in 12, tied
  ends bare
  top load 2 kPa
  want 15% by 2027-10-01
  reading 2026-04-10 50%
  reading 2026-05-10 41%, of a, core
"""
BROKEN = """\
pile "B2"
  boards a: 60 of white ahs 4/4 x 6 in x 8 ft, green
  stikers 3/4 in x 1 1/4 in
  cover sheet metal, overhang 12, tyed
"""
SEVERAL = """\
use "yard.stackplan"

pile "A"
  place open yard, site "Larch Bottom"
  stacked 2026-03-03
  boards a: 40 of white ash 4/4 x 6 in x 8 ft, green
  boards b: 13 of white ash 3/4 in x 6 in x 5 ft, green
  stack 16 ft x 4 ft, boards 1 in apart, flue 6 in
  stickers none
  bearers pallets
  cover tarp, hanging down, untied
  waive no-stickers because "only till Friday" until 2026-09-01

pile "Slabs"
  place garage, 60 F 45%
  boards a: 12 of black walnut 10/4 x 14 to 22 in x 9 ft, green, live edge
  stack 9 ft x 3 ft

charge "Mixed" in kiln "Lower box"
  starts 2026-07-01
  schedule T8-D4
  sterilize
  boards a: 60 of white ash 5/4 x 6 in x 8 ft, 40%
  boards b: 30 of northern red oak 4/4 x 6 in x 8 ft, 25%
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in, dry
  want 7%
"""
HOSTILE = """\
site “</title><script>alert(1)</script>”
  near "Burlington, VT"

pile “<script>alert(2)</script>” “'><img src=x onerror=alert(3)>”
  place open yard, site “</title><script>alert(1)</script>”
  spot “</style><b onmouseover=alert(4)>”
  boards a: 96 of white ash 4/4 x 6 in x 8 ft, green
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in, dry, 4 ft long
  want 14% for “{{ 7 * 7 }} {% raw %} &amp; ]]> flooring”
  waive no-cover because “--><svg onload=alert(5)>” until 2026-09-01
"""


def plan(text: str) -> CheckedPlan:
    """A text, checked on a set day, with the yard of the examples to use."""

    def use(name: str, _: str) -> UsedText | UseRefused:
        return UsedText(name, YARD)

    return check(text, "plan.stackplan", today=TODAY, use=use)


def example(name: str) -> CheckedPlan:
    return plan((EXAMPLES / f"{name}.stackplan").read_text(encoding="utf-8"))


def stack(text: str) -> CheckedStack:
    """The only stack of a text."""
    (found,) = plan(text).stacks
    return found
