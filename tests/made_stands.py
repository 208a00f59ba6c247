"""Stacks of a yard as they are kept of checked plans, made by hand and at random."""

from __future__ import annotations

import datetime
from typing import Any

from hypothesis import strategies as st

from stacklint.plan.stack import StackKind
from stacklint.plan.yard import StockKind
from stacklint.units import System
from stacklint.where import Where
from stacklint.yard.stands import Block, Lot, Need, Room, Stand, Supply, Taking, YardPlan
from stacklint.yard.stay import Spot, SpotKind, Stay

DATE = datetime.date
BOARD_FOOT = 0.3048**2 * 0.0254


def at(path: str, line: int) -> Where:
    return Where(path, line, 3, line, 9)


def site(name: str = "Larch Bottom", path: str = "yard.stackplan", line: int = 3, **more: Any) -> Block:
    """``more`` are ``spots``, ``holds`` (board feet) and ``stock``, each as ``(kind, pieces, length in feet)``."""
    rooms = []
    if "spots" in more:
        rooms.append(Room(float(more["spots"]), wood=False, trade=False, where=at(path, line + 2)))
    if "holds" in more:
        rooms.append(Room(more["holds"] * BOARD_FOOT, wood=True, trade=True, where=at(path, line + 3)))
    supplies = tuple(
        Supply(kind, pieces, None if feet is None else feet * 0.3048, at(path, line + 4 + number))
        for number, (kind, pieces, feet) in enumerate(more.get("stock", ()))
    )
    return Block(at(path, line), name, more.get("words", f"site {name} of {path}"), supplies, tuple(rooms))


def kiln(name: str = "Box", path: str = "yard.stackplan", line: int = 20, words: str = "") -> Block:
    return Block(at(path, line), name, words or f"kiln {name} of {path}")


def day(said: str | None) -> DATE | None:
    return None if said is None else DATE.fromisoformat(said)


def pile(
    name: str,
    path: str,
    start: str | None = "2026-03-01",
    gone: str | None = "2026-08-01",
    *,
    line: int = 5,
    spot: str = "",
    where: Block | None = None,
    needs: tuple[Need, ...] = (),
    board_feet: float = 500.0,
    pieces: int | None = 100,
    earliest: str | None = None,
    wanted: float | None = 0.2,
) -> Stand:
    """A pile that is foretold to be as dry as is wanted on a day."""
    place = Spot(SpotKind.SPOT, spot, where.name if where else "") if spot else Spot(SpotKind.YARD, "open yard")
    first = day(start)
    stay = None
    if first is not None:
        stay = Stay(place, first, True, gone is not None, day(earliest or gone), day(gone), day(gone))
    volume = board_feet * BOARD_FOOT
    return Stand(
        kind=StackKind.PILE,
        name=name,
        block=Where(path, line, 1, line, 10),
        at=at(path, line),
        placed_at=at(path, line + 1) if spot else None,
        started_at=at(path, line + 2) if first else None,
        site=where,
        kiln=None,
        stay=stay,
        lots=(Lot(at(path, line + 3), "white ash", volume, "a", pieces),),
        takings=(),
        missing=(),
        needs=needs,
        volume=volume,
        board_measure=volume,
        wanted=wanted if gone else None,
    )


def charge(
    name: str,
    path: str,
    start: str | None = "2026-09-01",
    gone: str | None = "2026-09-20",
    *takes: tuple[Stand, float],
    line: int = 5,
    where: Block | None = None,
    missing: tuple[str, ...] = (),
) -> Stand:
    """A charge that takes shares of piles."""
    first = day(start)
    box = where or kiln()
    stay = None
    if first is not None:
        stay = Stay(Spot(SpotKind.KILN, box.name), first, True, gone is not None, day(gone), day(gone), day(gone))
    lots = tuple(
        lot._replace(volume=lot.volume * share, pieces=None if lot.pieces is None else round(lot.pieces * share))
        for taken, share in takes
        for lot in taken.lots
    )
    return Stand(
        kind=StackKind.CHARGE,
        name=name,
        block=Where(path, line, 1, line, 10),
        at=at(path, line),
        placed_at=Where(path, line, 20, line, 25),
        started_at=at(path, line + 1) if first else None,
        site=None,
        kiln=box,
        stay=stay,
        lots=lots,
        takings=tuple(
            Taking(taken.name, taken.block, at(path, line + 2 + number)) for number, (taken, _) in enumerate(takes)
        ),
        missing=tuple(
            Taking(each, at(path, line + 8 + number), at(path, line + 8 + number))
            for number, each in enumerate(missing)
        ),
        needs=(),
        volume=sum(lot.volume for lot in lots),
        board_measure=sum(lot.volume for lot in lots),
        wanted=0.08,
    )


def plan(*stands: Stand, waivers: tuple[Any, ...] = (), system: System = System.INCH) -> YardPlan:
    """The plan that the stacks are written in, by the path of the first."""
    path = stands[0].block.path
    return YardPlan(path, path.rpartition("/")[0], system, stands, waivers)


def stickers(pieces: int, feet: float = 4.0) -> tuple[Need, ...]:
    return (Need(StockKind.STICKERS, pieces, feet * 0.3048),)


def bearers(pieces: int, feet: float = 4.0) -> tuple[Need, ...]:
    return (Need(StockKind.BEARERS, pieces, feet * 0.3048),)


@st.composite
def yards(draw: st.DrawFn) -> list[YardPlan]:
    """Plans of few folders, names, spots, kilns and days, so that much of it clashes."""
    days = st.sampled_from(["2026-03-01", "2026-03-02", "2026-08-01", "2026-08-02", "9999-12-31", None])
    names = st.sampled_from(["A", "a", "B", ""])
    folders = st.sampled_from(["", "hill", "river"])
    sites = st.sampled_from(
        [
            None,
            site(spots=1, holds=800, stock=[(StockKind.STICKERS, 90, 4.0), (StockKind.STICKERS, 20, None)]),
            site("Hill", "hill/yard.stackplan", stock=[(StockKind.BEARERS, 10, 5.0)], words="as ever"),
            site("Hill", "river/yard.stackplan", spots=2, words="as ever"),
        ]
    )
    plans: list[YardPlan] = []
    piles: list[Stand] = []
    for number in range(draw(st.integers(0, 8))):
        path = f"{draw(folders)}/{number}.stackplan".lstrip("/")
        if piles and draw(st.booleans()):
            takes = [(each, draw(st.sampled_from([0.5, 1.0]))) for each in piles if draw(st.booleans())]
            box = draw(st.sampled_from([kiln(), kiln("box", "hill/yard.stackplan", words="as ever")]))
            made = charge(draw(names), path, draw(days), draw(days), *takes, where=box, missing=("a",))
        else:
            spot = draw(st.sampled_from(["", "row 1", "ROW 1"]))
            needs = (*stickers(draw(st.integers(0, 80))), *bearers(6, 5.0))
            made = pile(
                draw(names), path, draw(days), draw(days), spot=spot, where=draw(sites), needs=needs, board_feet=500
            )
            piles.append(made)
        plans.append(plan(made, system=draw(st.sampled_from(System))))
    return plans
