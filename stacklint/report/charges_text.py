"""Proposed charges, for a person to read and to put into a plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stacklint.arranging.charges import LABELS, Charge, Lot, Proposals, Taken, of_length
from stacklint.board_words import describe, size_words
from stacklint.language.nearest import listed
from stacklint.language.write import write
from stacklint.layout.stock import lots_of, pieces_of
from stacklint.plan.boards import Boards
from stacklint.plan.node import Name, Quantity
from stacklint.plan.stack import Day, Stack, StackKind, TakenPart, Taking
from stacklint.plan.yard import Plan
from stacklint.report.arranged_text import WIDTH, loaded_lines
from stacklint.report.columns import folded
from stacklint.report.plain import plain
from stacklint.show import percent
from stacklint.units import System

_INDENT = "  "
_MOST_TURNED_AWAY = 5


def charges_lines(found: Proposals, system: System, *, several: bool) -> Iterator[str]:
    """Every charge with its text, then what remains. ``several``: piles of several files are told apart by path."""
    for charge in found.charges:
        yield from _charge(charge, system, several=several)
    if found.remaining:
        yield "Remaining for another day" if found.charges else "Boards"
        yield from _remaining(found.remaining, several=several)
        yield ""


def _remaining(lots: Sequence[Lot], *, several: bool) -> Iterator[str]:
    """A line for each group; the lengths of one that went in part are listed."""
    groups: dict[tuple[str, Name, Name], list[Lot]] = {}
    for lot in lots:
        groups.setdefault((lot.path, lot.pile.name, lot.boards.label), []).append(lot)
    for parts in groups.values():
        counts = [sum(stock.count for stock in lots_of(part.boards)[0]) for part in parts]
        each = f"{sum(counts):,} of {_lot(parts[0], several=several)}"
        if len(parts) > 1:
            lengths = (size_words(part.boards.length) for part in parts)
            said = listed((f"{count} of {length}" for count, length in zip(counts, lengths, strict=True)), "and")
            each = f"{sum(counts):,} of {_lot(parts[0], several=several, lengths=False)}: {said}"
        yield from _folded(each)


def charge_text(charge: Charge) -> str:
    """The charge as a block of a plan. Where its boards are of one text, it says which piles they come from; some of a
    group of many lengths, and boards of several texts, are listed, with the pile in a comment."""
    one_text = len({each.lot.path for each in charge.taken}) == 1
    from_piles = tuple(_takings(charge)) if one_text else ()
    said = {(taking.pile, part.label) for taking in from_piles for part in taking.parts}
    whole = {taking.pile for taking in from_piles if not taking.parts}
    comments: dict[str, str] = {}
    boards: list[Boards] = []
    for taken in charge.taken:
        pile, group = taken.lot.pile.name, taken.lot.boards.label
        if pile in whole or (pile, group) in said:
            continue
        for part in _parts(taken):
            label = _label(len(boards))
            boards.append(part.model_copy(update={"label": Name(text=label)}))
            comments[label] = f"  # of pile {plain(pile.text)}, boards {group.text}"
    laid = charge.load.laid.stack
    stack = Stack(
        kind=StackKind.CHARGE,
        name=Name(text=f"{charge.day} {charge.kiln.name.text}"),
        kiln=charge.kiln.name,
        starts=Day(date=charge.day),
        boards=tuple(boards),
        size=laid.size,
        stickers=laid.stickers,
        from_piles=from_piles,
    )
    lines = write(Plan(stacks=(stack,))).splitlines()
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
    yield from _turned_away(charge, several=several)


def _turned_away(charge: Charge, *, several: bool) -> Iterator[str]:
    """The groups most like those of the charge that do not go with them, and why; of the others how many they are."""
    groups = {(away.lot.path, away.lot.pile.name, away.lot.boards.label): away for away in charge.turned_away}
    for away in [*groups.values()][:_MOST_TURNED_AWAY]:
        lot = _lot(away.lot, several=several)
        yield from _folded(f"Not with these: {lot}. {away.finding.message} [{away.finding.rule}]")
    more = len(groups) - _MOST_TURNED_AWAY
    if more > 0:
        yield from _folded(f"Nor with these: {more} {'group' if more == 1 else 'groups'} more, less like them.")
    if groups:
        yield ""


def _lot(lot: Lot, *, several: bool, lengths: bool = True) -> str:
    boards = describe(lot.boards, lot.wood.name)
    if not lengths:
        boards = boards.rpartition(" x ")[0]
    path = f" ({lot.path})" if several else ""
    label, pile = lot.boards.label.text, lot.pile.name.text
    return f"{boards}, {percent(round(lot.moisture, 3))}, boards {label} of pile {pile}{path}"


def _takings(charge: Charge) -> Iterator[Taking]:
    """What the charge takes of each pile, where a plan can say it so: the whole pile if every group goes in whole."""
    for name in dict.fromkeys(taken.lot.pile.name for taken in charge.taken):
        of_pile = [taken for taken in charge.taken if taken.lot.pile.name == name]
        listed_groups = of_pile[0].lot.pile.boards
        parts = tuple(part for taken in of_pile if (part := _part(taken)) is not None)
        alls = {part.label for part in parts if part.count is None}
        if alls == {group.label for group in listed_groups}:
            yield Taking(pile=name)
        elif parts:
            yield Taking(pile=name, parts=parts)


def _part(taken: Taken) -> TakenPart | None:
    """All of a group, or so many boards of it. ``None`` for some boards of a group of many lengths: a count of those
    would be of all its lengths."""
    label = taken.lot.boards.label
    group = next(each for each in taken.lot.pile.boards if each.label == label)
    if taken.whole and pieces_of(group) == taken.boards:
        return TakenPart(label=label)
    return TakenPart(label=label, count=taken.boards) if isinstance(group.length, Quantity) else None


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
