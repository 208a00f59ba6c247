"""The stickers that lie ready at a stack's site."""

from __future__ import annotations

import pytest

from stacklint.checking import check

STACK = """\
pile "B2"
  place open yard
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 24 in, 4 ft long
"""


@pytest.mark.parametrize(
    ("stock", "ready"),
    [
        ("stock 35 stickers", 35),
        ("stock 35 stickers of 4 ft\n  stock 20 stickers of 3 ft", 35),
        ("stock 35 stickers\n  stock 60 bearers of 6 ft", 35),
        ("stock 60 bearers of 6 ft", None),
    ],
)
def test_stickers_of_the_length_or_longer_lie_ready_and_bearers_are_none(stock: str, ready: float | None) -> None:
    facts = check(f'site "Yard"\n  near "Columbus, OH"\n  {stock}\n{STACK}').stacks[0].facts
    assert facts is not None
    assert facts.sticker_stock == ready
