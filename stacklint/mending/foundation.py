"""Proposals for what a stack rests on: clearance, bearers, pads and blocks."""

from __future__ import annotations

from collections.abc import Iterator

from stacklint.language.written import factor
from stacklint.mending import usual
from stacklint.mending.case import Case, Option, Proposal, ladder
from stacklint.mending.edits import added_detail, added_statement, replaced
from stacklint.mending.lines import spaced
from stacklint.plan.stack import Stack
from stacklint.plan.supports import Pads
from stacklint.units import ONE_INCH, System

_PADS = usual.Usual((8, 12, 16, 20, 24, 30, 36), (200, 300, 400, 500, 600, 750, 900))
_MOST_PADS = 8


def higher(case: Case, stack: Stack) -> Iterator[Proposal]:
    """The clearance raised by the inch (by 25 mm)."""
    said = stack.clearance
    if said is not None:
        where = said.height.where
        if case.statement(said) is not None:
            yield from ladder(
                Option((replaced(where, text),), f"Raise the lowest boards to {text} above the ground")
                for text in usual.larger(usual.CLEARANCES, said.height, case.system)
            )
        return
    block = case.block
    if block is not None and not block.all("clearance"):
        yield from ladder(
            Option(
                (added_statement(case.source, block, "clearance", f"clearance {text}"),),
                f"Raise the lowest boards to {text} above the ground",
            )
            for text in usual.larger(usual.CLEARANCES, None, case.system)
        )


def stronger_bearers(case: Case, stack: Stack) -> Iterator[Proposal]:
    """Deeper bearers, then wider ones, then more pads under each, then closer bearers."""
    bearers = stack.bearers
    statement = case.statement(bearers)
    if bearers is None or statement is None:
        return
    if len(bearers.sides) == 2:
        width, depth = bearers.sides
        for text in usual.larger(usual.SECTIONS, depth, case.system):
            yield Option((replaced(depth.where, text),), f"Use bearers {text} deep")
        for text in usual.larger(usual.SECTIONS, width, case.system):
            yield Option((replaced(width.where, text),), f"Use bearers {text} wide")
    yield from more_pads(case, stack)
    for text in usual.smaller(usual.SPACINGS, bearers.every, case.system) if bearers.every is not None else ():
        yield Option(spaced(statement, f"every {text}"), f"Space the bearers {text} apart")


def broader_footing(case: Case, stack: Stack) -> Iterator[Proposal]:
    """Larger pads, then more of them under each bearer, then closer bearers."""
    yield from _larger_pads(case, stack)
    yield from more_pads(case, stack)
    yield from stronger_bearers(case, stack)


def _larger_pads(case: Case, stack: Stack) -> Iterator[Proposal]:
    bearers = stack.bearers
    statement = case.statement(bearers)
    if bearers is None or statement is None:
        return
    pads = bearers.pads
    if pads is None or not pads.sides:
        inches = case.system is System.INCH
        text = "8 in x 16 in" if inches else "200 mm x 400 mm"
        if pads is None and statement.detail("on_pads") is None:
            yield Option((added_detail(statement, f"on {text} pads"),), f"Stand the bearers on pads of {text}")
        return
    length, width = pads.sides[0], pads.sides[1] if len(pads.sides) > 1 else pads.sides[0]
    like = length
    system = usual.system_of(like, case.system)
    unit = ONE_INCH if system is System.INCH else 0.001
    values = _PADS.inches if system is System.INCH else _PADS.millimetres
    now = length.si * width.si
    sizes = sorted({(a, b) for a in values for b in values if b in (a, 2 * a)}, key=lambda size: size[0] * size[1])
    for short, long in sizes:
        if short * long * unit * unit <= now + 1e-9:
            continue
        text = f"{usual.written(short, like, system)} x {usual.written(long, like, system)}"
        yield Option(
            (replaced(length.where.to(width.where), text),),
            f"Stand the bearers on {'blocks' if pads.blocks else 'pads'} of {text}",
        )


def more_pads(case: Case, stack: Stack) -> Iterator[Proposal]:
    """One more pad or block under each bearer, and one more."""
    bearers = stack.bearers
    statement = case.statement(bearers)
    if bearers is None or statement is None or bearers.pads is None:
        return
    detail = statement.detail("on_pads")
    if detail is None:
        return
    for count in range((bearers.pads_count or 2) + 1, _MOST_PADS + 1):
        said = _pads_text(bearers.pads, count)
        yield Option((replaced(detail.where, said),), f"Stand each bearer {said}")


def _pads_text(pads: Pads, count: int) -> str:
    word = "blocks" if pads.blocks else "pads"
    return f"on {count} {word} of {factor(*pads.sides)}" if pads.sides else f"on {count} {word}"


def boards_apart(case: Case, stack: Stack) -> Iterator[Proposal]:
    """More room between the boards of a course."""
    size = stack.size
    if size is None or size.boards_apart is None or case.statement(size) is None:
        return
    for text in usual.larger(usual.BOARD_GAPS, size.boards_apart, case.system):
        yield Option((replaced(size.boards_apart.where, text),), f"Lay the boards {text} apart")


def next_pile(case: Case, stack: Stack) -> Iterator[Proposal]:
    size = stack.size
    if size is None or size.next_pile is None or case.statement(size) is None:
        return
    for text in usual.larger(usual.PILE_GAPS, size.next_pile, case.system):
        yield Option((replaced(size.next_pile.where, text),), f"Leave {text} to the next pile")


def narrower_stack(case: Case, stack: Stack) -> Iterator[Proposal]:
    """A narrower stack or one with a flue; what changes least comes first."""
    size = stack.size
    statement = case.statement(size)
    if size is None or statement is None:
        return
    found: list[tuple[float, Option]] = []
    for metres, text in _widths(case, stack, larger=False):
        found.append((size.width.si - metres, _as_wide(case, stack, text)))
    if size.flue is None:
        system = usual.system_of(size.width, case.system)
        for text in usual.larger(usual.FLUES, None, system)[:2]:
            option = Option((added_detail(statement, f"flue {text}"),), f"Leave a flue {text} wide up the middle")
            found.append((0.15, option))
    yield from (option for _, option in sorted(found, key=lambda one: one[0]))


def wider_stack(case: Case, stack: Stack) -> Iterator[Proposal]:
    """A wider and so a lower stack."""
    if stack.size is not None and case.statement(stack.size) is not None:
        for _, text in _widths(case, stack, larger=True):
            yield _as_wide(case, stack, text)


def another_width(case: Case, stack: Stack) -> Iterator[Proposal]:
    """A stack of another width, in which the boards come out in full courses; the nearest width first."""
    size = stack.size
    if size is None or case.statement(size) is None:
        return
    widths = [*_widths(case, stack, larger=False), *_widths(case, stack, larger=True)]
    for _, text in sorted(widths, key=lambda width: abs(width[0] - size.width.si)):
        yield _as_wide(case, stack, text)


def into_kiln(case: Case, stack: Stack) -> Iterator[Proposal]:
    """A stack as much narrower as its kiln lacks room."""
    size = stack.size
    if size is None or case.statement(size) is None or case.facts is None:
        return
    over = [fit.needs - fit.has for fit in case.facts.fits if fit.needs is not None and fit.has is not None]
    lacking = max((gap for gap in over if gap > 0), default=0.0)
    if lacking == 0.0:
        return
    widest = size.width.si - lacking
    exact = usual.size(widest, size.width, case.system, up=False)
    yield _as_wide(case, stack, exact)
    for metres, text in _widths(case, stack, larger=False):
        if metres <= widest + 1e-6 and text != exact:
            yield _as_wide(case, stack, text)


def _as_wide(case: Case, stack: Stack, text: str) -> Option:
    """The stack ``text`` wide, and the stickers as long where the plan says how long they are."""
    assert stack.size is not None
    changes = [replaced(stack.size.width.where, text)]
    stickers = stack.stickers
    said = f"Build the stack {text} wide"
    if stickers is not None and stickers.length is not None and case.statement(stickers) is not None:
        changes.append(replaced(stickers.length.where, text))
        said += ", with stickers as long"
    return Option(tuple(changes), said)


def _widths(case: Case, stack: Stack, *, larger: bool) -> list[tuple[float, str]]:
    """Widths by half a foot (by 150 mm), the nearest first."""
    assert stack.size is not None
    like = stack.size.width
    system = usual.system_of(like, case.system)
    step, unit = (6.0, ONE_INCH) if system is System.INCH else (150.0, 0.001)
    now = like.si / unit / step
    first = int(now + 1e-6) + 1 if larger else int(now - 1e-6)
    steps = range(first, first + 12) if larger else range(first, max(first - 12, 1), -1)
    return [(count * step * unit, usual.size(count * step * unit, like, system)) for count in steps]
