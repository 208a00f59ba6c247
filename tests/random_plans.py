"""Hypothesis strategies for plans: any plan that the models can hold and a text can say."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy
from random_stacks import (
    baffles,
    bearers,
    boards,
    courses,
    covers,
    fans,
    grounds,
    places,
    readings,
    settings,
    sides,
    sizes,
    sizes_wanted,
    stickers,
    top_loads,
    waivers,
    wants,
)
from random_words import (
    days,
    different_names,
    figures,
    maybe,
    names,
    one_of,
    quantities,
    texts,
    words_of,
)

from stacklint.plan import bounds
from stacklint.plan.node import Name
from stacklint.plan.shelter import (
    EndCoat,
    Ends,
    WindAcross,
)
from stacklint.plan.stack import (
    Clearance,
    FanHours,
    Hold,
    Said,
    Stack,
    StackKind,
    TakenPart,
    Taking,
)
from stacklint.plan.yard import Inside, Kiln, KilnType, Kind, Month, Plan, Site, Spots, Stock, StockKind, WoodStatement
from stacklint.units import Unit

TABLE_WOODS = ("white ash", "northern red oak", "sugar maple", "eastern white pine", "coast Douglas-fir")
TABLE_PLACES = ("Burlington, Vermont", "Columbus, Ohio", "Albuquerque, New Mexico")
SCHEDULES = ("T8-D4", "T3-D2", "t2-c1", "oak no. 2, slow")


@st.composite
def sites(draw: DrawFn, name: Name) -> Site:
    month = st.builds(
        Month,
        number=st.integers(1, 12),
        temperature=quantities(bounds.OutdoorTemperature),
        humidity=quantities(bounds.Humidity),
    )
    return Site(
        name=name,
        near=draw(maybe(one_of(TABLE_PLACES))),
        months=tuple(draw(st.lists(month, max_size=12, unique_by=lambda month: month.number))),
        spots=draw(maybe(st.builds(Spots, count=st.integers(1, 10_000)))),
        holds=draw(maybe(quantities(bounds.Volume))),
        stock=tuple(draw(st.lists(_stock(), max_size=3))),
    )


def _stock() -> SearchStrategy[Stock]:
    length = maybe(quantities(bounds.Spacing))
    return st.builds(Stock, kind=words_of(StockKind), count=st.integers(1, 1_000_000), length=length)


@st.composite
def kilns(draw: DrawFn, name: Name) -> Kiln:
    room = quantities(bounds.RoomLength)
    fans = draw(st.booleans())
    return Kiln(
        name=name,
        type=draw(maybe(words_of(KilnType))),
        inside=draw(maybe(st.builds(Inside, length=room, width=room, height=room))),
        holds=draw(maybe(quantities(bounds.Volume))),
        carries=draw(maybe(quantities(bounds.Weight))),
        heats_to=draw(maybe(quantities(bounds.KilnTemperature))),
        removes=draw(maybe(quantities(bounds.WaterRate))),
        fan_count=draw(st.integers(1, 40)) if fans else None,
        fan_each=draw(quantities(bounds.AirFlow)) if fans else None,
        plenum=draw(maybe(quantities(bounds.SmallLength))),
        collector=draw(maybe(quantities(bounds.Area))),
    )


@st.composite
def woods(draw: DrawFn, name: Name) -> WoodStatement:
    strength = maybe(quantities(bounds.Strength))
    share = maybe(quantities(bounds.Share))
    return WoodStatement(
        name=name,
        like=draw(maybe(one_of(TABLE_WOODS))),
        kind=draw(maybe(words_of(Kind))),
        specific_gravity=draw(maybe(figures(0.1, 1.3))),
        stiffness_green=draw(strength),
        stiffness_dry=draw(strength),
        crushing_green=draw(strength),
        green_moisture=draw(maybe(quantities(bounds.MoistureContent))),
        shrinkage_radial=draw(share),
        shrinkage_tangential=draw(share),
        shrinkage_volumetric=draw(share),
        source=draw(maybe(texts())),
    )


@st.composite
def stacks(
    draw: DrawFn,
    name: Name,
    kind: StackKind,
    site_names: list[Name],
    kiln_names: list[Name],
    wood_names: SearchStrategy[Name],
) -> Stack:
    letters = st.text("abcdefghjkmnpqrstuvwyz", min_size=1, max_size=3)
    labels = draw(st.lists(letters.filter(lambda text: text != "the"), max_size=4, unique=True))
    board_labels = [Name(text=text) for text in labels]
    running = draw(_running(kiln_names)) if kind is StackKind.CHARGE else {}
    return Stack(
        kind=kind,
        name=name,
        title=draw(maybe(texts())),
        place=draw(maybe(places(site_names))),
        spot=draw(maybe(names())),
        sawn=draw(maybe(days())),
        stacked=draw(maybe(days())),
        boards=tuple(draw(boards(label, wood_names)) for label in board_labels),
        size=draw(maybe(sizes())),
        courses=draw(courses(board_labels)) if board_labels else (),
        stickers=draw(maybe(stickers(wood_names))),
        bearers=draw(maybe(bearers(wood_names))),
        clearance=draw(maybe(st.builds(Clearance, height=quantities(bounds.SmallLength)))),
        ground=draw(maybe(grounds())),
        cover=draw(maybe(covers())),
        sides=draw(maybe(sides())),
        wind=draw(maybe(st.builds(WindAcross, across=st.booleans()))),
        top_load=draw(maybe(top_loads())),
        ends=draw(maybe(st.builds(Ends, coat=words_of(EndCoat)))),
        fan=draw(maybe(fans())),
        want=draw(maybe(wants())),
        wanted=tuple(draw(st.lists(sizes_wanted(board_labels), max_size=2))),
        readings=tuple(draw(st.lists(readings(board_labels), max_size=3))),
        waivers=tuple(draw(st.lists(waivers(), max_size=2))),
        **running,
    )


@st.composite
def _running(draw: DrawFn, kiln_names: list[Name]) -> dict[str, Any]:
    hold = st.builds(Hold, temperature=quantities(bounds.KilnTemperature), time=quantities(bounds.Duration))
    hours = st.builds(FanHours, a_day=quantities(bounds.HoursADay, units=(Unit.HOUR,)))
    return {
        "kiln": draw(maybe(st.sampled_from(kiln_names))) if kiln_names else None,
        "starts": draw(maybe(days())),
        "schedule": draw(maybe(one_of(SCHEDULES))),
        "runs": tuple(draw(st.lists(settings(), max_size=2))),
        "fan_hours": draw(maybe(hours)),
        "baffles": draw(maybe(baffles())),
        "hold": draw(maybe(hold)),
        "sterilize": draw(maybe(st.just(Said()))),
    }


@st.composite
def plans(draw: DrawFn) -> Plan:
    """A plan of its own blocks alone: nothing brought in by ``use``."""
    site_names = draw(different_names(2))
    kiln_names = draw(different_names(2))
    own_woods = draw(different_names(2))
    stack_names = draw(different_names(3))
    wood_names = st.sampled_from([*(Name(text=wood) for wood in TABLE_WOODS), *own_woods])
    built: list[Stack] = []
    for name in stack_names:
        stack = draw(stacks(name, draw(words_of(StackKind)), site_names, kiln_names, wood_names))
        lenders = [pile for pile in built if _can_lend(pile, stack)]
        lender = draw(maybe(st.sampled_from(lenders))) if lenders else None
        built.append(_from_pile(stack, lender, draw(_parts_of(lender))) if lender else stack)
    return Plan(
        sites=tuple(draw(sites(name)) for name in site_names),
        kilns=tuple(draw(kilns(name)) for name in kiln_names),
        woods=tuple(draw(woods(name)) for name in own_woods),
        stacks=tuple(built),
    )


def _can_lend(pile: Stack, stack: Stack) -> bool:
    """Whether a stack may have the pile's boards without a change of labels."""
    labels = [boards.label for boards in (*pile.boards, *stack.boards)]
    return pile.kind is StackKind.PILE and stack.kind is StackKind.CHARGE and len(set(labels)) == len(labels)


@st.composite
def _parts_of(draw: DrawFn, pile: Stack) -> tuple[TakenPart, ...]:
    """All of some groups of a pile, or no more of them than there is; none stands for the whole pile."""
    parts = []
    for group in draw(st.permutations(pile.boards)):
        how = draw(st.sampled_from(["none", "all", "some"]))
        some: dict[str, Any] = {}
        if how == "some" and group.count is not None:
            some = {"count": draw(st.integers(1, group.count))}
        elif how == "some" and group.volume is not None:
            some = {"volume": group.volume}
        if how != "none":
            parts.append(TakenPart(label=group.label, **some))
    return tuple(parts)


def _from_pile(charge: Stack, pile: Stack, parts: tuple[TakenPart, ...]) -> Stack:
    """The charge with boards of the pile after its own, and the pile's size, stickers and ends where it says none."""
    groups = {group.label: group for group in pile.boards}
    taken = tuple(
        groups[part.label].model_copy(update={"count": part.count, "volume": part.volume})
        if part.count or part.volume
        else groups[part.label]
        for part in parts
    )
    return charge.model_copy(
        update={
            "from_piles": (Taking(pile=pile.name, parts=parts),),
            "boards": charge.boards + (taken if parts else pile.boards),
            "size": charge.size or pile.size,
            "stickers": charge.stickers or pile.stickers,
            "ends": charge.ends or pile.ends,
        }
    )
