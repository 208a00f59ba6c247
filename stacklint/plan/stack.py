"""A stack: a pile in a yard or a charge for a kiln."""

from __future__ import annotations

import datetime
from enum import Enum

from stacklint.plan.boards import Boards, Courses
from stacklint.plan.bounds import (
    BoardThickness,
    Duration,
    FinishedWidth,
    HoursADay,
    Humidity,
    KilnTemperature,
    MoistureContent,
    Position,
    SmallLength,
    StackLength,
    StackWidth,
    Volume,
)
from stacklint.plan.node import Name, Node
from stacklint.plan.shelter import Cover, Ends, Fan, PlaceStatement, Sides, TopLoad, WindAcross
from stacklint.plan.supports import Bearers, Ground, Stickers


class StackKind(Enum):
    PILE = "pile"
    CHARGE = "charge"


class Day(Node):
    """A date as it was written."""

    date: datetime.date


class StackSize(Node):
    """A ``stack`` statement: length along the boards, width across them."""

    length: StackLength
    width: StackWidth
    boards_apart: SmallLength | None = None
    next_pile: Position | None = None
    flue: SmallLength | None = None


class Clearance(Node):
    """Ground to the underside of the lowest board."""

    height: SmallLength


class Want(Node):
    """A ``want`` statement: the moisture content wanted, by when, for what."""

    moisture: MoistureContent | None = None
    by: Day | None = None
    use: Name | None = None


class Wanted(Node):
    """A ``wanted`` statement: the size that boards are to have when they are dry and planed.

    Of the group ``label`` names, else of all the boards. At least one of the two sizes is given.
    """

    thickness: BoardThickness | None = None
    width: FinishedWidth | None = None
    label: Name | None = None


class ReadingFrom(Enum):
    OUTER_BOARDS = "outer boards"
    CORE = "core"


class Reading(Node):
    day: Day
    moisture: MoistureContent
    label: Name | None = None
    taken_from: ReadingFrom | None = None


class Waiver(Node):
    """A ``waive`` statement. ``reason`` is ``None`` if none was given; ``until`` is the last day it holds."""

    rule: Name
    reason: str | None = None
    until: Day | None = None


class Setting(Node):
    """``runs at 110 F 85%`` or ``110 F / 102 F``: exactly one of ``humidity`` and ``wet_bulb``."""

    dry_bulb: KilnTemperature
    humidity: Humidity | None = None
    wet_bulb: KilnTemperature | None = None


class Hold(Node):
    """``hold 150 F for 4 h``."""

    temperature: KilnTemperature
    time: Duration


class Baffles(Node):
    top: bool = False
    ends: bool = False
    floor: bool = False


class FanHours(Node):
    a_day: HoursADay


class TakenPart(Node):
    """``40 of a``: so many boards, or so much wood, of a pile's group; all of it where neither is given."""

    label: Name
    count: int | None = None
    volume: Volume | None = None


class Taking(Node):
    """A pile that a charge takes boards from: all its boards, or the ``parts`` where any are named."""

    pile: Name
    parts: tuple[TakenPart, ...] = ()


class Said(Node):
    """Marker for a bare word statement such as ``sterilize``: only its place matters."""


class Stack(Node):
    """A ``pile`` or ``charge`` block with all that was said in it.

    ``faulty`` names the statements (by keyword) that could not be read whole: what they would have
    said is unknown, so nothing may be assumed in its stead.
    """

    kind: StackKind
    name: Name
    title: str | None = None
    kiln: Name | None = None
    place: PlaceStatement | None = None
    spot: Name | None = None
    sawn: Day | None = None
    stacked: Day | None = None
    starts: Day | None = None
    boards: tuple[Boards, ...] = ()
    size: StackSize | None = None
    courses: tuple[Courses, ...] = ()
    stickers: Stickers | None = None
    bearers: Bearers | None = None
    clearance: Clearance | None = None
    ground: Ground | None = None
    cover: Cover | None = None
    sides: Sides | None = None
    wind: WindAcross | None = None
    top_load: TopLoad | None = None
    ends: Ends | None = None
    fan: Fan | None = None
    want: Want | None = None
    wanted: tuple[Wanted, ...] = ()
    readings: tuple[Reading, ...] = ()
    waivers: tuple[Waiver, ...] = ()
    schedule: Name | None = None
    baffles: Baffles | None = None
    sterilize: Said | None = None
    runs: tuple[Setting, ...] = ()
    hold: Hold | None = None
    fan_hours: FanHours | None = None
    from_piles: tuple[Taking, ...] = ()
    faulty: frozenset[str] = frozenset()
