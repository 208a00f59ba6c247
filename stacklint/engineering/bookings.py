"""Spots and kilns that two stacks of one text take over the same days, by their forecasts."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

from stacklint.drying.forecast import Forecast, NoForecast, Pace
from stacklint.drying.surroundings import site_of
from stacklint.engineering.facts import Booking
from stacklint.plan.stack import Stack, StackKind
from stacklint.plan.yard import Site
from stacklint.where import Where


class _Stay(NamedTuple):
    """A stack in its place, from its first day to the day on which it is likely gone."""

    stack: Stack
    kiln: bool
    place: str
    key: tuple[str, str]
    where: Where
    start: datetime.date
    end: datetime.date


def bookings(
    stacks: Sequence[tuple[Stack, Forecast | NoForecast | None]], sites: Sequence[Site]
) -> tuple[Booking, ...]:
    """Each pair of stacks that is in one place at once, told where the later of the two says its place.

    A pile stays until a charge of the text takes its boards, else until it is likely ready; where neither day is known
    nothing is said of it. A kiln is free on the day on which its charge is ready.
    """
    taken = {
        name.text.casefold(): stack.starts.date
        for stack, _ in stacks
        if stack.starts is not None
        for name in stack.from_piles
    }
    stays = [stay for stack, forecast in stacks for stay in _stays(stack, forecast, taken, sites)]
    return tuple(_clash(*pair) for pair in combinations(stays, 2) if _meet(*pair))


def _stays(
    stack: Stack, forecast: Forecast | NoForecast | None, taken: dict[str, datetime.date], sites: Sequence[Site]
) -> Iterator[_Stay]:
    charge = stack.kind is StackKind.CHARGE
    said = (stack.starts or stack.stacked) if charge else stack.stacked
    place = stack.kiln if charge else stack.spot
    if said is None or place is None:
        return
    end = None if charge else taken.get(stack.name.text.casefold())
    if end is None and isinstance(forecast, Forecast) and forecast.wanted is not None:
        end = forecast.ready(Pace.LIKELY)
    if end is None:
        return
    key = (place.text.casefold(), "kiln" if charge else _site(stack, sites))
    words = f"{'kiln' if charge else 'spot'} {place.text}"
    yield _Stay(stack, charge, words, key, place.where, said.date, end)


def _site(stack: Stack, sites: Sequence[Site]) -> str:
    """The site of a pile, in small letters: one that names none stands at the only site of its plan."""
    if stack.place is not None and stack.place.site is not None:
        return stack.place.site.text.casefold()
    site, _ = site_of(stack, sites)
    return site.name.text.casefold() if site is not None else ""


def _meet(one: _Stay, other: _Stay) -> bool:
    return one.kiln is other.kiln and one.key == other.key and max(one.start, other.start) < min(one.end, other.end)


def _clash(one: _Stay, other: _Stay) -> Booking:
    first, second = sorted((one, other), key=lambda stay: (stay.start, stay.where.line))
    return Booking(
        where=second.where,
        stack=second.stack.name.text,
        in_kiln=second.kiln,
        place=second.place,
        first=f"{first.stack.kind.value} {first.stack.name.text} (line {first.stack.where.line})",
        second=f"{second.stack.kind.value} {second.stack.name.text}",
        since=second.start,
        until=min(first.end, second.end),
        free=first.end,
    )
