"""Proposed charges, for a person to read and to put into a plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stacklint.arranging.charges import LABELS, Charge, Lot, Proposals, Taken, of_length
from stacklint.board_words import describe
from stacklint.language.write import write
from stacklint.plan.boards import Boards
from stacklint.plan.node import Name
from stacklint.plan.stack import Day, Stack, StackKind
from stacklint.plan.yard import Plan
from stacklint.report.arranged_text import WIDTH, loaded_lines
from stacklint.report.columns import folded
from stacklint.report.plain import plain
from stacklint.show import percent
from stacklint.units import System

_INDENT = "  "


def charges_lines(found: Proposals, system: System, *, several: bool) -> Iterator[str]:
    """Every charge with its text, then what remains. ``several``: piles of several files are told apart by path."""
    for charge in found.charges:
        yield from _charge(charge, system, several=several)
    if found.remaining:
        yield "Remaining for another day" if found.charges else "Boards"
        for lot in found.remaining:
            yield from _folded(f"{_how_many(lot.boards)}{_lot(lot, several=several)}")
        yield ""


def charge_text(charge: Charge) -> str:
    """The charge as a block of a plan. Where it takes whole piles of one text, it says so; boards of a part of a pile
    are listed, with the pile in a comment."""
    whole = _whole_piles(charge) if len({each.lot.path for each in charge.taken}) == 1 else ()
    comments: dict[str, str] = {}
    boards: list[Boards] = []
    for taken in charge.taken:
        if taken.lot.pile.name in whole:
            continue
        for part in _parts(taken):
            label = _label(len(boards))
            boards.append(part.model_copy(update={"label": Name(text=label)}))
            comments[label] = f"  # of pile {plain(taken.lot.pile.name.text)}, boards {taken.lot.boards.label.text}"
    laid = charge.load.laid.stack
    stack = Stack(
        kind=StackKind.CHARGE,
        name=Name(text=f"{charge.day} {charge.kiln.name.text}"),
        kiln=charge.kiln.name,
        starts=Day(date=charge.day),
        boards=tuple(boards),
        size=laid.size,
        stickers=laid.stickers,
    )
    lines = write(Plan(stacks=(stack,))).splitlines()
    lines[2:2] = [f'  from pile "{name.text}"' for name in whole]
    return "\n".join(line + comments.get(_label_in(line), "") for line in lines) + "\n"


def _charge(charge: Charge, system: System, *, several: bool) -> Iterator[str]:
    yield plain(f"Charge for kiln {charge.kiln.name.text} on {charge.day}")
    for taken in charge.taken:
        all_of = "all " if taken.whole else ""
        yield from _folded(f"{all_of}{taken.boards:,} of {_lot(taken.lot, several=several)}")
    yield ""
    yield from loaded_lines(charge.load, system, left_out=False)
    yield ""
    for line in charge_text(charge).splitlines():
        yield plain(f"{_INDENT}{line}")
    yield ""
    for away in {
        (away.lot.path, away.lot.pile.name, away.lot.boards.label): away for away in charge.turned_away
    }.values():
        lot = _lot(away.lot, several=several)
        yield from _folded(f"Not with these: {lot}. {away.finding.message} [{away.finding.rule}]")
    if charge.turned_away:
        yield ""


def _lot(lot: Lot, *, several: bool) -> str:
    words = f"{describe(lot.boards, lot.wood.name)}, {percent(round(lot.moisture, 3))}"
    path = f" ({lot.path})" if several else ""
    return f"{words}, boards {lot.boards.label.text} of pile {lot.pile.name.text}{path}"


def _how_many(boards: Boards) -> str:
    from stacklint.layout.stock import lots_of

    return f"{sum(lot.count for lot in lots_of(boards)[0]):,} of "


def _whole_piles(charge: Charge) -> tuple[Name, ...]:
    """The piles of which every group goes in whole."""
    found = []
    for name in dict.fromkeys(taken.lot.pile.name for taken in charge.taken):
        of_pile = [taken for taken in charge.taken if taken.lot.pile.name == name]
        groups = {boards.label for boards in of_pile[0].lot.pile.boards}
        if all(taken.whole for taken in of_pile) and {taken.lot.boards.label for taken in of_pile} == groups:
            found.append(name)
    return tuple(found)


def _parts(taken: Taken) -> Sequence[Boards]:
    """The group as it is listed where all of it goes, else a group for each length."""
    if taken.whole:
        return [taken.lot.boards]
    return [of_length(taken.lot.boards, length, count) for length, count in sorted(taken.lengths.items(), reverse=True)]


def _label(number: int) -> str:
    if number < len(LABELS):
        return LABELS[number]
    first, second = divmod(number, len(LABELS))
    return f"{LABELS[first - 1]}{LABELS[second]}"


def _label_in(line: str) -> str:
    words = line.split()
    return words[1].rstrip(":") if words[:1] == ["boards"] else ""


def _folded(text: str) -> Iterator[str]:
    for number, line in enumerate(folded(text, WIDTH - 2 * len(_INDENT))):
        yield f"{_INDENT if not number else 2 * _INDENT}{line}"
