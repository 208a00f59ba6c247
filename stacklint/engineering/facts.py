"""Facts: everything that the rules can see of a plan and of each stack.

SI inside: metres, kilograms, pascals, degrees Celsius; shares and moisture contents as fractions.
``None`` means unknown, and a rule that leans on an unknown fact stays silent.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import ClassVar

from stacklint.engineering.schema import Call, amount, day, many, one, words, yes_no
from stacklint.faults import Measure
from stacklint.findings import Mark
from stacklint.units import (
    DENSITY,
    FORCE,
    LENGTH,
    MASS,
    NUMBER,
    PRESSURE,
    SPEED,
    TEMPERATURE,
    TIME,
    VOLUME,
    System,
)
from stacklint.where import Where


@dataclass(frozen=True, slots=True, kw_only=True)
class Statement:
    """A statement of the plan, for findings that speak of it."""

    where: Where
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
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
    moisture_stated: bool | None = yes_no("the plan gives the moisture as a figure or a word; otherwise green is assumed")
    density: float | None = amount(DENSITY, "at its present moisture content")
    board_mass: float | None = amount(MASS, "of its heaviest board at the present moisture content")
    timber: bool | None = yes_no("5 in or thicker: judged by its computed sag, not by a spacing table")
    warp_prone: bool | None = yes_no("the wood is known to warp in drying")
    stain_prone: bool | None = yes_no("the wood is pale or known to stain")
    check_prone: bool | None = yes_no("the wood is known to check")
    unpaired: float | None = amount(NUMBER, "its boards in rows that do not fill the stack's length")
    left_over: float | None = amount(NUMBER, "its boards that stand in no course")
    spacing: float | None = amount(LENGTH, "widest distance between stickers under its boards")
    drying_days_low: float | None = amount(TIME, "published time to dry as its place does, fast end")
    drying_days_high: float | None = amount(TIME, "published time to dry as its place does, slow end")


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """Courses laid alike."""

    where: Where
    marks: tuple[Mark, ...] = ()
    name: str | None = words("course 3, or courses 1 to 6")
    first: float | None = amount(NUMBER, "number of the lowest, from the ground")
    last: float | None = amount(NUMBER, "number of the highest")
    thickest: float | None = amount(LENGTH, "of its boards")
    thinnest: float | None = amount(LENGTH, "of its boards")
    thick_boards: str | None = words("its thickest boards, in words")
    thin_boards: str | None = words("its thinnest boards, in words")
    width: float | None = amount(LENGTH, "of its rows side by side, gaps included")
    moisture: float | None = amount(NUMBER, "of its wettest boards")


@dataclass(frozen=True, slots=True, kw_only=True)
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


@dataclass(frozen=True, slots=True, kw_only=True)
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """How a board is held: on how many sticker lines."""

    where: Where
    marks: tuple[Mark, ...] = ()
    boards: str | None = words("the boards in words")
    course: str | None = words("course 3, or courses 1 to 6")
    lines: float | None = amount(NUMBER, "sticker lines under the board")
    length: float | None = amount(LENGTH, "of the board")
    count: float | None = amount(NUMBER, "boards alike")


@dataclass(frozen=True, slots=True, kw_only=True)
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


@dataclass(frozen=True, slots=True, kw_only=True)
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


@dataclass(frozen=True, slots=True, kw_only=True)
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
    grade: str | None = words("the species group and grade whose design values were used")
    memory: bool | None = yes_no("the design values are recalled, not read in their standard")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pad:
    """What a bearer stands on: a pad, a block, or the bearer itself flat on the ground."""

    where: Where
    marks: tuple[Mark, ...] = ()
    name: str | None = words("the pads under the third bearer")
    load: float | None = amount(MASS, "on the worst of them")
    pressure: float | None = amount(PRESSURE, "on the ground")
    bears: float | None = amount(PRESSURE, "what the ground is taken to bear")
    ground: str | None = words("gravel, bare soil, ...")
    stated: bool | None = yes_no("the plan gives what the ground bears; otherwise a published presumption is used")
    area_needed: float | None = amount(LENGTH, "side of the square pad that the ground would bear")
    block_load: float | None = amount(NUMBER, "load as a share of what a dry-stacked block pier bears; none where no block")


@dataclass(frozen=True, slots=True, kw_only=True)
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


@dataclass(frozen=True, slots=True, kw_only=True)
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
    overhang_needed: float | None = amount(LENGTH, "overhang that keeps half of that side dry")


@dataclass(frozen=True, slots=True, kw_only=True)
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """Does the charge go into the kiln: one of length, width and height."""

    where: Where
    marks: tuple[Mark, ...] = ()
    direction: str | None = words("length, width or height")
    needs: float | None = amount(LENGTH, "of the charge with what must stand beside or above it")
    has: float | None = amount(LENGTH, "clear room inside the kiln")
    made_of: str | None = words("what the need is made of, in words")


@dataclass(frozen=True, slots=True, kw_only=True)
class AssumptionFacts:
    """Something that the plan left out and what was taken in its stead."""

    where: Where
    marks: tuple[Mark, ...] = ()
    stack: str | None = None
    text: str | None = words("as one sentence")
    topic: str | None = words("the keyword of the statement that would have said it")


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultFacts:
    """Something in the text, a name, a figure or the fit that could not be accepted."""

    where: Where
    marks: tuple[Mark, ...] = ()
    stack: str | None = None
    found: Measure | None = None
    limit: Measure | None = None
    kind: str | None = words("the name of the rule that reports it")
    message: str | None = words("what is wrong")
    instead: str | None = words("what to write instead")


@dataclass(frozen=True, slots=True, kw_only=True)
class WaiverFacts:
    """A ``waive`` statement and whether it did anything."""

    where: Where
    marks: tuple[Mark, ...] = ()
    rule: str | None = words("the rule that it names")
    known: bool | None = yes_no("the rule book has that rule")
    has_reason: bool | None = yes_no("a reason is given")
    used: bool | None = yes_no("it kept a finding silent, or would have but that it has expired")
    expired: bool | None = yes_no("its last day is past")
    until: datetime.date | None = day("its last day")
    nearest: str | None = words("the nearest rule name, where the rule is unknown")


@dataclass(frozen=True, slots=True, kw_only=True)
class StackFacts:
    """A pile or a charge as a whole."""

    where: Where
    marks: tuple[Mark, ...] = ()
    system: System
    name: str | None = words("the stack's name")
    kind: str | None = words("pile or charge")
    is_charge: bool | None = yes_no("it is a kiln charge")
    place: str | None = words("open yard, open shed, ..., kiln")
    in_open: bool | None = yes_no("rain falls on it: it stands in the open")
    indoors: bool | None = yes_no("walls and a roof stand round it")
    hot: bool | None = yes_no("its air is hot: a kiln charge, an attic or a solar place")
    temperature: float | None = amount(TEMPERATURE, "highest of its air, where it is known")
    # amounts
    pieces: float | None = amount(NUMBER, "boards")
    volume: float | None = amount(VOLUME, "of wood, as listed")
    board_feet: float | None = amount(VOLUME, "in the trade's measure: under 1 in thick counts as 1 in")
    mass_now: float | None = amount(MASS, "of the boards at their present moisture content")
    mass_green: float | None = amount(MASS, "of the boards green")
    mass_target: float | None = amount(MASS, "of the boards at the wanted moisture content")
    water: float | None = amount(MASS, "to take out, from now to the wanted moisture content")
    # shape
    length: float | None = amount(LENGTH, "of the stack, along the boards")
    width: float | None = amount(LENGTH, "of the stack, across the boards")
    height: float | None = amount(LENGTH, "of boards and stickers")
    clearance: float | None = amount(LENGTH, "ground to the underside of the lowest board")
    top: float | None = amount(LENGTH, "ground to the top of the top course")
    courses_high: float | None = amount(NUMBER, "number of courses")
    slenderness: float | None = amount(NUMBER, "height of the top over the width of the base")
    unpaired: float | None = amount(NUMBER, "boards in rows that do not fill the stack's length")
    left_over: float | None = amount(NUMBER, "boards that stand in no course")
    matching: str | None = words("the best rows that the lengths allow, in words")
    unpaired_boards: str | None = words("the unpaired boards, in words")
    # moisture
    wettest: float | None = amount(NUMBER, "moisture content of its wettest boards")
    driest: float | None = amount(NUMBER, "moisture content of its driest boards")
    moisture_stated: bool | None = yes_no("the moisture of every group is given")
    wanted: float | None = amount(NUMBER, "moisture content wanted")
    # stickers
    stickered: bool | None = yes_no("its courses are parted by stickers")
    sticker_spacing: float | None = amount(LENGTH, "widest distance between two sticker lines")
    sticker_lines: float | None = amount(NUMBER, "sticker lines")
    sticker_count: float | None = amount(NUMBER, "stickers to cut")
    sticker_thickness: float | None = amount(LENGTH, "of the thickest stickers")
    sticker_length: float | None = amount(LENGTH, "of each")
    stickers_in_line: bool | None = yes_no("each sticker stands over the one below")
    thickness_ratio: float | None = amount(NUMBER, "thickest boards over thinnest")
    time_ratio: float | None = amount(NUMBER, "drying time of its slowest boards over that of its quickest, by thickness")
    slow_boards: str | None = words("its slowest boards, in words")
    quick_boards: str | None = words("its quickest boards, in words")
    slow_low: float | None = amount(TIME, "days for the slowest boards, fast end")
    slow_high: float | None = amount(TIME, "days for the slowest boards, slow end")
    quick_low: float | None = amount(TIME, "days for the quickest boards, fast end")
    quick_high: float | None = amount(TIME, "days for the quickest boards, slow end")
    # foundation
    flatness: str | None = words("flat, twisted, uneven or sloped")
    uneven_by: float | None = amount(LENGTH, "how far the foundation is out of one plane")
    flatness_stated: bool | None = yes_no("the plan says whether the foundation is flat")
    on_bearers: bool | None = yes_no("it stands on bearers, not on a floor or pallets")
    ground: str | None = words("gravel, bare soil, ...")
    frame_carries: float | None = amount(MASS, "rating of the frame or rack it stands on, where one is stated")
    floor_pressure: float | None = amount(PRESSURE, "of the stack on the floor it covers")
    floor_carries: float | None = amount(PRESSURE, "rating of the floor, where one is stated")
    # top
    top_pressure: float | None = amount(PRESSURE, "of weights on the top course; 0 where there are none")
    strapped: bool | None = yes_no("held by straps, which go slack as the stack shrinks")
    warp_prone: str | None = words("its warp-prone woods, in words; nothing where there are none")
    # wind
    wind_speed: float | None = amount(SPEED, "gust that it is judged in")
    overturning: float | None = amount(NUMBER, "moment that holds it down over the moment of the wind")
    dry_overturning: float | None = amount(NUMBER, "the same when it has dried")
    # handling
    heaviest_board: float | None = amount(MASS, "now")
    heaviest_words: str | None = words("the heaviest board, in words")
    # largest figures
    load: float | None = amount(MASS, "of boards, top load and cover, now")
    sag_max: float | None = amount(LENGTH, "largest sag of any span, creep included")
    end_max: float | None = amount(LENGTH, "longest board end past its last sticker")
    # parts
    groups: tuple[Group, ...] = many("Group", "its groups of boards")
    courses: tuple[Course, ...] = many("Course", "its courses, alike ones together")
    ends: tuple[End, ...] = many("End", "its board ends, alike ones together")
    joints: tuple[Joint, ...] = many("Joint", "its joints, alike ones together")
    boards: tuple[Board, ...] = many("Board", "how its boards are held, alike ones together")
    spans: tuple[Span, ...] = many("Span", "its boards between supports, alike ones together")
    lines: tuple[Line, ...] = many("Line", "its sticker lines")
    bearers: tuple[Bearer, ...] = many("Bearer", "its bearers")
    pads: tuple[Pad, ...] = many("Pad", "what its bearers stand on")
    sides: tuple[Side, ...] = many("Side", "what driving rain reaches, by side of the stack")
    fits: tuple[Fit, ...] = many("Fit", "does the charge go into its kiln, by direction")
    cover: Cover | None = one("Cover", "the cover over it")
    stickers: Statement | None = one("Statement", "where the plan speaks of its stickers")
    foundation: Statement | None = one("Statement", "where the plan speaks of its ground")
    weights: Statement | None = one("Statement", "where the plan speaks of its top load")
    stack_size: Statement | None = one("Statement", "where the plan gives its length and width")
    slow_group: Statement | None = one("Statement", "where the plan lists its slowest boards")
    bearers_said: Statement | None = one("Statement", "where the plan speaks of its bearers")
    place_said: Statement | None = one("Statement", "where the plan says where it stands")
    no_cover: bool | None = yes_no("nothing covers it")
    kiln: KilnFacts | None = one("KilnFacts", "the kiln of a charge")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanFacts:
    """A whole text: its stacks, and what was wrong with the writing."""

    where: Where
    marks: tuple[Mark, ...] = ()
    stacks: tuple[StackFacts, ...] = many("StackFacts", "its piles and charges that could be checked")
    faults: tuple[FaultFacts, ...] = many("FaultFacts", "what could not be accepted")
    assumptions: tuple[AssumptionFacts, ...] = many("AssumptionFacts", "what was assumed")
    waivers: tuple[WaiverFacts, ...] = many("WaiverFacts", "its waive statements")
