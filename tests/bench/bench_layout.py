"""How long a layout takes: ``python tests/bench/bench_layout.py``."""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from functools import partial

from stacklint.layout import arrange
from stacklint.layout.matching import match
from stacklint.plan.boards import Boards
from stacklint.plan.node import Name, Quantity
from stacklint.plan.stack import Stack, StackKind, StackSize
from stacklint.plan.supports import Bearers, Stickers
from stacklint.units import Unit

FOOT = 30_480
INCH = 2_540


def quantity(number: float, unit: Unit) -> Quantity:
    return Quantity(number=number, unit=unit)


def stack(*groups: tuple[int, float]) -> Stack:
    """A stack of boards, each group so many of so many feet, 4/4 x 6 in, in 16 ft x 4 ft."""
    boards = tuple(
        Boards(
            label=Name(text=chr(ord("a") + place)),
            count=count,
            wood=Name(text="white ash"),
            thickness=quantity(4, Unit.QUARTER),
            width=quantity(6, Unit.INCH),
            length=quantity(length, Unit.FOOT),
        )
        for place, (count, length) in enumerate(groups)
    )
    return Stack(
        kind=StackKind.PILE,
        name=Name(text="B2"),
        boards=boards,
        size=StackSize(length=quantity(16, Unit.FOOT), width=quantity(4, Unit.FOOT)),
        stickers=Stickers(every=quantity(24, Unit.INCH), from_ends=quantity(1, Unit.INCH)),
        bearers=Bearers(sides=(quantity(4, Unit.INCH), quantity(6, Unit.INCH)), every=quantity(24, Unit.INCH)),
    )


def timed(work: Callable[[], object], times: int) -> float:
    """Milliseconds for one call."""
    work()
    begin = time.process_time()
    for _ in range(times):
        work()
    return (time.process_time() - begin) / times * 1000


def lengths(seed: int, sizes: range, unit: int) -> dict[int, int]:
    draw = random.Random(seed)
    chosen = [size * unit for size in draw.sample(sizes, 10)]
    counts = dict.fromkeys(chosen, 0)
    for _ in range(500):
        counts[draw.choice(chosen)] += 1
    return counts


def main() -> None:
    usual = stack((60, 8), (50, 12), (40, 4))
    print(f"three groups, 150 boards: {timed(lambda: arrange(usual), 500):.2f} ms")
    large = stack((60_000, 8), (20_000, 12), (20_000, 5))
    print(f"100,000 boards: {timed(lambda: arrange(large), 20):.2f} ms")
    low, high = 16 * FOOT - 3 * INCH, 16 * FOOT + 3 * INCH
    for name, sizes, unit in (("whole feet", range(2, 16), FOOT), ("inches", range(24, 100), INCH)):
        took = sorted(timed(partial(match, lengths(seed, sizes, unit), low, high), 1) for seed in range(40))
        print(f"500 boards of 10 lengths in {name}: median {took[20]:.1f} ms, longest {took[-1]:.1f} ms")


if __name__ == "__main__":
    main()
