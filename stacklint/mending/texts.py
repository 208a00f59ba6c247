"""Proposals for what could not be read or accepted: only where one way of writing it is plainly meant."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from stacklint.changes import Change
from stacklint.language.written import amount, plain_words
from stacklint.mending.case import Case, Only, Option
from stacklint.mending.edits import dropped_statement, replaced
from stacklint.mending.splitting import free_name
from stacklint.plan.node import Quantity
from stacklint.units import System, Unit
from stacklint.where import Where

_ONE_WAY = re.compile(r"Write ([^.:]+(?:\.[^ .:]+)*)\.")
_OR = re.compile(r", or | or |, ")
_QUOTED = re.compile(r'"[^"]*"')
_LETTERS_AN_EDIT = 3
"""To be plainly meant, a word has at the most one letter in three wrong (common practice, no source)."""
_MOST_EDITS = 2
_UNITS = {
    System.INCH: (Unit.INCH, Unit.FOOT),
    System.METRIC: (Unit.MILLIMETRE, Unit.CENTIMETRE, Unit.METRE),
}


def meant(case: Case) -> Iterator[Option]:
    """What the finding's own advice makes plain."""
    finding, source = case.finding, case.source
    where, instead = finding.where, finding.instead
    if where.path != source.path:
        return
    said = source.said(where)
    if instead == "Take the comma out." and said == ",":
        yield Option((replaced(where, ""),), "Take the comma out")
    elif instead.startswith("Keep one of the two"):
        yield from _said_twice(case)
    else:
        way = _plainly_meant(said, instead)
        if way is not None:
            yield Option((replaced(where, way),), f"Write {way}")
        elif said and where.column > 1 and ("Put a comma" in instead or "does not belong here" in finding.message):
            yield _comma_before(case, where)


def _comma_before(case: Case, where: Where) -> Option:
    """Details that nothing parts, parted by a comma right behind the first."""
    before = case.source.lines[where.line - 1][: where.column - 1]
    column = len(before.rstrip()) + 1
    at = Where(where.path, where.line, column, where.line, column)
    comma = "," if column < where.column else ", "
    return Option((Change(at, comma),), f"Put a comma before {case.source.said(where)}")


def _said_twice(case: Case) -> Iterator[Option]:
    """A statement that stands twice in the same words is kept once."""
    statement = case.source.statement(case.finding.where)
    if statement is None or statement.where != case.finding.where:
        return
    said = case.source.said(statement.where)
    block = next(each for each in case.source.blocks if statement in each.statements)
    others = [each for each in block.all(statement.keyword) if each != statement]
    if said and any(" ".join(case.source.said(each.where).split()) == " ".join(said.split()) for each in others):
        yield Option((dropped_statement(case.source, statement),), f"Say {statement.keyword} once")


def _plainly_meant(said: str, instead: str) -> str | None:
    """The one way that the advice names and that is near to what stands there; nearer than any other way."""
    ways = _ways(instead)
    if not said or not ways:
        return None
    bare = said.strip('"“”').lower()
    measured = sorted((edits(bare, way.strip('"').lower()), way) for way in ways)
    nearest, way = measured[0]
    allowed = min(_MOST_EDITS, max(1, len(bare) // _LETTERS_AN_EDIT))
    if not 0 < nearest <= allowed or (len(measured) > 1 and measured[1][0] == nearest):
        return None
    return way if said[:1] in '"“' or way.startswith('"') else plain_words(way) if " " in way else way


def _ways(instead: str) -> tuple[str, ...]:
    """The ways of writing that the first sentence of an advice names."""
    quoted = tuple(_QUOTED.findall(instead))
    if quoted:
        return quoted
    match = _ONE_WAY.match(instead)
    if match is None:
        return ()
    return tuple(way for way in _OR.split(match[1]) if way and "block" not in way)


def edits(one: str, other: str) -> int:
    """Letters put in, left out, taken for others, or two next to one another changed round, to make one of the other.

    The optimal string alignment distance (Damerau 1964 names these four slips of the pen).
    """
    rows = [list(range(len(other) + 1))]
    for i, letter in enumerate(one, 1):
        row = [i]
        for j, against in enumerate(other, 1):
            least = min(rows[-1][j] + 1, row[-1] + 1, rows[-1][j - 1] + (letter != against))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == against:
                least = min(least, rows[-2][j - 2] + 1)
            row.append(least)
        rows.append(row)
    return rows[-1][-1]


def another_unit(case: Case) -> Iterator[Only]:
    """A length in the one other unit of its system in which it can be."""
    where = case.finding.where
    said = case.source.said(where)
    quantity = _length_said(said)
    if quantity is None:
        return
    system = quantity.unit.system
    assert system is not None
    texts = [
        amount(Quantity(number=quantity.number, unit=unit)) for unit in _UNITS[system] if unit is not quantity.unit
    ]
    yield Only(
        tuple(Option((replaced(where, text),), f"Write {text}, the only other unit that can be") for text in texts)
    )


def _length_said(said: str) -> Quantity | None:
    from stacklint.language.parse import keywords
    from stacklint.language.scan import scan

    tokens = scan(said, keywords())
    if len(tokens) != 1 or tokens[0].type != "LENGTH" or tokens[0].unit is None:
        return None
    unit = tokens[0].unit.unit
    known = unit in _UNITS.get(unit.system, ()) if unit.system is not None else False
    return Quantity(number=tokens[0].number, unit=unit) if known else None


def another_name(case: Case) -> Iterator[Option]:
    """A number behind the second of two names."""
    where = case.finding.where
    said = case.source.said(where)
    if len(said) < 3 or where.path != case.source.path:
        return
    name = free_name(said[1:-1], _names(case))
    yield Option((replaced(where, f"{said[0]}{name}{said[-1]}"),), f'Call the second one "{name}"')


def _names(case: Case) -> set[str]:
    stacks: Iterable[str] = (checked.stack.name.text for checked in case.checked.stacks)
    return {name.casefold() for name in stacks}


def waiver_out(case: Case) -> Iterator[Option]:
    """A waiver that silences nothing taken out; one of a rule that there is not, if one name is plainly meant."""
    yield from meant_rule(case)
    statement = case.source.statement(case.finding.where)
    if statement is not None and statement.keyword == "waive" and "No rule is called" not in case.finding.message:
        yield Option((dropped_statement(case.source, statement),), "Take the waiver out")


def old_waiver_out(case: Case) -> Iterator[Option]:
    """A waiver that has run out taken out, once what it was for is no longer found."""
    said = case.finding.message.split()
    if not any(each.rule in said and each.stack == case.finding.stack for each in case.checked.findings):
        yield from waiver_out(case)


def meant_rule(case: Case) -> Iterator[Option]:
    _, _, near = case.finding.instead.partition("The nearest rule is ")
    statement = case.source.statement(case.finding.where)
    if not near or statement is None:
        return
    near = near.rstrip(".")
    said = case.source.said(statement.where)
    word = said.split()[1] if len(said.split()) > 1 else ""
    if word and 0 < edits(word.lower(), near) <= _MOST_EDITS:
        column = statement.where.column + said.index(word)
        where = Where(statement.where.path, statement.where.line, column, statement.where.line, column + len(word))
        yield Option((replaced(where, near),), f"Name the rule {near}")
