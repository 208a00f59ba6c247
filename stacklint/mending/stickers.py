"""Proposals for stickers: how far apart, where, how thick and wide, and what they are."""

from __future__ import annotations

from collections.abc import Iterator

from stacklint.changes import Change
from stacklint.language import choices
from stacklint.language.written import amount
from stacklint.mending import usual
from stacklint.mending.case import Case, Option, Proposal
from stacklint.mending.edits import added_detail, dropped_detail, replaced
from stacklint.mending.lines import at_text, moved_to, spaced
from stacklint.mending.sorting import laid_anew
from stacklint.plan.node import Range
from stacklint.plan.stack import Stack
from stacklint.plan.supports import BearerKind, StickerState
from stacklint.units import System

_MOST_LINES_MORE = 8


def closer(case: Case, stack: Stack) -> Iterator[Proposal]:
    """The next usual spacings below the stickers' own; each alone, then with the bearers spaced alike."""
    statement = case.statement(stack.stickers)
    if stack.stickers is None or statement is None or stack.stickers.none:
        return
    bearers = case.statement(stack.bearers)
    movable = bearers is not None and stack.bearers is not None and stack.bearers.kind is not BearerKind.PALLETS
    if stack.stickers.count is not None:
        for count in range(stack.stickers.count + 1, stack.stickers.count + _MOST_LINES_MORE):
            yield Option(spaced(statement, f"{count} a course"), f"Lay {count} stickers in a course")
        return
    for text in usual.smaller(usual.SPACINGS, stack.stickers.every, case.system):
        alone = spaced(statement, f"every {text}")
        yield Option(alone, f"Space the stickers {text} apart")
        if movable and bearers is not None:
            both = (*alone, *spaced(bearers, f"every {text}"))
            yield Option(both, f"Space the stickers {text} apart, and the bearers with them")


def wider(case: Case, stack: Stack) -> Iterator[Proposal]:
    """Usual spacings above the stickers' own, for fewer stickers; each alone, then with the bearers."""
    statement = case.statement(stack.stickers)
    if stack.stickers is None or statement is None or stack.stickers.every is None:
        return
    for text in usual.larger(usual.SPACINGS, stack.stickers.every, case.system):
        yield Option(spaced(statement, f"every {text}"), f"Space the stickers {text} apart")


def ends(case: Case, stack: Stack) -> Iterator[Proposal]:
    """Outer lines nearer to the ends, then closer lines, a line moved or added, courses laid anew."""
    yield from _nearer_to_ends(case, stack)
    yield from closer(case, stack)
    yield from at_marks(case, stack)
    yield from laid_anew(case, stack)


def joints(case: Case, stack: Stack) -> Iterator[Proposal]:
    """A line moved or added where the boards meet, then closer lines, courses laid anew."""
    yield from at_marks(case, stack)
    yield from _nearer_to_ends(case, stack)
    yield from closer(case, stack)
    yield from laid_anew(case, stack)


def _nearer_to_ends(case: Case, stack: Stack) -> Iterator[Proposal]:
    stickers, bearers = stack.stickers, stack.bearers
    if stickers is None or stickers.from_ends is None or case.statement(stickers) is None:
        return
    for text in usual.smaller(usual.ENDS, stickers.from_ends, case.system):
        alone = (replaced(stickers.from_ends.where, text),)
        yield Option(alone, f"Set the outer stickers {text} from the ends")
        if bearers is not None and bearers.from_ends is not None and case.statement(bearers) is not None:
            both = (*alone, replaced(bearers.from_ends.where, text))
            yield Option(both, f"Set the outer stickers and bearers {text} from the ends")


def at_marks(case: Case, stack: Stack) -> Iterator[Proposal]:
    """Where each line's place is given: the nearest one moved to the faulty place, or a line added there."""
    stickers, bearers = stack.stickers, stack.bearers
    statement = case.statement(stickers)
    if stickers is None or statement is None or not stickers.at:
        return
    for target in _faulty_places(case):
        for add in (False, True):
            changes = moved_to(stickers.at, target, add)
            new = at_text(stickers.at, target)
            said = f"Set a sticker line at {new}" if add else f"Move the nearest sticker line to {new}"
            yield Option(changes, said)
            if bearers is not None and bearers.at and case.statement(bearers) is not None:
                both = (*changes, *moved_to(bearers.at, target, add))
                yield Option(both, f"{said}, and the bearer under it" if not add else f"{said}, and a bearer under it")


def _faulty_places(case: Case) -> tuple[float, ...]:
    """Places along the stack that the finding marks, in metres from its left end."""
    places: list[float] = []
    for mark in case.finding.marks:
        places += [place for place in (mark.start, mark.end) if place is not None]
    middles = [
        (mark.start + mark.end) / 2 for mark in case.finding.marks if mark.start is not None and mark.end is not None
    ]
    return tuple(dict.fromkeys(round(place, 4) for place in (*middles, *places)))[:8]


def thicker(case: Case, stack: Stack) -> Iterator[Proposal]:
    yield from _thickness(case, stack, usual.larger)


def thinner(case: Case, stack: Stack) -> Iterator[Proposal]:
    yield from _thickness(case, stack, usual.smaller)


def _thickness(case: Case, stack: Stack, tried: usual.Tried) -> Iterator[Proposal]:
    stickers = stack.stickers
    if stickers is None or stickers.thickness is None or case.statement(stickers) is None:
        return
    value = stickers.thickness
    now = value.low if isinstance(value, Range) else value
    for text in tried(usual.STICKER_THICKNESSES, now, case.system):
        yield Option((replaced(value.where, text),), f"Use stickers {text} thick")


def narrower(case: Case, stack: Stack) -> Iterator[Proposal]:
    yield from _width(case, stack, usual.smaller)


def broader(case: Case, stack: Stack) -> Iterator[Proposal]:
    """Wider stickers, then closer lines: both share the load out over more wood."""
    yield from _width(case, stack, usual.larger)
    yield from closer(case, stack)


def _width(case: Case, stack: Stack, tried: usual.Tried) -> Iterator[Proposal]:
    stickers = stack.stickers
    if stickers is None or stickers.width is None or case.statement(stickers) is None:
        return
    for text in tried(usual.STICKER_WIDTHS, stickers.width, case.system):
        yield Option((replaced(stickers.width.where, text),), f"Use stickers {text} wide")


def one_thickness(case: Case, stack: Stack) -> Iterator[Proposal]:
    """Uneven stickers planed to the thinnest, or sorted to the thickest."""
    stickers = stack.stickers
    if stickers is None or not isinstance(stickers.thickness, Range) or case.statement(stickers) is None:
        return
    value = stickers.thickness
    for end, said in ((value.low, "Plane the stickers to"), (value.high, "Use only stickers of")):
        text = amount(end)
        yield Option((replaced(value.where, text),), f"{said} one thickness, {text}")


def dry(case: Case, stack: Stack) -> Iterator[Proposal]:
    statement = case.statement(stack.stickers)
    for detail in statement.details if statement is not None else ():
        said = choices.STICKERS.get(detail.words, ())
        if said and said[0][0] == "state" and said[0][1] is not StickerState.DRY:
            yield Option((replaced(detail.where, "dry"),), "Use dry stickers")


def in_line(case: Case, stack: Stack) -> Iterator[Proposal]:
    statement = case.statement(stack.stickers)
    detail = statement.worded("out of line") if statement is not None else None
    if statement is not None and detail is not None:
        yield Option(dropped_detail(statement, detail), "Set each sticker straight over the one below it")


def as_long_as_wide(case: Case, stack: Stack) -> Iterator[Proposal]:
    stickers = stack.stickers
    if stickers is None or stickers.length is None or stack.size is None or case.statement(stickers) is None:
        return
    text = amount(stack.size.width)
    yield Option((replaced(stickers.length.where, text),), f"Cut the stickers {text} long, as the stack is wide")


def on_stickers(case: Case, stack: Stack) -> Iterator[Proposal]:
    """Boards piled solid put on stickers of the usual size, as wide apart as will do."""
    statement = case.statement(stack.stickers)
    if stack.stickers is None or not stack.stickers.none or statement is None or len(statement.details) != 1:
        return
    inches = case.system is System.INCH
    size = "3/4 in x 1 1/2 in" if inches else "20 mm x 40 mm"
    for text in usual.smaller(usual.SPACINGS, None, case.system)[1:]:
        new = replaced(statement.details[0].where, f"{size}, every {text}, dry")
        yield Option((new,), f"Lay the boards on dry stickers of {size}, {text} apart")


def bearers_alike(case: Case, stack: Stack) -> Iterator[Proposal]:
    """A bearer under every sticker line; then closer lines of both."""
    stickers, bearers = stack.stickers, stack.bearers
    under = case.statement(bearers)
    over = case.statement(stickers)
    if stickers is None or bearers is None or under is None:
        return
    changes: list[Change] = []
    if stickers.at:
        changes += spaced(under, "at " + ", ".join(amount(place) for place in stickers.at))
    elif stickers.count is not None:
        changes += spaced(under, f"{stickers.count} of them")
    elif stickers.every is not None:
        changes += spaced(under, f"every {amount(stickers.every)}")
    elif stickers.every is None:
        changes += spaced(under, f"every {'24 in' if case.system is System.INCH else '600 mm'}")
    yield Option(tuple(changes), "Put a bearer under every sticker line")
    if bearers.from_ends is not None or stickers.from_ends is not None:
        yield Option((*changes, *_ends_alike(case, stack)), "Put a bearer under every sticker line, the outer ones too")
    if over is not None:
        yield from closer(case, stack)


def _ends_alike(case: Case, stack: Stack) -> tuple[Change, ...]:
    stickers, bearers = stack.stickers, stack.bearers
    under = case.statement(bearers)
    assert stickers is not None and bearers is not None and under is not None
    if bearers.from_ends is not None:
        if stickers.from_ends is not None:
            return (replaced(bearers.from_ends.where, amount(stickers.from_ends)),)
        detail = under.detail("from_ends")
        return dropped_detail(under, detail) if detail is not None else ()
    assert stickers.from_ends is not None
    return (added_detail(under, f"{amount(stickers.from_ends)} from ends"),)
