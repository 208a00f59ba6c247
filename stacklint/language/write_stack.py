"""Writes the statements of a pile or a charge."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from stacklint.language.inherit import INHERITED, first_takings
from stacklint.language.taking import taken_from
from stacklint.language.written import amount, code, details, factor, figure, plain_words, quoted, wood_name, words
from stacklint.plan.boards import Boards, Courses, MoistureWord
from stacklint.plan.node import Name, Quantity, Range
from stacklint.plan.shelter import Cover, Fan, Fastening, PlaceStatement, Sides, TopLoad
from stacklint.plan.stack import (
    Baffles,
    Reading,
    Setting,
    Stack,
    StackKind,
    StackSize,
    TakenPart,
    Taking,
    Waiver,
    Want,
    Wanted,
)
from stacklint.plan.supports import BearerKind, Bearers, Flatness, Ground, Pads, Stickers

_STEEPEST_IN_TWELVE = 12


def stack_lines(stack: Stack, others: tuple[Stack, ...] = ()) -> Iterator[str]:
    """The block's own line, then its statements in the standard order.

    ``others`` are the stacks that ``from pile`` may name.
    """
    yield _header(stack)
    stack = _without_inherited(stack, others)
    yield from _running(stack)
    yield from _standing(stack)
    yield from _building(stack)
    yield from _sheltering(stack)
    yield from _keeping(stack)


def _without_inherited(stack: Stack, others: tuple[Stack, ...]) -> Stack:
    """The stack without what reading takes again from the piles that its ``from pile`` names."""
    if not stack.from_piles:
        return stack
    by_name = {pile.name.text.casefold(): pile for pile in reversed(others) if pile.kind is StackKind.PILE}
    lent = tuple(first_takings(stack, by_name))
    piles = [pile for _, pile in lent]
    update: dict[str, object] = {"boards": _own_boards(stack, lent)}
    for field in INHERITED:
        inherited = next((getattr(pile, field) for pile in piles if getattr(pile, field) is not None), None)
        if getattr(stack, field) == inherited:
            update[field] = None
    return stack.model_copy(update=update)


def _own_boards(stack: Stack, takings: Iterable[tuple[Taking, Stack]]) -> tuple[Boards, ...]:
    """The charge's boards but for those of its piles, which stand last, their labels changed where need be."""
    lent = [boards for taking, pile in takings for boards in taken_from(pile, taking)]
    own = len(stack.boards) - len(lent)
    if own < 0 or any(not _alike(has, was) for has, was in zip(stack.boards[own:], lent, strict=True)):
        return stack.boards
    return stack.boards[:own]


def _alike(boards: Boards, others: Boards) -> bool:
    return boards == others or boards.model_copy(update={"label": others.label}) == others


def _header(stack: Stack) -> str:
    return words(
        stack.kind.value,
        quoted(stack.name.text),
        quoted(stack.title) if stack.title is not None else None,
        f"in kiln {quoted(stack.kiln.text)}" if stack.kiln else None,
    )


def _running(stack: Stack) -> Iterator[str]:
    """What only a charge says: how the kiln is run, and where the boards come from."""
    if stack.starts:
        yield f"starts {stack.starts.date}"
    if stack.schedule:
        yield f"schedule {code(stack.schedule.text)}"
    for setting in stack.runs:
        yield f"runs at {_setting(setting)}"
    if stack.fan_hours:
        yield f"fans {amount(stack.fan_hours.a_day)}/day"
    if stack.baffles:
        yield f"baffles {_baffles(stack.baffles)}"
    if stack.hold:
        yield f"hold {amount(stack.hold.temperature)} for {amount(stack.hold.time)}"
    if stack.sterilize:
        yield "sterilize"
    for taking in stack.from_piles:
        yield details(f"from pile {quoted(taking.pile.text)}", *(part_words(part) for part in taking.parts))


def part_words(part: TakenPart) -> str:
    """A part of a pile: ``40 of a``."""
    how_much = figure(part.count) if part.count is not None else _optional(part.volume) or "all"
    return f"{how_much} of {part.label.text}"


def _standing(stack: Stack) -> Iterator[str]:
    if stack.place:
        yield f"place {_place(stack.place)}"
    if stack.spot:
        yield f"spot {quoted(stack.spot.text)}"
    if stack.sawn:
        yield f"sawn {stack.sawn.date}"
    if stack.stacked:
        yield f"stacked {stack.stacked.date}"


def _building(stack: Stack) -> Iterator[str]:
    for boards in stack.boards:
        yield _boards(boards)
    if stack.size:
        yield f"stack {_size(stack.size)}"
    for courses in stack.courses:
        yield course_words(courses)
    if stack.stickers:
        yield f"stickers {_stickers(stack.stickers)}"
    if stack.bearers:
        yield f"bearers {_bearers(stack.bearers)}"
    if stack.clearance:
        yield f"clearance {amount(stack.clearance.height)}"
    if stack.ground:
        yield f"ground {_ground(stack.ground)}"


def _sheltering(stack: Stack) -> Iterator[str]:
    if stack.cover:
        yield f"cover {_cover(stack.cover)}"
    if stack.sides:
        yield f"sides {_sides(stack.sides)}"
    if stack.wind:
        yield f"wind {'across' if stack.wind.across else 'along'}"
    if stack.top_load:
        yield f"top load {_top_load(stack.top_load)}"
    if stack.ends:
        yield f"ends {stack.ends.coat.value}"
    if stack.fan:
        yield f"fan {_fan(stack.fan)}"


def _keeping(stack: Stack) -> Iterator[str]:
    if stack.want:
        yield f"want {_want(stack.want)}"
    for wanted in stack.wanted:
        yield f"wanted {_wanted(wanted)}"
    for reading in stack.readings:
        yield f"reading {_reading(reading)}"
    for waiver in stack.waivers:
        yield f"waive {_waiver(waiver)}"


def _setting(setting: Setting) -> str:
    if setting.wet_bulb:
        return f"{amount(setting.dry_bulb)} / {amount(setting.wet_bulb)}"
    return words(amount(setting.dry_bulb), _optional(setting.humidity))


def _baffles(baffles: Baffles) -> str:
    return details(*(side for side in ("top", "ends", "floor") if getattr(baffles, side))) or "none"


def _place(place: PlaceStatement) -> str:
    return details(
        place.said or place.kind.value,
        f"site {quoted(place.site.text)}" if place.site else None,
        words(_optional(place.temperature), _optional(place.humidity)),
        {True: "in the sun", False: "in the shade", None: None}[place.in_sun],
        {True: "windy", False: "sheltered", None: None}[place.windy],
        _optional(place.floor_carries, "floor carries {}"),
    )


def _boards(boards: Boards) -> str:
    how_many = amount(boards.volume) if boards.volume else figure(boards.count or 0)
    width = amount(boards.width) if boards.width else "random width"
    size = f"{amount(boards.thickness)} x {width} x {amount(boards.length)}"
    moisture = boards.moisture
    said = details(
        f"{how_many} of {wood_name(boards.wood.text)} {size}",
        moisture.value if isinstance(moisture, MoistureWord) else _optional(moisture),
        boards.face.value if boards.face else None,
        "live edge" if boards.live_edge else None,
        "boxed heart" if boards.boxed_heart else None,
        "squares" if boards.squares else None,
        _optional(boards.finished, "for {} finished"),
    )
    return f"boards {boards.label.text}: {said}"


def _size(size: StackSize) -> str:
    return details(
        factor(size.length, size.width),
        _optional(size.boards_apart, "boards {} apart"),
        _optional(size.next_pile, "next pile {} away"),
        _optional(size.flue, "flue {}"),
    )


def course_words(courses: Courses) -> str:
    """A ``course`` statement."""
    which = str(courses.first) if courses.first == courses.last else f"{courses.first} to {courses.last}"
    rows = (
        f"{row.count} {'row' if row.count == 1 else 'rows'} of {' + '.join(label.text for label in row.labels)}"
        for row in courses.rows
    )
    return f"course {which}: {', '.join(rows)}"


def _stickers(stickers: Stickers) -> str:
    if stickers.none:
        return "none"
    return details(
        _sticker_section(stickers),
        _optional(stickers.every, "every {}"),
        f"{stickers.count} a course" if stickers.count is not None else None,
        _optional(stickers.from_ends, "{} from ends"),
        stickers.state.value if stickers.state else None,
        "of plywood" if stickers.plywood else None,
        _of(stickers.wood),
        "grooved" if stickers.grooved else None,
        "out of line" if stickers.out_of_line else None,
        _optional(stickers.length, "{} long"),
        _positions(stickers.at),
    )


def _sticker_section(stickers: Stickers) -> str | None:
    if stickers.thickness and stickers.width:
        return factor(stickers.thickness, stickers.width)
    return _optional(stickers.thickness) or _optional(stickers.width, "{} wide")


def _bearers(bearers: Bearers) -> str:
    named = None if bearers.kind is BearerKind.TIMBER else bearers.kind.value
    section = words(named, factor(*bearers.sides), _of(bearers.wood))
    return details(
        section or BearerKind.TIMBER.value,
        _optional(bearers.every, "every {}"),
        f"{bearers.count} of them" if bearers.count is not None else None,
        _optional(bearers.from_ends, "{} from ends"),
        _pads(bearers.pads, bearers.pads_count) if bearers.pads else None,
        _optional(bearers.carries, "carries {}"),
        _positions(bearers.at),
    )


def _pads(pads: Pads, count: int | None) -> str:
    word = "blocks" if pads.blocks else "pads"
    if count is None:
        return words("on", factor(*pads.sides), word)
    return words(f"on {count} {word}", f"of {factor(*pads.sides)}" if pads.sides else None)


def _ground(ground: Ground) -> str:
    flatness = ground.flatness.value if ground.flatness else None
    if ground.flatness is Flatness.UNEVEN:
        flatness = words(flatness, _optional(ground.uneven_by))
    return details(
        ground.soil.value if ground.soil else None,
        flatness,
        ground.wetness.value if ground.wetness else None,
        _optional(ground.bears, "bears {}"),
    )


def _cover(cover: Cover) -> str:
    fastening = cover.fastening.value if cover.fastening else None
    if cover.fastening is Fastening.WEIGHTED:
        fastening = words(fastening, _optional(cover.weight))
    return details(
        cover.kind.value,
        _overhang(cover),
        _optional(cover.gap, "gap {}"),
        f"slope {_slope(cover.slope)}" if cover.slope is not None else None,
        fastening,
        "hanging down" if cover.hanging_down else None,
    )


def _overhang(cover: Cover) -> str | None:
    ends, sides = cover.overhang_ends, cover.overhang_sides
    if ends and ends == sides:
        return f"overhang {amount(ends)}"
    both = details(_optional(ends, "{} ends"), _optional(sides, "{} sides"))
    return f"overhang {both}" if both else None


def _slope(slope: float) -> str:
    """Rise in run in whole figures where they give exactly ``slope``, otherwise the rise in 1."""
    simple = Fraction(slope).limit_denominator(1000)
    if simple.numerator and simple.numerator / simple.denominator == slope:
        rise, run = simple.numerator, simple.denominator
        if _STEEPEST_IN_TWELVE % run == 0 and rise > 1:
            return f"{rise * _STEEPEST_IN_TWELVE // run} in {_STEEPEST_IN_TWELVE}"
        return f"{rise} in {run}"
    return f"{figure(slope)} in 1"


def _sides(sides: Sides) -> str:
    return details(
        sides.kind.value,
        "on one side" if sides.on_one_side else None,
        "on the ends" if sides.on_ends else None,
    )


def _top_load(load: TopLoad) -> str:
    if load.straps:
        return "straps"
    return details(_optional(load.pressure), _optional(load.weight))


def _fan(fan: Fan) -> str:
    moved = words(str(fan.count), _optional(fan.each, "of {}")) if fan.count or fan.each else None
    return details(moved, _optional(fan.removes, "removes {}"))


def _want(want: Want) -> str:
    return words(
        _optional(want.moisture),
        f"by {want.by.date}" if want.by else None,
        f"for {plain_words(want.use.text)}" if want.use else None,
    )


def _wanted(wanted: Wanted) -> str:
    return details(_optional(wanted.thickness, "{} thick"), _optional(wanted.width, "{} wide"), _of_group(wanted.label))


def _reading(reading: Reading) -> str:
    return details(
        f"{reading.day.date} {amount(reading.moisture)}",
        _of_group(reading.label),
        reading.taken_from.value if reading.taken_from else None,
    )


def _waiver(waiver: Waiver) -> str:
    return words(
        waiver.rule.text,
        f"because {quoted(waiver.reason)}" if waiver.reason is not None else None,
        f"until {waiver.until.date}" if waiver.until else None,
    )


def _optional(value: Quantity | Range | None, form: str = "{}") -> str | None:
    return form.format(amount(value)) if value else None


def _of(wood: Name | None) -> str | None:
    return f"of {wood_name(wood.text)}" if wood else None


def _of_group(label: Name | None) -> str | None:
    return f"of {label.text}" if label else None


def _positions(at: tuple[Quantity, ...]) -> str | None:
    """Always last in a statement: its commas part positions, not details."""
    return f"at {', '.join(amount(place) for place in at)}" if at else None
