"""Facts of a whole yard: what its stacks, of one text or of many, say of one another.

``related`` are the other places that a finding points at; ``involves`` the paths of all the texts that have a share in
it. Units and the meaning of ``None`` are those of :mod:`stacklint.engineering.facts`.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import Any

from stacklint.engineering.schema import amount, day, many, words, yes_no
from stacklint.findings import Mark, Related
from stacklint.units import NUMBER, VOLUME
from stacklint.where import Where


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Booking:
    """A stack that comes to a spot or kiln in which another stands still, by forecast."""

    where: Where
    marks: tuple[Mark, ...] = ()
    stack: str | None = None
    related: tuple[Related, ...] = ()
    involves: frozenset[str] = frozenset()
    in_kiln: bool | None = yes_no("the place is a kiln, not a spot in the yard")
    place: str | None = words("the kiln or the spot, with its name")
    first: str | None = words("the stack that is there first, and where it is written")
    second: str | None = words("the stack that comes to it")
    since: datetime.date | None = day("from which both are there")
    until: datetime.date | None = day("on which the first of the two is likely gone; unknown where nothing tells it")
    free: datetime.date | None = day("on which the stack that was there first is likely gone; unknown likewise")
    foretold: bool | None = yes_no("how the stack that was there first dries is forecast")
    never_ready: bool | None = yes_no("by forecast it does not come to what is wanted of it in the time looked at")
    others: float | None = amount(NUMBER, "further stacks that stand there still when it comes")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Taking:
    """A charge that takes boards from a pile."""

    where: Where
    marks: tuple[Mark, ...] = ()
    stack: str | None = None
    related: tuple[Related, ...] = ()
    involves: frozenset[str] = frozenset()
    charge: str | None = words("the charge")
    pile: str | None = words("the pile, and where it is written")
    starts: datetime.date | None = day("on which the charge starts")
    wanted: float | None = amount(NUMBER, "moisture content that the pile is wanted at")
    dry_early: datetime.date | None = day("on which the pile is that dry at the earliest, by forecast")
    dry_likely: datetime.date | None = day("on which the pile is likely that dry, by forecast")
    never_dry: bool | None = yes_no("by forecast the pile is never that dry in the time that is looked at")
    groups: str | None = words("the groups of boards of which it takes more than is left, or else all that it takes")
    listed: float | None = amount(VOLUME, "boards of those groups, as the pile lists them")
    taken: float | None = amount(VOLUME, "of those boards, taken by this charge and those that came before it")
    over: float | None = amount(VOLUME, "taken beyond what is listed, by this charge")
    boards_listed: float | None = amount(NUMBER, "boards of those groups; unknown where some are listed by volume")
    boards_taken: float | None = amount(NUMBER, "of those boards, taken by this charge and those before it")
    boards_over: float | None = amount(NUMBER, "boards taken beyond what is listed, by this charge")
    parts_said: bool | None = yes_no("this charge and those before it say how much they take of which boards")
    takers: str | None = words("the charges that came before it, and where they are written")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Load:
    """A site or kiln that is asked to hold more than it has room or stickers for, in some month."""

    where: Where
    marks: tuple[Mark, ...] = ()
    stack: str | None = None
    related: tuple[Related, ...] = ()
    involves: frozenset[str] = frozenset()
    place: str | None = words("the site or the kiln, with its name")
    need: str | None = words("what is asked for at its most, in words: 14 stacks")
    room: str | None = words("what there is, in words: 12 spots")
    share: float | None = amount(NUMBER, "what is asked for over what there is")
    month: str | None = words("the first month in which it is too much: July 2026")
    months: str | None = words("all those months in words: July 2026, or July 2026 to October 2026")
    worst: str | None = words("the month in which it is most")
    advice: str | None = words("what would help")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class YardFacts:
    """What the stacks of a yard say of one another."""

    bookings: tuple[Booking, ...] = many("Booking", "stacks that come to a spot or kiln that is taken")
    takings: tuple[Taking, ...] = many("Taking", "charges that take boards from piles")
    loads: tuple[Load, ...] = many("Load", "sites and kilns that are asked to hold too much")
    faults: tuple[Any, ...] = ()
    """``FaultFacts``: names that two plans use, and piles that are named and stand in a plan that is not used."""
