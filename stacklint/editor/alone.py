"""A stack by itself: its text with what it leans on, in the place where it stands, so that it is checked quickly."""

from __future__ import annotations

from collections.abc import Iterator

from stacklint.editor.names import Laid
from stacklint.editor.outline import NameKind, Outline, Role, Section, mentions
from stacklint.language.statements import BlockKind

_STACKS = frozenset({BlockKind.PILE, BlockKind.CHARGE})


def alone(own: Laid, section: Section) -> str:
    """The text with the other stacks blanked out, but for the piles that the stack's boards come from and the charges
    that they go to. Lines keep their numbers."""
    kept = _with_kin(own.outline, section)
    lines = own.text.split("\n")
    for other in own.outline.sections:
        if other.kind in _STACKS and all(other is not each for each in kept):
            for number in range(other.where.line, other.where.end_line + 1):
                lines[number - 1] = ""
    return "\n".join(lines)


def _with_kin(laid: Outline, section: Section) -> tuple[Section, ...]:
    """The stack, what it takes boards from, and what takes boards from it."""
    return (section, *(other for other in laid.sections if _feeds(other, section) or _feeds(section, other)))


def _feeds(pile: Section, charge: Section) -> bool:
    """The charge takes boards from the pile."""
    names = {name.casefold() for name in _drawn(charge)}
    return pile.kind is BlockKind.PILE and pile.name.casefold() in names


def _drawn(charge: Section) -> Iterator[str]:
    for mention in mentions(Outline((), (charge,))):
        if mention.kind is NameKind.PILE and mention.role is Role.USES:
            yield mention.name
