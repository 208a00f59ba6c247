"""Text from a plan made safe to print: nothing in it can steer a terminal or break a line."""

from __future__ import annotations


def plain(text: str) -> str:
    """``text`` on one line, with every character that is not printable written out as an escape.

    Escaped are the C0 and C1 controls (ECMA-48), so that no escape sequence reaches a terminal, and
    the characters that reorder or hide text (the format characters of the Unicode Standard, bidirectional
    controls among them). Any blank becomes a space.
    """
    if text.isprintable():
        return text
    return "".join(map(_safe, text))


def _safe(character: str) -> str:
    if character.isprintable():
        return character
    if character.isspace():
        return " "
    return character.encode("unicode_escape").decode("ascii")
