"""Facts of the parts of a stack: boards, supports, cover, kiln. See :mod:`stacklint.engineering.facts`.

SI inside: metres, kilograms, pascals, degrees Celsius; shares and moisture contents as fractions.
``None`` means unknown, and a rule that leans on an unknown fact stays silent.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import ClassVar

from stacklint.engineering.schema import Call, amount, day, words, yes_no
from stacklint.findings import Mark
from stacklint.units import DENSITY, FORCE, LENGTH, MASS, NUMBER, PRESSURE, TEMPERATURE, TIME, VOLUME, WATER_RATE
from stacklint.where import Where


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Statement:
    """A statement of the plan, for findings that speak of it."""

    where: Where
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Group:
    """A group of like boards: one ``boards`` statement."""

    where: Where
    marks: tuple[Mark, ...] = ()
    label: str | None = words("the group's letter or name")
    boards: str | None = words("the boards in words: 60 of white ash 4/4 x 6 in x 8 ft")
    wood: str | None = words("the wood's name")
    hardwood: bool | None = yes_no("the wood is a hardwood")
    pieces: float | None = amount(NUMBER, "boards in the group")
    volume: float | None = amount(VOLUME, "of all its boards")
    thickness: float | None = amount(LENGTH, "as listed")
    width: float | None = amount(LENGTH, "as listed; the mean of random widths")
    length: float | None = amount(LENGTH, "of its longest board")
    moisture: float | None = amount(NUMBER, "moisture content, a share of the oven-dry mass")
    moisture_stated: bool | None = yes_no("the plan gives the moisture; otherwise green is assumed")
    density: float | None = amount(DENSITY, "at its present moisture content")
    board_mass: float | None = amount(MASS, "of its heaviest board at the present moisture content")
    sizes_vary: bool | None = yes_no("its boards are of random or several sizes; the mass is the heaviest's")
    timber: bool | None = yes_no("5 in or thicker: judged by its computed sag, not by a spacing table")
    warp_prone: bool | None = yes_no("the wood is known to warp in drying")
    stain_prone: bool | None = yes_no("the wood is pale or known to stain")
    check_prone: bool | None = yes_no("the wood is known to check")
    unpaired: float | None = amount(NUMBER, "its boards in rows that do not fill the stack's length")
    left_over: float | None = amount(NUMBER, "its boards that stand in no course")
    spacing: float | None = amount(LENGTH, "widest distance between stickers under its boards")
    powderpost_prone: bool | None = yes_no("powderpost beetles attack the wood's sapwood")
    dried_to: float | None = amount(NUMBER, "moisture content that its dry size is reckoned for")
    thickness_dry: float | None = amount(LENGTH, "when dry, before planing")
    width_narrowest: float | None = amount(LENGTH, "of its narrowest boards, as listed; unknown for live edges")
    width_dry: float | None = amount(LENGTH, "of its narrowest boards when dry, before planing")
    wanted_thickness: float | None = amount(LENGTH, "wanted when dry and planed")
    wanted_width: float | None = amount(LENGTH, "wanted when dry and planed")
    drying_days_low: float | None = amount(TIME, "published time to dry as its place does, fast end")
    drying_days_high: float | None = amount(TIME, "published time to dry as its place does, slow end")
    safe_loss: float | None = amount(NUMBER, "most moisture content that it may lose in a day; unknown for many woods")
    safe_memory: bool | None = yes_no("that figure is recalled, or worked out from a recalled one")
    first_loss: float | None = amount(NUMBER, "moisture content that it loses on its first day, by forecast, likely")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Reading:
    """A reading of the moisture content, and what stood before it."""

    where: Where
    marks: tuple[Mark, ...] = ()
    date: datetime.date | None = day("of the reading")
    boards: str | None = words("the boards that it is of, in words")
    moisture: float | None = amount(NUMBER, "as read")
    before: float | None = amount(
        NUMBER, "moisture content at the reading before, or at the start; of green boards the least that is likely"
    )
    before_assumed: bool | None = yes_no("that moisture content was not measured: it is taken for what a word says")
    since: float | None = amount(TIME, "from that to this reading")
    loss: float | None = amount(NUMBER, "moisture content lost in a day since then; below 0 where it rose")
    loss_least: float | None = amount(
        NUMBER, "the same, from the dry end of green where the start is only said to be green"
    )
    rise: float | None = amount(NUMBER, "how much wetter than before; below 0 where it is drier")
    safe: float | None = amount(NUMBER, "most that the wood may lose in a day")
    safe_memory: bool | None = yes_no("that figure is recalled, or worked out from a recalled one")
    held: float | None = amount(
        NUMBER, "lowest moisture content that its air could have brought the boards to since the start"
    )
    slow: float | None = amount(NUMBER, "moisture content that a slow stack would have had by then")
    back: bool | None = yes_no("it lies before a reading above it in the plan")
    early: bool | None = yes_no("it lies before the stack was built")
    follows: bool | None = yes_no("another reading of these boards stands before it")
    rained_on: bool | None = yes_no("rain reaches the stack: it stands in the open without a cover")
    core: bool | None = yes_no("it was taken from the core")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Course:
    """Courses laid alike."""

    where: Where
    marks: tuple[Mark, ...] = ()
    name: str | None = words("course 3, or courses 1 to 6")
    first: float | None = amount(NUMBER, "number of the lowest, from the ground")
    last: float | None = amount(NUMBER, "number of the highest")
    thickest: float | None = amount(LENGTH, "of its boards")
    thinnest: float | None = amount(LENGTH, "of its boards")
    beyond: float | None = amount(LENGTH, "how far its boards reach past those of the course below, at the worse end")
    bare: float | None = amount(NUMBER, "share of the width of the course above that its rows leave unsupported")
    out: float | None = amount(LENGTH, "how far its boards stand out past an end of the stack; below 0 where none does")
    short: float | None = amount(LENGTH, "how far its full rows stop before an end of the stack, at the worse end")
    thick_boards: str | None = words("its thickest boards, in words")
    thin_boards: str | None = words("its thinnest boards, in words")
    width: float | None = amount(LENGTH, "of its rows side by side, gaps included")
    moisture: float | None = amount(NUMBER, "of its wettest boards")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class End:
    """A board end and the last sticker before it."""

    where: Where
    marks: tuple[Mark, ...] = ()
    boards: str | None = words("the boards in words")
    course: str | None = words("course 3, or courses 1 to 6")
    position: str | None = words("at the left end of the stack, 8 ft from its left end, ...")
    inside: bool | None = yes_no("the end lies inside the stack, not at one of its ends")
    at_joint: bool | None = yes_no("another board meets it there")
    past: float | None = amount(LENGTH, "from the middle of the last sticker under the board to the board's end")
    moisture: float | None = amount(NUMBER, "of the board")
    droop: float | None = amount(LENGTH, "how far the end would bend down, creep included")
    count: float | None = amount(NUMBER, "board ends alike")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Joint:
    """Two boards that meet end to end."""

    where: Where
    marks: tuple[Mark, ...] = ()
    boards: str | None = words("the two boards, in words")
    course: str | None = words("course 3, or courses 1 to 6")
    position: float | None = amount(LENGTH, "from the left end of the stack")
    off: float | None = amount(LENGTH, "to the middle of the nearest sticker line")
    on_sticker: bool | None = yes_no("both ends bear on one sticker")
    moisture: float | None = amount(NUMBER, "of the wetter of the two boards")
    count: float | None = amount(NUMBER, "joints alike")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Board:
    """How a board is held: on how many sticker lines."""

    where: Where
    marks: tuple[Mark, ...] = ()
    boards: str | None = words("the boards in words")
    course: str | None = words("course 3, or courses 1 to 6")
    lines: float | None = amount(NUMBER, "sticker lines under the board")
    length: float | None = amount(LENGTH, "of the board")
    count: float | None = amount(NUMBER, "boards alike")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Span:
    """A board between two supports: sticker lines, or bearers where the stack bends between them."""

    CALLS: ClassVar[Mapping[str, Call]] = MappingProxyType(
        {"spacing_for": Call(LENGTH, LENGTH, "the widest even spacing at which the sag stays within a limit")}
    )

    where: Where
    marks: tuple[Mark, ...] = ()
    boards: str | None = words("the boards in words")
    course: str | None = words("course 3, or courses 1 to 6")
    length: float | None = amount(LENGTH, "between the supports")
    elastic: float | None = amount(LENGTH, "sag at once, before creep")
    sag: float | None = amount(LENGTH, "sag with creep, the likely figure")
    sag_low: float | None = amount(LENGTH, "sag with creep, the low figure")
    sag_high: float | None = amount(LENGTH, "sag with creep, the high figure")
    with_stack: bool | None = yes_no("the stack bends between its bearers there")
    beyond_data: bool | None = yes_no("hotter than the creep and stiffness data reach")
    moisture: float | None = amount(NUMBER, "of the boards")
    moisture_stated: bool | None = yes_no("the plan gives that moisture")
    memory: bool | None = yes_no("the figures of the wood are recalled, not read in their publication")
    spacing_for: Callable[[float], float | None]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Line:
    """A sticker line: the stickers one over the other through all courses."""

    where: Where
    marks: tuple[Mark, ...] = ()
    position: float | None = amount(LENGTH, "from the left end of the stack")
    on_bearer: bool | None = yes_no("a bearer, a floor or a slab carries it")
    off: float | None = amount(LENGTH, "clear distance to the nearest bearer")
    bend: float | None = amount(LENGTH, "how far the stack bends down there between its bearers, creep included")
    load: float | None = amount(FORCE, "that comes down it")
    use: float | None = amount(NUMBER, "stress as a share of what the softer of board and sticker bears")
    stress: float | None = amount(PRESSURE, "of the lowest stickers on the boards under them")
    stress_limit: float | None = amount(PRESSURE, "compression across the grain that the softer of the two bears")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Bearer:
    """A bearer and what it carries."""

    where: Where
    marks: tuple[Mark, ...] = ()
    name: str | None = words("the third bearer from the left")
    section: str | None = words("4 in x 6 in of white oak")
    position: float | None = amount(LENGTH, "from the left end of the stack")
    load: float | None = amount(MASS, "that it carries, at the present moisture content")
    bending: float | None = amount(NUMBER, "bending stress as a share of the design value")
    shear: float | None = amount(NUMBER, "shear stress as a share of the design value")
    crushing: float | None = amount(NUMBER, "bearing stress at its supports as a share of the design value")
    worst: float | None = amount(NUMBER, "the largest of the three shares")
    worst_way: str | None = words("bending, shear or crushing, whichever is the worst")
    span: float | None = amount(LENGTH, "longest clear span between its pads")
    sag: float | None = amount(LENGTH, "between its pads, creep included")
    grade: str | None = words("the species group and grade whose design values were used")
    memory: bool | None = yes_no("the design values are recalled, not read in their standard")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Pad:
    """What a bearer stands on: a pad, a block, or the bearer itself flat on the ground."""

    where: Where
    marks: tuple[Mark, ...] = ()
    name: str | None = words("the pads under the third bearer")
    flat: bool | None = yes_no("the bearer lies flat on the ground, without pads")
    load: float | None = amount(MASS, "on the worst of them")
    pressure: float | None = amount(PRESSURE, "on the ground")
    bears: float | None = amount(PRESSURE, "what the ground is taken to bear")
    ground: str | None = words("gravel, bare soil, ...")
    stated: bool | None = yes_no("the plan gives what the ground bears; otherwise a published presumption is used")
    area_needed: float | None = amount(LENGTH, "side of the square pad that the ground would bear")
    block_load: float | None = amount(
        NUMBER, "load as a share of what a dry-stacked block pier bears; none where no block"
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Cover:
    """The cover over the stack."""

    where: Where
    marks: tuple[Mark, ...] = ()
    kind: str | None = words("sheet metal, plywood, boards, roof panels, tarp")
    overhang_ends: float | None = amount(LENGTH, "beyond the ends of the stack")
    overhang_sides: float | None = amount(LENGTH, "beyond the sides of the stack")
    gap: float | None = amount(LENGTH, "air between the cover and the top course")
    slope: float | None = amount(NUMBER, "rise over run")
    tied: bool | None = yes_no("tied down")
    hanging_down: bool | None = yes_no("hangs down the sides")
    uplift: float | None = amount(MASS, "that a strong wind lifts")
    holds_down: float | None = amount(MASS, "weight of the cover and of what weights it")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Side:
    """How far driving rain reaches under the cover, by side of the stack."""

    where: Where
    marks: tuple[Mark, ...] = ()
    side: str | None = words("long sides, or ends")
    at_ends: bool | None = yes_no("it is the ends, where rain meets the end grain")
    overhang: float | None = amount(LENGTH, "of the cover on that side")
    height: float | None = amount(LENGTH, "of boards on that side, from the cover down to the lowest board")
    dry_depth: float | None = amount(LENGTH, "kept dry, from the cover down")
    wetted: float | None = amount(NUMBER, "share of that side in reach of the rain, after cloth or boards on it")
    reached: float | None = amount(NUMBER, "share of that side in reach of the rain, by the overhang alone")
    closed: bool | None = yes_no("boards, plastic or a hanging cover keep the rain out there")
    overhang_in_driving_rain: float | None = amount(LENGTH, "that keeps a fifth of that side dry in slanting rain")
    overhang_needed: float | None = amount(LENGTH, "overhang that keeps half of that side dry")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class KilnFacts:
    """The kiln of a charge."""

    where: Where
    marks: tuple[Mark, ...] = ()
    name: str | None = words("the word kiln and its name")
    type: str | None = words("dehumidification, vented or solar")
    holds: float | None = amount(VOLUME, "rated volume of wood")
    carries: float | None = amount(MASS, "rated weight")
    length: float | None = amount(LENGTH, "inside, along the boards")
    width: float | None = amount(LENGTH, "inside")
    height: float | None = amount(LENGTH, "inside")
    plenum: float | None = amount(LENGTH, "air space beside the charge")
    heats_to: float | None = amount(TEMPERATURE, "highest temperature")
    removes: float | None = amount(WATER_RATE, "that its dehumidifier takes out, by its label")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Fit:
    """Does the charge go into the kiln: one of length, width and height."""

    where: Where
    marks: tuple[Mark, ...] = ()
    direction: str | None = words("length, width or height")
    needs: float | None = amount(LENGTH, "of the charge with what must stand beside or above it")
    has: float | None = amount(LENGTH, "clear room inside the kiln")
    made_of: str | None = words("what the need is made of, in words")
