"""Dates, targets and conditions that cannot all be so: each a finding at its place, the rest checked all the same."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checking import check
from stacklint.findings import Finding

TODAY = datetime.date(2026, 9, 1)
PILE = """\
site "Larch Bottom"
  near "Columbus, OH"
pile "Row 3"
  place open yard
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, 40%
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 60 in, dry
"""
CHARGE = """\
kiln "North box"
  type dehumidification
  inside 17 ft x 5 ft x 6 ft
  heats to 150 F
charge "May" in kiln "North box"
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, 40%
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 60 in, dry
"""


def findings(block: str, *said: str) -> list[Finding]:
    return list(check(block + "".join(f"  {line}\n" for line in said), today=TODAY).findings)


def wrong(block: str, *said: str) -> list[tuple[int, str]]:
    """Line within what was said, and message, of each contradiction; the wide stickers are found all the same."""
    found = findings(block, *said)
    assert "sticker-spacing-too-wide" in {each.rule for each in found}
    before = block.count("\n")
    return [(each.where.line - before, each.message) for each in found if each.rule == "value-out-of-range"]


def test_dates_in_their_order_are_no_contradiction() -> None:
    assert wrong(PILE, "sawn 2026-03-30", "stacked 2026-04-02", "want 15% by 2026-09-01") == []
    assert wrong(CHARGE, "sawn 2026-03-30", "stacked 2026-04-02", "starts 2026-04-02", "want 8% by 2026-09-01") == []


def test_boards_are_sawn_before_they_are_stacked() -> None:
    assert wrong(PILE, "sawn 2026-04-03", "stacked 2026-04-02") == [
        (2, "Stacked on 2026-04-02, before the boards were sawn on 2026-04-03.")
    ]


def test_a_pile_is_wanted_after_it_is_stacked() -> None:
    message = "The boards are wanted by 2026-04-01, but they are stacked on 2026-04-02."
    assert wrong(PILE, "stacked 2026-04-02", "want 15% by 2026-04-01") == [(2, message)]


def test_a_charge_starts_after_its_boards_are_sawn_and_stacked() -> None:
    assert wrong(CHARGE, "sawn 2026-05-03", "stacked 2026-05-05", "starts 2026-05-01") == [
        (3, "The charge starts on 2026-05-01, before the boards are stacked on 2026-05-05."),
        (3, "The charge starts on 2026-05-01, before the boards are sawn on 2026-05-03."),
    ]


def test_a_charge_is_wanted_after_it_starts() -> None:
    assert wrong(CHARGE, "starts 2026-05-01", "want 8% by 2026-04-01") == [
        (2, "The boards are wanted by 2026-04-01, but the charge starts on 2026-05-01.")
    ]


def test_what_is_wanted_is_drier_than_what_is_there() -> None:
    found = [each for each in findings(PILE, "want 45%") if each.rule == "value-out-of-range"]
    assert [each.message for each in found] == ["45% is wanted, but the wettest of the boards are at 40% already."]
    assert found[0].found is not None and found[0].limit is not None
    assert (found[0].found.value, found[0].limit.value) == (pytest.approx(0.45), pytest.approx(0.40))
    assert wrong(PILE, "want 40%") == []


def test_the_wettest_of_the_boards_count() -> None:
    assert wrong(PILE, "boards b: 10 of white ash 4/4 x 6 in x 8 ft, 60%", "want 45%") == []


def test_a_wet_bulb_is_below_its_dry_bulb() -> None:
    assert wrong(CHARGE, "runs at 100 F / 110 F") == [(1, "A wet bulb of 110 F above a dry bulb of 100 F cannot be.")]
    assert wrong(CHARGE, "runs at 110 F / 110 F") == []
    assert wrong(CHARGE, "runs at 110 F / 43 C") == []
    assert len(wrong(CHARGE, "runs at 110 F / 44 C")) == 1


def test_a_schedule_that_nobody_published_is_told_with_the_nearest() -> None:
    found = [each for each in findings(CHARGE, "schedule T99-D4") if each.rule == "value-out-of-range"]
    assert [each.message for each in found] == ["There is no published kiln schedule T99-D4."]
    assert found[0].instead is not None and "-D4" in found[0].instead
    assert found[0].where.line == CHARGE.count("\n") + 1
    assert wrong(CHARGE, "schedule T8-D4") == []


def test_every_contradiction_is_told_in_one_run() -> None:
    said = wrong(
        CHARGE, "sawn 2026-05-03", "stacked 2026-05-02", "starts 2026-05-01", "runs at 100 F / 110 F",
        "schedule T99-D4", "want 90% by 2026-01-01",
    )  # fmt: skip
    assert [line for line, _ in said] == [2, 3, 3, 4, 5, 6, 6]


def test_a_contradiction_of_one_stack_does_not_keep_another_from_its_forecast() -> None:
    text = PILE + "  stacked 2026-04-02\n  want 15% by 2026-01-01\n" + PILE.partition("\npile")[2].join(("pile", ""))
    checked = check(text.replace('"Row 3"', '"Row 4"', 1), today=TODAY)
    assert all(one.forecast is not None for one in checked.stacks)
    assert len(checked.stacks) == 2
