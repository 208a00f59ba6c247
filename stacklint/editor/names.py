"""Where sites, kilns and piles are defined, and what a new name for one of them changes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from stacklint.changes import Change
from stacklint.editor.outline import Mention, NameKind, Outline, Role, mentions, outline, uses
from stacklint.editor.positions import Spot
from stacklint.language import UsedText, UseRefused, UseText
from stacklint.where import Where

_MOST_FILES = 200
"""Files that one text may bring in, one by way of another; more is a slip, and an editor waits for the answer."""


class Laid(NamedTuple):
    """A text with its outline."""

    path: str
    text: str
    outline: Outline


class Renamed(NamedTuple):
    """The changes of a new name in every text that it stands in, or why it cannot be given."""

    changes: tuple[Change, ...] = ()
    refused: str | None = None


def laid(text: str, path: str) -> Laid:
    return Laid(path, text, outline(text, path))


def with_used(own: Laid, use: UseText | None) -> Iterator[Laid]:
    """A text and those that it uses, one by way of another, each once."""
    waiting, seen = [own], {own.path}
    while waiting:
        here = waiting.pop(0)
        yield here
        for name, _ in uses(here.outline) if use is not None else ():
            found = use(name, here.path) if use is not None else None
            if isinstance(found, UsedText) and found.path not in seen and len(seen) < _MOST_FILES:
                seen.add(found.path)
                waiting.append(laid(found.text, found.path))


def mention_at(own: Laid, spot: Spot) -> Mention | None:
    """The name of a site, kiln or pile that a place stands in."""
    return next((mention for mention in mentions(own.outline) if holds(mention.where, spot)), None)


def holds(where: Where, spot: Spot) -> bool:
    """A place lies in a stretch or at one of its ends."""
    start, end = (where.line, where.column), (where.end_line, where.end_column)
    return start <= (spot.line, spot.column) <= end


def definition(own: Laid, spot: Spot, use: UseText | None) -> Where | None:
    """Where what is named at a place is defined: a site, kiln or pile, or the file that a ``use`` names."""
    wanted = mention_at(own, spot)
    if wanted is None:
        return _used_file(own, spot, use)
    for text in with_used(own, use):
        for mention in mentions(text.outline):
            if mention.role is Role.GIVES and mention.same(wanted):
                return mention.where
    return None


def given(own: Laid, kind: NameKind, use: UseText | None) -> tuple[str, ...]:
    """The names that blocks of a kind bear in a text and those that it uses."""
    found = (
        mention.name
        for text in with_used(own, use)
        for mention in mentions(text.outline)
        if mention.kind is kind and mention.role is Role.GIVES and mention.name
    )
    return tuple(dict.fromkeys(found))


def renamed(own: Laid, spot: Spot, name: str, use: UseText | None, others: tuple[Laid, ...] = ()) -> Renamed | None:
    """The changes that give what is named at a place a new name, in its text and those that it uses.

    ``others`` are further texts that are open: those that use the file where the name is given change too.
    ``None`` where no site, kiln or pile is named.
    """
    wanted = mention_at(own, spot)
    if wanted is None:
        return None
    name = " ".join(name.split())
    if not name or any(character in '"“”' or not character.isprintable() for character in name):
        return Renamed(refused="A name is one or more words without quotation marks.")
    texts = list(with_used(own, use))
    giving = {text.path for text in texts if _gives(text, wanted)}
    for other in others:
        brought = list(with_used(other, use))
        if any(text.path in giving for text in brought):
            texts += [text for text in brought if all(text.path != known.path for known in texts)]
    new = wanted._replace(name=name)
    if not new.same(wanted) and any(_gives(text, new) for text in texts):
        return Renamed(refused=f'There is a {wanted.kind.value} "{name}" already.')
    found = (mention for text in texts for mention in mentions(text.outline) if mention.same(wanted))
    return Renamed(tuple(Change(mention.inside, name) for mention in found))


def _gives(text: Laid, wanted: Mention) -> bool:
    return any(each.role is Role.GIVES and each.same(wanted) for each in mentions(text.outline))


def _used_file(own: Laid, spot: Spot, use: UseText | None) -> Where | None:
    for name, where in uses(own.outline):
        if use is not None and holds(where, spot):
            found = use(name, own.path)
            return None if isinstance(found, UseRefused) else Where(found.path, 1, 1, 1, 1)
    return None
