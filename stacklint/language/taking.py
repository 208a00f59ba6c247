"""What a charge takes of a pile: the groups, as much of each as its ``from pile`` says."""

from __future__ import annotations

from stacklint.faults import Fault, FaultKind, Measure
from stacklint.language.line import Log
from stacklint.language.nearest import listed, nearest
from stacklint.language.written import amount, figure
from stacklint.plan.boards import Boards
from stacklint.plan.node import Quantity
from stacklint.plan.stack import Stack, TakenPart, Taking
from stacklint.units import NUMBER, VOLUME

ROUNDING = 1e-3
"""Volumes that are nearer to one another than this share are one: 350 bf written as 0.826 m3."""


def taken_from(pile: Stack, taking: Taking) -> tuple[Boards, ...]:
    """The boards that are taken of a pile. Parts of groups that it does not list are passed over."""
    if not taking.parts:
        return pile.boards
    groups = _by_label(pile)
    return tuple(part_of(groups[part.label.text], part) for part in taking.parts if part.label.text in groups)


def part_of(group: Boards, part: TakenPart) -> Boards:
    """As much of a group as a part says; where it takes the whole group, the group itself."""
    if part.count is None and part.volume is None:
        return group
    return group.model_copy(update={"count": part.count, "volume": part.volume})


def check_parts(charge: Stack, pile: Stack, taking: Taking, log: Log) -> bool:
    """Reports parts of groups that the pile does not list, and parts that are more than it lists of a group.

    Says whether there are none. Of a pile with boards that could not be read, a group may be one of those.
    """
    groups = _by_label(pile)
    sound = True
    for part in taking.parts:
        group = groups.get(part.label.text)
        fault = _too_much(group, part, pile, charge) if group is not None else _no_group(part, pile, charge)
        if fault is None or (group is None and "boards" in pile.faulty):
            continue
        sound = False
        if not log.full:
            log.add(fault)
    return sound


def _by_label(pile: Stack) -> dict[str, Boards]:
    """The groups of a pile; of two that bear one label the first."""
    return {group.label.text: group for group in reversed(pile.boards)}


def _no_group(part: TakenPart, pile: Stack, charge: Stack) -> Fault:
    labels = [group.label.text for group in pile.boards]
    close = nearest(part.label.text, labels) or labels
    instead = f"Write {listed(close)}." if close else f"Write a boards statement for it in pile {pile.name.text}."
    message = f"Pile {pile.name.text} lists no boards {part.label.text}."
    return Fault(FaultKind.PLAN_TEXT, part.label.where, message, instead, charge.name.text)


def _too_much(group: Boards, part: TakenPart, pile: Stack, charge: Stack) -> Fault | None:
    from stacklint.layout.stock import pieces_of

    taken = part_of(group, part)
    label = group.label.text
    if taken.volume is not None and group.volume is not None:
        has, takes = Measure(group.volume.si, VOLUME), Measure(taken.volume.si, VOLUME)
        if takes.value <= has.value * (1 + ROUNDING):
            return None
        lists = f"{amount(group.volume)} of {label}"
    else:
        has, takes = Measure(float(pieces_of(group)), NUMBER), Measure(float(pieces_of(taken)), NUMBER)
        if takes.value <= has.value:
            return None
        lists = f"{_whole(group)} of {label}{_in_the_measure_of(part, group, has.value)}"
    message = f"Pile {pile.name.text} lists {lists}, and {_whole(taken)} are taken."
    instead = f"Take no more of it than there is; all of {label} takes the whole group."
    return Fault(FaultKind.VALUE_OUT_OF_RANGE, part.where, message, instead, charge.name.text, takes, has)


def _whole(group: Boards) -> str:
    return amount(group.volume) if group.volume is not None else figure(group.count or 0)


def _in_the_measure_of(part: TakenPart, group: Boards, pieces: float) -> str:
    """A group in the other measure, where it is listed by volume and taken by count or the other way round."""
    from stacklint.layout.stock import volume_of

    if part.volume is not None:
        unit = part.volume.unit
        return f" (about {amount(Quantity(number=float(f'{unit.from_si(volume_of(group)):.3g}'), unit=unit))})"
    return f" (about {figure(pieces)} boards)" if group.volume is not None else ""
