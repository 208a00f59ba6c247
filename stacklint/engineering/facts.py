"""Facts: everything that the rules can see of a plan and of each stack.

The parts of a stack stand in :mod:`stacklint.engineering.part_facts`; the rule language knows them all
by the names in this module. Units and the meaning of ``None`` are the same there and here.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from stacklint.engineering.part_facts import (
    Bearer,
    Board,
    Course,
    Cover,
    End,
    Fit,
    Group,
    Joint,
    KilnFacts,
    Line,
    Pad,
    Reading,
    Side,
    Span,
    Statement,
)
from stacklint.engineering.schema import amount, day, many, one, words, yes_no
from stacklint.engineering.yard_facts import Booking, Load, Taking, YardFacts
from stacklint.faults import Lack, Measure
from stacklint.findings import Mark, Related
from stacklint.units import (
    AREA,
    FLOW,
    LENGTH,
    MASS,
    NUMBER,
    PRESSURE,
    SPEED,
    TEMPERATURE,
    TIME,
    VOLUME,
    WATER_RATE,
    System,
)
from stacklint.where import Where


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class AssumptionFacts:
    """Something that the plan left out and what was taken in its stead."""

    where: Where
    marks: tuple[Mark, ...] = ()
    stack: str | None = None
    text: str | None = words("as one sentence")
    topic: str | None = words("the keyword of the statement that would have said it")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class FaultFacts:
    """Something in the text, a name, a figure or the fit that could not be accepted."""

    where: Where
    marks: tuple[Mark, ...] = ()
    stack: str | None = None
    found: Measure | None = None
    limit: Measure | None = None
    related: tuple[Related, ...] = ()
    kind: str | None = words("the name of the rule that reports it")
    message: str | None = words("what is wrong")
    instead: str | None = words("what to write instead")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class LackFacts:
    """Something that is not said or known, and the rules that could not be judged for want of it."""

    where: Where
    marks: tuple[Mark, ...] = ()
    stack: str | None = None
    text: str | None = words("as one sentence, which names the rules")
    instead: str | None = words("what to write")
    topic: str | None = words("the keywords of the statements that would say it")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
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


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class StackFacts:
    """A pile or a charge as a whole."""

    where: Where
    marks: tuple[Mark, ...] = ()
    system: System
    lacks: tuple[Lack, ...] = ()
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
    kiln_measure: float | None = amount(VOLUME, "volume as its kiln's rating counts it: board measure or solid wood")
    load_target: float | None = amount(MASS, "of boards, top load and cover at the wanted moisture content")
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
    sticker_stock: float | None = amount(
        NUMBER, "stickers at its site that are as long as it needs, where the site says"
    )
    thickness_ratio: float | None = amount(NUMBER, "thickest boards over thinnest")
    time_ratio: float | None = amount(
        NUMBER, "drying time of its slowest boards over that of its quickest, by thickness"
    )
    slow_boards: str | None = words("its slowest boards, in words")
    quick_boards: str | None = words("its quickest boards, in words")
    slow_low: float | None = amount(TIME, "days for the slowest boards, fast end")
    slow_high: float | None = amount(TIME, "days for the slowest boards, slow end")
    quick_low: float | None = amount(TIME, "days for the quickest boards, fast end")
    quick_high: float | None = amount(TIME, "days for the quickest boards, slow end")
    slow_range: str | None = words("the days of the slowest boards, in words")
    quick_range: str | None = words("the days of the quickest boards, in words")
    piled_solid: bool | None = yes_no("the plan says that there are no stickers")
    sticker_thinnest: float | None = amount(LENGTH, "of the thinnest stickers")
    sticker_width: float | None = amount(LENGTH, "of each, along the boards")
    grooved: bool | None = yes_no("its stickers are grooved")
    stickers_state: str | None = words("dry, green or wet, where the plan says so")
    sticker_shortfall: float | None = amount(
        LENGTH, "how much shorter than the stack is wide; below 0 where they stand out"
    )
    stain_prone: str | None = words("its pale or stain-prone woods, in words; nothing where there are none")
    end_coat: str | None = words("coated, coated at the saw, coated late, painted or bare, where the plan says so")
    ends_stated: bool | None = yes_no("the plan says whether the ends are coated")
    days_waiting: float | None = amount(TIME, "from the saw to the stickers, where both days are given")
    stacked_month: float | None = amount(NUMBER, "month in which it is stacked, 1 for January")
    # foundation
    flatness: str | None = words("flat, twisted, uneven or sloped")
    uneven_by: float | None = amount(LENGTH, "how far the foundation is out of one plane")
    flatness_stated: bool | None = yes_no("the plan says whether the foundation is flat")
    on_bearers: bool | None = yes_no("it stands on bearers, not on a floor or pallets")
    ground: str | None = words("gravel, bare soil, ...")
    ground_words: str | None = words("the ground under it, in words")
    ground_matters: bool | None = yes_no("it stands outdoors or in a shed on ground that is not concrete")
    closed_in: bool | None = yes_no("it stands in an attic, basement, container, garage, closed barn or greenhouse")
    frame_carries: float | None = amount(MASS, "rating of the frame or rack it stands on, where one is stated")
    floor_pressure: float | None = amount(PRESSURE, "of the stack on the floor it covers")
    floor_carries: float | None = amount(PRESSURE, "rating of the floor, where one is stated")
    # top
    top_pressure: float | None = amount(PRESSURE, "of weights on the top course; 0 where there are none")
    strapped: bool | None = yes_no("held by straps, which go slack as the stack shrinks")
    warp_prone: str | None = words("its warp-prone woods, in words; nothing where there are none")
    # air and shelter
    fan: bool | None = yes_no("a fan or a machine moves or dries its air")
    sealed: bool | None = yes_no("plastic or solid boards close its sides, or a cover hangs down them")
    sides_words: str | None = words("what closes its sides, in words")
    wind_along: bool | None = yes_no("the wind is said to run along the boards")
    board_gap: float | None = amount(LENGTH, "between board edges, where the plan gives it")
    next_pile: float | None = amount(LENGTH, "to the next pile, where the plan gives it")
    flue: bool | None = yes_no("it has a flue")
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
    # drying
    wanted_by: datetime.date | None = day("day by which it is wanted")
    ready_fast: datetime.date | None = day("earliest day on which it is at the wanted moisture content, by forecast")
    ready_likely: datetime.date | None = day("likely day on which it is there")
    ready_slow: datetime.date | None = day("latest day on which it is there")
    late_fast: float | None = amount(TIME, "from the day it is wanted by to the earliest day; below 0 where in time")
    late_likely: float | None = amount(TIME, "from the day it is wanted by to the likely day; below 0 where in time")
    ready_words: str | None = words("the likely day and its range, in words, or that it is not ready in time looked at")
    look_ahead: float | None = amount(TIME, "how far the forecast looks, from the start")
    reach: float | None = amount(NUMBER, "lowest moisture content that its air can hold wood at, in any month")
    reach_words: str | None = words("that figure, where and when")
    reach_memory: bool | None = yes_no("the figures of that air are recalled, not read in their publication")
    still: bool | None = yes_no("nothing moves its air and some of its boards are too wet to dry in air that stands")
    air_temperature: float | None = amount(TEMPERATURE, "mean of the air of its place when it is stacked")
    air_humidity: float | None = amount(NUMBER, "mean relative humidity of that air")
    shaded: bool | None = yes_no("shade cloth hangs before it, or it is said to stand in the shade")
    water_scheduled: float | None = amount(WATER_RATE, "most on one day that the schedule and the safe loss would give")
    water_safe: float | None = amount(WATER_RATE, "that the charge may lose on its first day at the safe daily loss")
    dryer_takes: float | None = amount(WATER_RATE, "that its kiln's machine takes out of the air of the first day")
    run_stated: bool | None = yes_no("the plan names a schedule or the air that the kiln runs at")
    schedule_said: str | None = words("the kiln schedule that the plan names")
    schedule_published: str | None = words("the published schedule of its slowest wood and thickness")
    schedule_boards: str | None = words("the boards that this schedule is published for, in words")
    schedule_harsher: str | None = words("where the named schedule is hotter or drier than the published, in words")
    schedule_memory: bool | None = yes_no("the published schedule is recalled, not read in its publication")
    woods: float | None = amount(NUMBER, "different woods among its boards that have yet to dry")
    pace_ratio: float | None = amount(
        NUMBER, "drying time of its slowest wood over that of its quickest, as if of one thickness"
    )
    slow_wood: str | None = words("its slowest wood")
    quick_wood: str | None = words("its quickest wood")
    schedule_steps: float | None = amount(
        NUMBER, "steps between the coolest and the hottest temperature schedule (T1 to T14) published for its woods"
    )
    safe_ratio: float | None = amount(
        NUMBER, "safe daily loss of the wood that may lose most over that of the wood that may lose least"
    )
    safe_least_wood: str | None = words("the wood that may lose least in a day")
    safe_most_wood: str | None = words("the wood that may lose most in a day")
    readings: tuple[Reading, ...] = many("Reading", "its readings, in the order of the plan")
    # air of a kiln
    open_area: float | None = amount(AREA, "of the openings between its courses, on one long side")
    openings_height: float | None = amount(LENGTH, "of those openings together")
    fan_delivery: float | None = amount(FLOW, "air that the kiln's fans move, where it says so")
    bypass: float | None = amount(NUMBER, "share of that air that goes round the charge, by the areas of the open ways")
    gaps: str | None = words("the open ways round the charge, in words; nothing where there are none")
    air_speed: float | None = amount(SPEED, "of the air between the courses: at most, for gaps are the easier way")
    plenum_ratio: float | None = amount(NUMBER, "width of the plenum over the height of all openings of one side")
    baffles_stated: bool | None = yes_no("the plan says which ways round the charge are closed")
    # what it is for
    use: str | None = words("what the boards are for, as the plan says it")
    indoor_use: bool | None = yes_no("that is a use indoors")
    target_low: float | None = amount(NUMBER, "least moisture content published for the use; 0 where none is")
    target_high: float | None = amount(NUMBER, "highest moisture content published for the use")
    target_range: str | None = words("the two in words: 6 to 9%")
    target_of: str | None = words("what the published range is of")
    target_source: str | None = words("where it is published, and whether it is recalled")
    goes_to_kiln: bool | None = yes_no("a charge of the plan takes its boards from it")
    powderpost_prone: str | None = words("its woods that powderpost beetles attack, where it says a use")
    # heat treatment
    hottest: float | None = amount(TEMPERATURE, "that the air of the charge gets, as far as the plan says")
    heat_asked: bool | None = yes_no("the charge is to be sterilized, or has a hot spell")
    heat_temperature: float | None = amount(TEMPERATURE, "of the hot spell; else the highest of the kiln")
    hold_temperature: float | None = amount(TEMPERATURE, "of the hot spell")
    hold_time: float | None = amount(TIME, "of the hot spell")
    heating_at: float | None = amount(
        TEMPERATURE, "that the heating times are for; 160 F or 70 C where its own is too low"
    )
    heating_from: float | None = amount(TEMPERATURE, "of the boards before the hot spell")
    heating_low: float | None = amount(TIME, "until the cores of its thickest boards are at 133 F, at the fastest")
    heating_high: float | None = amount(TIME, "until the cores of its thickest boards are at 133 F, at the slowest")
    thickest_boards: str | None = words("its thickest boards, in words")
    baffles_said: Statement | None = one("Statement", "where the plan speaks of baffles")
    heat_said: Statement | None = one("Statement", "where the plan asks for heat")
    want_said: Statement | None = one("Statement", "where the plan says what is wanted")
    schedule_place: Statement | None = one("Statement", "where the plan names the schedule")
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
    ends_said: Statement | None = one("Statement", "where the plan speaks of its end coat")
    sides_said: Statement | None = one("Statement", "where the plan speaks of its sides")
    wind_said: Statement | None = one("Statement", "where the plan speaks of the wind")
    clearance_said: Statement | None = one("Statement", "where the plan gives the clearance")
    stacked_said: Statement | None = one("Statement", "where the plan gives the day of stacking")
    place_said: Statement | None = one("Statement", "where the plan says where it stands")
    no_cover: bool | None = yes_no("nothing covers it")
    kiln: KilnFacts | None = one("KilnFacts", "the kiln of a charge")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class PlanFacts:
    """A whole text: its stacks, and what was wrong with the writing."""

    where: Where
    marks: tuple[Mark, ...] = ()
    stacks: tuple[StackFacts, ...] = many("StackFacts", "its piles and charges that could be checked")
    faults: tuple[FaultFacts, ...] = many("FaultFacts", "what could not be accepted")
    assumptions: tuple[AssumptionFacts, ...] = many("AssumptionFacts", "what was assumed")
    lacks: tuple[LackFacts, ...] = many("LackFacts", "what rules could not be judged for want of")
    waivers: tuple[WaiverFacts, ...] = many("WaiverFacts", "its waive statements")


__all__ = [
    "AssumptionFacts",
    "Bearer",
    "Board",
    "Booking",
    "Course",
    "Cover",
    "End",
    "FaultFacts",
    "Fit",
    "Group",
    "Joint",
    "KilnFacts",
    "LackFacts",
    "Line",
    "Load",
    "Pad",
    "PlanFacts",
    "Reading",
    "Side",
    "Span",
    "StackFacts",
    "Statement",
    "Taking",
    "WaiverFacts",
    "YardFacts",
]
