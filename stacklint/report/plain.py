"""Text from a plan made safe to print: nothing in it can steer a terminal, hide, or break a line."""

from __future__ import annotations

import re

_UNSEEN = re.compile(
    "[\u034f\u115f\u1160\u17b4\u17b5\u180b-\u180d\u180f\u2800\u3164\ufe00-\ufe0d\uffa0\U000e0100-\U000e01ef]"
)
"""Letters and marks of which nothing is seen: those that Unicode calls ``Default_Ignorable_Code_Point`` and counts
among the printable ones (Unicode Standard, ``DerivedCoreProperties.txt``; memory), and the empty Braille cell.
The two selectors U+FE0E and U+FE0F may stay: they tell pictures from signs."""


def plain(text: str) -> str:
    """``text`` on one line, with every character that is not printable written out as an escape.

    Escaped are the C0 and C1 controls (ECMA-48), so that no escape sequence reaches a terminal, and
    the characters that reorder or hide text (the format characters of the Unicode Standard, bidirectional
    controls among them, and letters that show nothing). Any blank becomes a space.
    """
    if text.isascii() and text.isprintable():
        return text
    if not text.isprintable():
        text = "".join(map(_safe, text))
    return _UNSEEN.sub(lambda found: _escaped(found[0]), text)


def _safe(character: str) -> str:
    if character.isprintable():
        return character
    if character.isspace():
        return " "
    return _escaped(character)


def _escaped(character: str) -> str:
    return character.encode("unicode_escape").decode("ascii")
