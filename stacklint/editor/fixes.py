"""Names that come near to one that a finding says is unknown."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from stacklint.changes import Change
from stacklint.editor.findings import Told
from stacklint.editor.names import Laid, given
from stacklint.editor.outline import NameKind, Said
from stacklint.editor.positions import Page
from stacklint.faults import FaultKind
from stacklint.language import UseText
from stacklint.language.choices import PLACES
from stacklint.language.nearest import nearest
from stacklint.language.statements import BlockKind
from stacklint.rulebook import RuleBook
from stacklint.tables import places, woods
from stacklint.where import Where

_MOST = 3
"""So many near names are offered."""


class Fix(NamedTuple):
    """A change that may clear a finding. ``surest`` if it was checked to, or is the only one that there is."""

    title: str
    changes: tuple[Change, ...]
    told: Told
    surest: bool = False


def near_names(page: Page, own: Laid, told: Told, book: RuleBook, use: UseText | None) -> tuple[Fix, ...]:
    """The names nearest to one that a finding says is unknown: of a species, a place, a kiln, a keyword, a rule."""
    if told.elsewhere is not None:
        return ()
    written = page.written(told.where)
    said = next((one for one in own.outline.all if _within(told.where, one.where)), None)
    if not written or said is None:
        return ()
    found = tuple(dict.fromkeys(_near(written, said, own, told, book, use)))[:_MOST]
    return tuple(Fix(f"Write {name}", (Change(where, name),), told, len(found) == 1) for where, name in found)


def _within(inner: Where, outer: Where) -> bool:
    return outer[1:3] <= inner[1:3] and inner[3:] <= outer[3:]


def _near(
    written: str, said: Said, own: Laid, told: Told, book: RuleBook, use: UseText | None
) -> Iterator[tuple[Where, str]]:
    where = told.where
    match told.rule:
        case FaultKind.UNKNOWN_SPECIES.value:
            described = [each.name for each in own.outline.sections if each.kind is BlockKind.WOOD]
            yield from ((where, name) for name in nearest(written, described, _MOST))
            yield from ((where, name) for name in woods.nearest(written, _MOST))
        case FaultKind.UNKNOWN_PLACE.value if not written.startswith(('"', "“")):
            yield from ((where, name) for name in nearest(written, PLACES, _MOST))
        case FaultKind.UNKNOWN_PLACE.value if said.statement is not None and said.statement.keyword == "near":
            yield from ((where, f'"{name}"') for name in places.nearest(written[1:-1], _MOST))
        case FaultKind.UNKNOWN_PLACE.value:
            yield from ((where, name) for name in _given(written, own, NameKind.SITE, use))
        case FaultKind.UNKNOWN_KILN.value:
            yield from ((where, name) for name in _given(written, own, NameKind.KILN, use))
        case FaultKind.PLAN_TEXT.value if "FROM" in said.tokens[0].could_be and written.startswith(('"', "“")):
            yield from ((where, name) for name in _given(written, own, NameKind.PILE, use))
        case FaultKind.PLAN_TEXT.value:
            yield from ((where, word) for word in _told_words(written, told.message))
        case _ if said.statement is not None and said.statement.keyword == "waive" and len(said.tokens) > 1:
            rule = said.tokens[1]
            near = book.nearest(rule.text)
            if near is not None and not book.knows(rule.text):
                yield said.at(rule), near


def _given(written: str, own: Laid, kind: NameKind, use: UseText | None) -> list[str]:
    names = {name.lower(): name for name in given(own, kind, use)}
    return [f'"{names[name]}"' for name in nearest(written[1:-1], names, _MOST)]


def _told_words(written: str, message: str) -> tuple[str, ...]:
    """The words that a fault of the text itself says to write, if they are like the one that stands there."""
    _, says, rest = message.rpartition(" Write ")
    if not says or not rest.endswith(".") or " ".join(written.split()) != written:
        return ()
    words = rest[:-1].replace(" or ", ", ").split(", ")
    return nearest(written, {word.lower(): word for word in words}, _MOST)
