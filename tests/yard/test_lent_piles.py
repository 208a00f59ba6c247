"""Piles of a text that is used, where that text itself is not checked along."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checking import check
from stacklint.findings import Finding
from stacklint.language import UsedText

PILE = """\
site "Larch Bottom"
  near "Burlington, VT"
kiln "Box"
  type vented
  inside 18 ft x 6 ft x 8 ft
  heats to 160 F
pile "A"
  place open yard, site "Larch Bottom"
  stacked 2026-03-02
  boards a: 64 of white ash 4/4 x 6 in x 8 ft, green
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in, dry
  want 20% by 2026-12-15
"""


def found(rule: str, *charges: str) -> list[Finding]:
    text = 'use "a.stackplan"\n' + "".join(
        f'charge "{number}" in kiln "Box"\n  starts {starts}\n  from pile "A"{part}\n  want 8% by 2027-03-01\n'
        for number, (starts, part) in enumerate((each.split(" ", 1) for each in charges), 1)
    )
    checked = check(
        text,
        "charges.stackplan",
        today=datetime.date(2026, 6, 1),
        use=lambda name, using: UsedText("a.stackplan", PILE),  # noqa: ARG005
    )
    return [finding for finding in checked.findings if finding.rule == rule]


def test_two_charges_that_take_more_of_a_used_pile_than_it_has_are_told() -> None:
    (finding,) = found("pile-taken-twice", "2026-09-10 , 48 of a", "2026-11-20 , 32 of a")
    assert "Charge 2 takes boards a from pile A (a.stackplan, line 7) that are gone" in finding.message
    assert "80 are taken of 64, 16 too many" in finding.message
    assert finding.instead == "Take 16 fewer."
    assert [(each.where.path, each.where.line) for each in finding.related] == [
        ("a.stackplan", 7),
        ("charges.stackplan", 4),
    ]
    assert found("pile-taken-twice", "2026-09-10 , 32 of a", "2026-11-20 , 32 of a") == []


def test_where_a_charge_takes_all_it_is_advised_to_say_how_many_it_takes() -> None:
    (finding,) = found("pile-taken-twice", "2026-09-10 , 48 of a", "2026-11-20 ")
    assert finding.instead.startswith("Say how many of which boards each charge takes")


def test_a_charge_that_takes_a_used_pile_too_early_is_told() -> None:
    (finding,) = found("pile-not-dry-yet", "2026-04-20 ")
    assert "wanted at 20%" in finding.message and "a.stackplan, line 7" in finding.message
    assert found("pile-not-dry-yet", "2026-09-10 ") == []


@pytest.mark.parametrize(("second", "told"), [("250 bf", []), ("251 bf", ["1 bf too much"])])
def test_parts_by_volume_that_add_up_to_a_pile_are_what_it_has(second: str, told: list[str]) -> None:
    """Each comes to whole boards of many sizes, which would not add up."""
    charges = "".join(
        f'charge "{number}" in kiln "Box"\n  starts {day}\n  from pile "A", {part} of a\n'
        for number, day, part in ((1, "2026-09-01", "100 bf"), (2, "2026-10-20", second))
    )
    text = (
        'site "Mill"\n  near "Burlington, VT"\nkiln "Box"\n  type vented\npile "A"\n  stacked 2026-03-02\n'
        "  boards a: 350 bf of white ash 5/4 x 5 to 9 in x 6 to 8 ft, green\n"
    )
    findings = check(text + charges, today=datetime.date(2026, 6, 1)).findings
    over = [each.message for each in findings if each.rule == "pile-taken-twice"]
    assert [message.rpartition(", ")[2].rstrip(".") for message in over] == told
