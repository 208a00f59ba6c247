"""Proposals for what shelters a stack and holds it down: cover, sides, ends, top load."""

from __future__ import annotations

from collections.abc import Iterator

from stacklint.changes import Change
from stacklint.language import choices
from stacklint.language.written import amount, figure
from stacklint.mending import usual
from stacklint.mending.case import Case, Ladder, Option, Proposal
from stacklint.mending.edits import added_detail, added_statement, dropped_detail, replaced
from stacklint.mending.written import Statement
from stacklint.plan.node import Quantity
from stacklint.plan.shelter import Cover, CoverKind, EndCoat
from stacklint.plan.stack import Stack
from stacklint.units import System, Unit

_SLOPES = ("1 in 24", "1 in 20", "1 in 16", "1 in 12")
_TOP_LOADS = {
    Unit.PSF: (30, 40, 50, 60, 80),
    Unit.KILOPASCAL: (1.5, 2, 2.5, 3, 4),
    Unit.KILOGRAM_PER_SQUARE_METRE: (150, 200, 250, 300, 400),
}
_WEIGHTS = tuple(range(100, 20_100, 100))


def covered(case: Case, stack: Stack) -> Iterator[Proposal]:
    """A sheet metal cover that stands out as published, or further where it must."""
    block = case.block
    if block is None:
        return
    statement = case.statement(stack.cover)
    if stack.cover is not None and (statement is None or stack.cover.kind is not CoverKind.NONE):
        return
    inches = case.system is System.INCH
    gap = "4 in" if inches else "100 mm"
    published = "overhang 12 in ends, 6 in sides" if inches else "overhang 300 mm ends, 150 mm sides"
    least = Quantity(number=12, unit=Unit.INCH) if inches else Quantity(number=300, unit=Unit.MILLIMETRE)
    alike = (f"overhang {text}" for text in usual.larger(usual.OVERHANGS, least, case.system))
    for said in (published, *alike):
        text = f"cover sheet metal, {said}, gap {gap}, slope 1 in 12, tied"
        change = (
            replaced(statement.where, text)
            if statement is not None
            else added_statement(case.source, block, "cover", text)
        )
        yield Option((change,), f"Cover it with sheet metal, {said}, sloped and tied down")


def overhang(case: Case, stack: Stack) -> Iterator[Proposal]:
    """The cover standing out further, at the ends and at the sides each by as much as it must."""
    cover = stack.cover
    statement = case.statement(cover)
    if cover is None or statement is None:
        return
    ends = _rungs(case, cover.overhang_ends)
    sides = _rungs(case, cover.overhang_sides)

    def at(up: tuple[int, ...]) -> Option:
        text = _overhang(ends[up[0]], sides[up[1]])
        return Option(_overhung(statement, text), f"Let the cover stand out further: {text}")

    yield Ladder((len(ends) - 1, len(sides) - 1), at)


def _rungs(case: Case, now: Quantity | None) -> tuple[str, ...]:
    first = amount(now) if now is not None else "0 in" if case.system is System.INCH else "0 mm"
    return (first, *usual.larger(usual.OVERHANGS, now, case.system))


def _overhang(ends: str, sides: str) -> str:
    return f"overhang {ends}" if ends == sides else f"overhang {ends} ends, {sides} sides"


def _overhung(statement: Statement, text: str) -> tuple[Change, ...]:
    """``text`` in place of what the statement says of its overhang."""
    said = [detail for detail in statement.details if detail.kind in ("overhang", "overhang_ends", "overhang_sides")]
    if not said:
        return (added_detail(statement, text),)
    first, *others = said
    changes = [replaced(first.where, text)]
    for other in others:
        changes += dropped_detail(statement, other)
    return tuple(changes)


def gap(case: Case, stack: Stack) -> Iterator[Proposal]:
    cover = stack.cover
    statement = case.statement(cover)
    if cover is None or statement is None:
        return
    for text in usual.larger(usual.COVER_GAPS, cover.gap, case.system):
        change = replaced(cover.gap.where, text) if cover.gap is not None else added_detail(statement, f"gap {text}")
        yield Option((change,), f"Raise the cover {text} above the top course")


def slope(case: Case, stack: Stack) -> Iterator[Proposal]:
    statement = case.statement(stack.cover)
    if statement is None:
        return
    detail = statement.detail("slope")
    for text in _SLOPES:
        said = f"slope {text}"
        change = replaced(detail.where, said) if detail is not None else added_detail(statement, said)
        yield Option((change,), f"Give the cover a slope of {text}")


def tied(case: Case, stack: Stack) -> Iterator[Proposal]:
    cover = stack.cover
    statement = case.statement(cover)
    if not isinstance(cover, Cover) or statement is None:
        return
    for detail in statement.details:
        said = choices.COVER.get(detail.words, ())
        if detail.kind == "weighted" or (said and said[0][0] == "fastening"):
            yield Option((replaced(detail.where, "tied"),), "Tie the cover down")
            return
    yield Option((added_detail(statement, "tied"),), "Tie the cover down")


def opened(case: Case, stack: Stack) -> Iterator[Proposal]:
    """The sides left open, the cover no longer hanging down them, or both."""
    sides = case.statement(stack.sides)
    cover = case.statement(stack.cover)
    changes: list[tuple[tuple[Change, ...], str]] = []
    kind = next((each for each in sides.details if each.words in choices.SIDES), None) if sides is not None else None
    if kind is not None:
        changes.append(((replaced(kind.where, "open"),), "Leave the sides open"))
    hanging = cover.worded("hanging down", "hanging") if cover is not None else None
    if cover is not None and hanging is not None:
        changes.append((dropped_detail(cover, hanging), "Let the cover end above the sides"))
    for one, said in changes:
        yield Option(one, said)
    if len(changes) == 2:
        yield Option((*changes[0][0], *changes[1][0]), "Leave the sides open, and let the cover end above them")


def shaded(case: Case, stack: Stack) -> Iterator[Proposal]:
    """Shade cloth at the sides of a stack that has nothing there."""
    block = case.block
    if stack.sides is None and block is not None and not block.all("sides"):
        change = added_statement(case.source, block, "sides", "sides shade cloth")
        yield Option((change,), "Hang shade cloth on the sides")
        return
    statement = case.statement(stack.sides)
    detail = statement.worded("open", "none") if statement is not None else None
    if detail is not None:
        yield Option((replaced(detail.where, "shade cloth"),), "Hang shade cloth on the sides")


def coated(case: Case, stack: Stack) -> Iterator[Proposal]:
    """Ends coated fresh: only while the boards are still to be sawn or stacked."""
    block = case.block
    if block is None or stack.readings or _built(case, stack):
        return
    statement = case.statement(stack.ends)
    if stack.ends is None:
        if not block.all("ends"):
            yield Option((added_statement(case.source, block, "ends", "ends coated"),), "Coat the fresh ends")
        return
    if statement is None or stack.ends.coat is EndCoat.COATED or len(statement.details) != 1:
        return
    yield Option((replaced(statement.details[0].where, "coated"),), "Coat the ends while they are fresh")


def _built(case: Case, stack: Stack) -> bool:
    day = stack.sawn or stack.stacked
    return day is not None and day.date < case.today


def top_load(case: Case, stack: Stack) -> Iterator[Proposal]:
    """More weight on the top course, in the writer's unit."""
    block = case.block
    said = stack.top_load
    statement = case.statement(said)
    if block is None:
        return
    if said is None:
        if not block.all("top load"):
            unit = Unit.PSF if case.system is System.INCH else Unit.KILOPASCAL
            for number in _TOP_LOADS[unit]:
                text = f"{figure(number)} {unit.symbol}"
                change = added_statement(case.source, block, "top load", f"top load {text}")
                yield Option((change,), f"Lay {text} on top")
        return
    if statement is None or len(statement.details) != 1:
        return
    now = said.pressure
    if said.weight is not None:
        yield from _heavier(said.weight)
        return
    unit = now.unit if now is not None and now.unit in _TOP_LOADS else Unit.PSF
    if now is None and case.system is not System.INCH:
        unit = Unit.KILOPASCAL
    for number in _TOP_LOADS[unit]:
        if now is None or unit.to_si(number) > now.si:
            text = f"{figure(number)} {unit.symbol}"
            yield Option((replaced(statement.details[0].where, text),), f"Lay {text} on top")


def _heavier(weight: Quantity) -> Iterator[Proposal]:
    texts = [f"{figure(number)} {weight.unit.symbol}" for number in _WEIGHTS if number > weight.number]
    if texts:
        yield Ladder(
            (len(texts),),
            lambda up: Option((replaced(weight.where, texts[up[0] - 1]),), f"Lay {texts[up[0] - 1]} on top"),
        )
