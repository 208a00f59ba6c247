"""The statements of the plan language: in which blocks each belongs and what reads it."""

from __future__ import annotations

import datetime
import functools
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType

from stacklint.language import board_statements, running, shelter, supports, yard_statements
from stacklint.language.details import text_of
from stacklint.language.line import Line
from stacklint.language.parse import Branch
from stacklint.language.scan import Token
from stacklint.plan.yard import Kind


class BlockKind(Enum):
    SITE = "site"
    KILN = "kiln"
    WOOD = "wood"
    PILE = "pile"
    CHARGE = "charge"


Values = dict[str, object]
Read = Callable[[Line, Branch | None, list[Branch], datetime.date], Values]


@dataclass(frozen=True, slots=True)
class Statement:
    """``keyword`` is how faults and ``faulty`` name it; ``read`` gives the fields of the block that it sets.

    ``many`` statements may stand more than once in a block, and add to their field.
    """

    keyword: str
    blocks: tuple[BlockKind, ...]
    read: Read
    many: bool = False
    takes: tuple[str, ...] = ()
    """Its details as people write them, for messages."""


def _plain(field: str, read: Callable[[Line, Branch], object | None]) -> Read:
    """A statement that is nothing but its head."""

    def values(line: Line, head: Branch | None, details: list[Branch], _: datetime.date) -> Values:
        no_details(line, details)
        return {field: read(line, head)} if head is not None else {}

    return values


def _shared(read: Callable[[Line, Branch], Values]) -> Read:
    """A statement of a site, kiln or wood that is nothing but its head."""

    def values(line: Line, head: Branch | None, details: list[Branch], _: datetime.date) -> Values:
        no_details(line, details)
        return read(line, head) if head is not None else {}

    return values


def _listed(field: str, read: Callable[[Line, list[Branch]], object | None]) -> Read:
    """A statement that is its keyword and a list of details."""

    def values(line: Line, head: Branch | None, details: list[Branch], _: datetime.date) -> Values:
        lead = head.children[-1] if head is not None else None
        return {field: read(line, details if lead is None or isinstance(lead, Token) else [lead, *details])}

    return values


def _headed(field: str, read: Callable[[Line, Branch | None, list[Branch]], object | None]) -> Read:
    """A statement with a head of its own and details."""
    return lambda line, head, details, _: {field: read(line, head, details)}


def _reading(line: Line, head: Branch | None, details: list[Branch], today: datetime.date) -> Values:
    return {"readings": board_statements.read_reading(line, head, details, today)} if head is not None else {}


def no_details(line: Line, details: list[Branch]) -> None:
    for detail in details:
        line.fault(
            line.over(detail),
            f"{text_of(line, detail)} does not go with this statement.",
            "Take it out, or write it as a statement on a line of its own.",
        )


def _kiln(field: str) -> Read:
    return _shared(functools.partial(yard_statements.read_kiln_figure, field))


def _fans(line: Line, head: Branch | None, details: list[Branch], today: datetime.date) -> Values:
    """A kiln's fans, or the hours that a charge runs them."""
    if head is not None and head.data == "fan_hours":
        return _plain("fan_hours", running.read_fan_hours)(line, head, details, today)
    return _shared(yard_statements.read_kiln_fans)(line, head, details, today)


_SITE = (BlockKind.SITE,)
_KILN = (BlockKind.KILN,)
_WOOD = (BlockKind.WOOD,)
_STACKS = (BlockKind.PILE, BlockKind.CHARGE)
_CHARGE = (BlockKind.CHARGE,)

STATEMENTS: Mapping[str, Statement] = MappingProxyType(
    {
        "NEAR": Statement("near", _SITE, _shared(yard_statements.read_near)),
        "MONTH": Statement("month", _SITE, _shared(yard_statements.read_month), many=True),
        "SPOTS": Statement("spots", _SITE, _shared(yard_statements.read_spots)),
        "STOCK": Statement("stock", _SITE, _shared(yard_statements.read_stock), many=True),
        "TYPE": Statement("type", _KILN, _shared(yard_statements.read_kiln_type)),
        "INSIDE": Statement("inside", _KILN, _shared(yard_statements.read_inside)),
        "HOLDS": Statement("holds", (BlockKind.SITE, BlockKind.KILN), _kiln("holds")),
        "CARRIES": Statement("carries", _KILN, _kiln("carries")),
        "HEATS": Statement("heats to", _KILN, _kiln("heats_to")),
        "REMOVES": Statement("removes", _KILN, _kiln("removes")),
        "FANS": Statement("fans", (BlockKind.KILN, BlockKind.CHARGE), _fans),
        "PLENUM": Statement("plenum", _KILN, _kiln("plenum")),
        "COLLECTOR": Statement("collector", _KILN, _kiln("collector")),
        "LIKE": Statement("like", _WOOD, _shared(yard_statements.read_like)),
        "HARDWOOD": Statement("hardwood", _WOOD, _shared(lambda _line, _head: {"kind": Kind.HARDWOOD})),
        "SOFTWOOD": Statement("softwood", _WOOD, _shared(lambda _line, _head: {"kind": Kind.SOFTWOOD})),
        "SPECIFIC": Statement("specific gravity", _WOOD, _shared(yard_statements.read_gravity)),
        "STIFFNESS": Statement(
            "stiffness", _WOOD, lambda line, head, details, _: yard_statements.read_stiffness(line, head, details)
        ),
        "CRUSHING": Statement(
            "crushing", _WOOD, _shared(functools.partial(yard_statements.read_wood_figure, "crushing_green"))
        ),
        "GREEN": Statement(
            "green moisture", _WOOD, _shared(functools.partial(yard_statements.read_wood_figure, "green_moisture"))
        ),
        "SHRINKS": Statement(
            "shrinks", _WOOD, lambda line, head, details, _: yard_statements.read_shrinkage(line, head, details)
        ),
        "SOURCE": Statement("source", _WOOD, _shared(lambda _, head: yard_statements.read_source(head))),
        "PLACE": Statement("place", _STACKS, _listed("place", shelter.read_place), takes=shelter.PLACE.takes),
        "SPOT": Statement("spot", _STACKS, _plain("spot", running.read_spot)),
        "SAWN": Statement("sawn", _STACKS, _plain("sawn", running.read_day)),
        "STACKED": Statement("stacked", _STACKS, _plain("stacked", running.read_day)),
        "BOARDS": Statement("boards", _STACKS, _headed("boards", board_statements.read_boards), many=True),
        "STACK": Statement("stack", _STACKS, _listed("size", supports.read_stack), takes=supports.STACK.takes),
        "COURSE": Statement("course", _STACKS, _headed("courses", board_statements.read_courses), many=True),
        "STICKERS": Statement(
            "stickers", _STACKS, _listed("stickers", supports.read_stickers), takes=supports.STICKERS.takes
        ),
        "BEARERS": Statement(
            "bearers", _STACKS, _listed("bearers", supports.read_bearers), takes=supports.BEARERS.takes
        ),
        "CLEARANCE": Statement("clearance", _STACKS, _plain("clearance", supports.read_clearance)),
        "GROUND": Statement("ground", _STACKS, _listed("ground", supports.read_ground), takes=supports.GROUND.takes),
        "COVER": Statement("cover", _STACKS, _listed("cover", shelter.read_cover), takes=shelter.COVER.takes),
        "SIDES": Statement("sides", _STACKS, _listed("sides", shelter.read_sides), takes=shelter.SIDES.takes),
        "WIND": Statement("wind", _STACKS, _listed("wind", shelter.read_wind), takes=shelter.WIND.takes),
        "TOP": Statement("top load", _STACKS, _listed("top_load", shelter.read_top_load), takes=shelter.TOP_LOAD.takes),
        "ENDS": Statement("ends", _STACKS, _listed("ends", shelter.read_ends), takes=shelter.ENDS.takes),
        "FAN": Statement("fan", _STACKS, _listed("fan", shelter.read_fan), takes=shelter.FAN.takes),
        "WANT": Statement("want", _STACKS, _headed("want", running.read_want)),
        "WANTED": Statement(
            "wanted", _STACKS, _listed("wanted", running.read_wanted), many=True, takes=running.WANTED.takes
        ),
        "READING": Statement("reading", _STACKS, _reading, many=True),
        "WAIVE": Statement("waive", _STACKS, _plain("waivers", running.read_waive), many=True),
        "STARTS": Statement("starts", _CHARGE, _plain("starts", running.read_day)),
        "SCHEDULE": Statement("schedule", _CHARGE, _plain("schedule", running.read_schedule)),
        "BAFFLES": Statement("baffles", _CHARGE, _listed("baffles", shelter.read_baffles), takes=shelter.BAFFLES.takes),
        "STERILIZE": Statement("sterilize", _CHARGE, _plain("sterilize", lambda line, _: running.read_sterilize(line))),
        "STERILISE": Statement("sterilize", _CHARGE, _plain("sterilize", lambda line, _: running.read_sterilize(line))),
        "RUNS": Statement("runs", _CHARGE, _plain("runs", running.read_runs), many=True),
        "HOLD": Statement("hold", _CHARGE, _plain("hold", running.read_hold)),
        "FROM": Statement("from pile", _CHARGE, _headed("from_piles", running.read_from), many=True),
    }
)
"""By the terminal that the statement's first word is."""
LISTS = frozenset({"months", "stock", "boards", "courses", "wanted", "readings", "waivers", "runs", "from_piles"})
"""The fields that hold more than one."""
BLOCKS: Mapping[str, BlockKind] = MappingProxyType({kind.value.upper(): kind for kind in BlockKind})
