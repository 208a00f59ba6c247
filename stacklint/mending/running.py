"""Proposals for how a charge is run and what it is to become: baffles, schedule, hot spell, target, size."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from stacklint.changes import Change
from stacklint.language import choices
from stacklint.language.nearest import listed
from stacklint.language.written import code, figure
from stacklint.mending import usual
from stacklint.mending.case import Case, Ladder, Option, Proposal, ladder
from stacklint.mending.edits import added_detail, added_statement, replaced
from stacklint.plan.node import Quantity
from stacklint.plan.stack import Hold, Stack
from stacklint.units import System, Unit

_WAYS = ("top", "ends", "floor")
_STEPS_OF_HEAT = 5
_HOURS = tuple(half / 2 for half in range(1, 193))
_MOST_WANTED = 36
"""Percent. Wetter boards than that are green, and nothing is to be waited for."""
_MOST_STEPS = 12


def baffles(case: Case, stack: Stack) -> Iterator[Proposal]:
    """The ways round the charge closed: as few as will do."""
    block = case.block
    statement = case.statement(stack.baffles)
    if block is None or (statement is None and (stack.baffles is not None or block.all("baffles"))):
        return
    closed = {detail.words for detail in statement.details} if statement is not None else set()
    open_ways = [way for way in _WAYS if way not in closed]
    empty = statement is not None and all(not choices.BAFFLES.get(words) for words in closed)
    for size in range(1, len(open_ways) + 1):
        for ways in combinations(open_ways, size):
            said = ", ".join(ways)
            if statement is None:
                change = added_statement(case.source, block, "baffles", f"baffles {said}")
            elif empty:
                change = replaced(statement.where, f"baffles {said}")
            else:
                change = added_detail(statement, said)
            yield Option((change,), f"Close the way round the charge at {listed(_spoken(ways), 'and')}")


def _spoken(ways: tuple[str, ...]) -> Iterator[str]:
    yield from (f"the {way}" for way in ways)


def published_schedule(case: Case, stack: Stack) -> Iterator[Proposal]:
    facts = case.facts
    if stack.schedule is None or facts is None or facts.schedule_published is None:
        return
    if case.statement(stack.schedule) is not None:
        text = code(facts.schedule_published)
        yield Option((replaced(stack.schedule.where, text),), f"Run the published schedule, {text}")


def hotter_spell(case: Case, stack: Stack) -> Iterator[Proposal]:
    """A hot spell held for longer; else at a higher temperature that the kiln reaches, for as long as it takes."""
    block = case.block
    statement = case.statement(stack.hold)
    if block is None or (statement is None and (stack.hold is not None or block.all("hold"))):
        return
    if stack.hold is not None:
        yield from _longer(stack.hold)
    for text in _temperatures(case, stack):
        if stack.hold is not None:
            yield from _hotter_and_longer(stack.hold, text)
        else:
            yield from _added_spell(case, stack, text)


def _longer(hold: Hold) -> Iterator[Proposal]:
    hours = [number for number in _HOURS if number * 3600 > hold.time.si]
    yield from ladder(
        Option((replaced(hold.time.where, _hours(number)),), f"Hold the heat for {_hours(number)}") for number in hours
    )


def _hotter_and_longer(hold: Hold, text: str) -> Iterator[Proposal]:
    heat = replaced(hold.temperature.where, text)
    yield Option((heat,), f"Hold it at {text}")
    yield from ladder(
        Option((heat, replaced(hold.time.where, _hours(number))), f"Hold the heat at {text} for {_hours(number)}")
        for number in _HOURS
        if number * 3600 > hold.time.si
    )


def _added_spell(case: Case, stack: Stack, text: str) -> Iterator[Proposal]:
    block = case.block
    assert block is not None

    def option(number: float) -> Option:
        said = f"hold {text} for {_hours(number)}"
        changes = [added_statement(case.source, block, "hold", said)]
        if stack.sterilize is None:
            changes.append(added_statement(case.source, block, "sterilize", "sterilize"))
        return Option(tuple(changes), f"Heat the boards through: {said}")

    # How long it takes is judged by the rule on heat that kills: brought findings decide, so each time is tried.
    for number in (*_HOURS[3:24], *_HOURS[24:48:4]):
        yield option(number)


def _temperatures(case: Case, stack: Stack) -> tuple[str, ...]:
    """From the spell's own temperature, or from one that kills, up to what the kiln reaches, by 5 degrees."""
    kiln = case.facts.kiln if case.facts is not None else None
    if kiln is None or kiln.heats_to is None:
        return ()
    metric = case.system is System.METRIC
    unit = Unit.CELSIUS if metric else Unit.FAHRENHEIT
    if stack.hold is not None:
        unit = stack.hold.temperature.unit
    now = stack.hold.temperature.si if stack.hold is not None else 60.0
    first = int(unit.from_si(now) // _STEPS_OF_HEAT + 1) * _STEPS_OF_HEAT
    last = int(unit.from_si(kiln.heats_to) + 1e-6)
    return tuple(f"{figure(number)} {unit.symbol}" for number in range(first, last + 1, _STEPS_OF_HEAT))


def _hours(number: float) -> str:
    return f"{figure(number)} h"


def reachable(case: Case, stack: Stack) -> Iterator[Proposal]:
    """A wetter target, by whole percents."""
    yield from ladder(_targets(case, stack, up=True), climb=6)


def for_the_use(case: Case, stack: Stack) -> Iterator[Proposal]:
    """The nearest whole or half percent on the side of the limit that the target misses."""
    found, limit = case.finding.found, case.finding.limit
    if found is not None and limit is not None:
        yield from _targets(case, stack, up=limit.value > found.value)[:_MOST_STEPS]


def _targets(case: Case, stack: Stack, *, up: bool) -> list[Option]:
    want = stack.want
    if want is None or want.moisture is None or case.statement(want) is None:
        return []
    now = want.moisture.number
    percents = range(int(now) + 1, _MOST_WANTED) if up else range(-int(-now // 1) - 1, 3, -1)
    where = want.moisture.where
    return [Option((replaced(where, f"{number}%"),), f"Want {number}%") for number in percents]


def smaller_wish(case: Case, stack: Stack) -> Iterator[Proposal]:
    """The size wanted when dry and planed made smaller, by sixteenths of an inch (by millimetres)."""
    line = case.finding.where
    for group in stack.boards:
        if group.finished is not None and group.where.line <= line.line <= group.where.end_line:
            yield from _smaller(case, group.finished, "thick")
    for wish in stack.wanted:
        yield from _smaller(case, wish.thickness, "thick")
        yield from _smaller(case, wish.width, "wide")
        if wish.thickness is not None and wish.width is not None:
            yield from _both_smaller(case, wish.thickness, wish.width)


def _smaller(case: Case, size: Quantity | None, way: str) -> Iterator[Proposal]:
    if size is not None and case.statement(size) is not None:
        yield from ladder(
            Option((replaced(size.where, text),), f"Plan for boards {text} {way}")
            for text in usual.smaller(usual.FINISHED, size, case.system)
        )


def _both_smaller(case: Case, thickness: Quantity, width: Quantity) -> Iterator[Proposal]:
    if case.statement(thickness) is None:
        return
    thin = usual.smaller(usual.FINISHED, thickness, case.system)
    narrow = usual.smaller(usual.FINISHED, width, case.system)

    def at(up: tuple[int, ...]) -> Option:
        changes: list[Change] = []
        said: list[str] = []
        for rung, texts, size, way in ((up[0], thin, thickness, "thick"), (up[1], narrow, width, "wide")):
            if rung:
                changes.append(replaced(size.where, texts[rung - 1]))
                said.append(f"{texts[rung - 1]} {way}")
        return Option(tuple(changes), f"Plan for boards {listed(said, 'and')}")

    yield Ladder((len(thin), len(narrow)), at)
