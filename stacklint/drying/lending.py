"""The moisture content at which a charge takes boards from a pile: that of the pile's forecast on the day it starts."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Mapping

from stacklint.drying.forecast import Forecast
from stacklint.drying.outlook import batches_of, moisture_on, outlook
from stacklint.faults import Assumption
from stacklint.language.taking import ROUNDING, part_of
from stacklint.plan.boards import Boards
from stacklint.plan.node import Quantity
from stacklint.plan.stack import Day, Stack, StackKind, TakenPart, Taking, Want
from stacklint.plan.yard import Plan
from stacklint.show import percent
from stacklint.tables.wood import Wood
from stacklint.units import Unit


def with_dried_boards(
    charge: Stack, plan: Plan, woods: Mapping[str, Wood], today: datetime.date
) -> tuple[Stack, tuple[Assumption, ...]]:
    """The charge with the boards of its piles as dry as the piles' forecasts say, and a sentence on each pile.

    ``woods`` are those of the charge and of its piles. Boards of a pile without a forecast, or of one that is stacked
    after the charge starts, stay as they are listed.
    """
    if charge.starts is None or not charge.from_piles:
        return charge, ()
    moistures: dict[object, tuple[float, str]] = {}
    for pile in piles_of(charge, plan):
        if any(boards.wood.text not in woods for boards in pile.boards):
            continue
        forecast = outlook(_followed_on(pile), batches_of(pile, woods), plan.sites, None, today)
        if not isinstance(forecast, Forecast):
            continue
        for boards in pile.boards:
            found = moisture_on(forecast, boards.label.text, charge.starts.date)
            if found is not None:
                moistures[boards.where] = (found, pile.name.text)
    dried = tuple(_dried(boards, moistures) for boards in charge.boards)
    said = []
    for pile_name in dict.fromkeys(pile for _, pile in moistures.values()):
        groups = [group for group in dried if moistures.get(group.where, (0.0, ""))[1] == pile_name]
        if groups:
            said.append(_said(pile_name, groups, charge.starts))
    return charge.model_copy(update={"boards": dried}), tuple(said)


def _followed_on(pile: Stack) -> Stack:
    """The pile, wanted as dry as can be: until they are taken, its boards dry on past what the pile itself wants."""
    dry = Quantity(where=pile.name.where, number=0.0, unit=Unit.PERCENT)
    return pile.model_copy(update={"want": Want(where=pile.name.where, moisture=dry)})


def _said(pile: str, groups: list[Boards], starts: Day) -> Assumption:
    each = [
        f"{group.label.text} at {percent(round(group.moisture.si, 2))}"
        for group in groups
        if isinstance(group.moisture, Quantity)
    ]
    boards = f"{', '.join(each[:-1])} and {each[-1]}" if len(each) > 1 else each[0]
    return Assumption(
        starts.where, f"Of pile {pile}, boards {boards} are taken on {starts.date}, as forecast.", "from pile"
    )


def piles_of(charge: Stack, plan: Plan) -> list[Stack]:
    """The piles that a charge takes its boards from; of two that bear one name the first."""
    named = {taking.pile.text.casefold() for taking in charge.from_piles}
    piles: dict[str, Stack] = {}
    for stack in (*plan.stacks, *plan.lent):
        if stack.kind is StackKind.PILE and stack.name.text.casefold() in named:
            piles.setdefault(stack.name.text.casefold(), stack)
    return list(piles.values())


def rest_of(pile: Stack, charges: Iterable[Stack]) -> tuple[Boards, ...]:
    """The boards that stay in a pile when charges have taken what they say: none once one takes the whole pile.

    Of a group that is taken in part so much volume is left where all is written as volumes, else so many boards.
    """
    left = {group.label.text: group for group in reversed(pile.boards)}
    for taking in _takings(pile, charges):
        if not taking.parts:
            return ()
        for part in taking.parts:
            group = left.pop(part.label.text, None)
            rest = _less(group, part) if group is not None else None
            if rest is not None:
                left[part.label.text] = rest
    return tuple(left[group.label.text] for group in pile.boards if group.label.text in left)


def _takings(pile: Stack, charges: Iterable[Stack]) -> Iterator[Taking]:
    name = pile.name.text.casefold()
    return (taking for charge in charges for taking in charge.from_piles if taking.pile.text.casefold() == name)


def _less(group: Boards, part: TakenPart) -> Boards | None:
    """What is left of a group."""
    from stacklint.layout.stock import pieces_of

    if part.count is None and part.volume is None:
        return None
    if group.volume is not None and part.volume is not None:
        volume = group.volume
        number = volume.number - volume.unit.from_si(part.volume.si)
        if number <= volume.number * ROUNDING:
            return None
        return group.model_copy(update={"volume": volume.model_copy(update={"number": number})})
    count = pieces_of(group) - pieces_of(part_of(group, part))
    return group.model_copy(update={"count": count, "volume": None}) if count > 0 else None


def _dried(boards: Boards, moistures: Mapping[object, tuple[float, str]]) -> Boards:
    found = moistures.get(boards.where)
    if found is None:
        return boards
    figure = Quantity(where=boards.where, number=round(found[0] * 100, 1), unit=Unit.PERCENT)
    return boards.model_copy(update={"moisture": figure})
