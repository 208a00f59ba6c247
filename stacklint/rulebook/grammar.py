"""The grammar of expressions, and its faults in a writer's words."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from stacklint.grammars import Grammar, parser
from stacklint.rulebook.written import Refused, Written
from stacklint.units import Unit

if TYPE_CHECKING:
    from lark import Lark, Token, Tree
    from lark.exceptions import UnexpectedInput

GRAMMAR = Grammar("expressions", start="expression", lexer="basic")
QUANTIFIERS = frozenset({"any", "all", "count", "largest", "smallest"})
RESERVED = QUANTIFIERS | {"and", "or", "not", "if", "else", "in", "is", "known", "unknown"}
_NUMBER_BEFORE = re.compile(r"\d\s*\Z")
_WORD = re.compile(r"[^\s()\"',]+")


@cache
def _parser() -> Lark:
    return parser(GRAMMAR)


def parse(written: Written) -> Tree[Token]:
    """The tree of an expression.

    Raises:
        Refused: if it is none.
    """
    from lark.exceptions import UnexpectedInput

    # Lines of one clause are joined by line ends, which mean no more than blanks inside an expression.
    try:
        return _parser().parse(written.text.replace("\n", " "))
    except UnexpectedInput as unexpected:
        raise _refusal(written, unexpected) from None


def _refusal(written: Written, unexpected: UnexpectedInput) -> Refused:
    from lark.exceptions import UnexpectedToken

    text = written.text
    if isinstance(unexpected, UnexpectedToken) and unexpected.token.type == "$END":
        instead = "Add a fact, a limit or a quantity." if text else "Write an expression."
        if text.count("(") > text.count(")"):
            instead = "Close the parenthesis, or add what is missing."
        return written.refuse("The expression ends too soon.", instead, max(len(text) - 1, 0))
    start = unexpected.pos_in_stream or 0
    word = _WORD.match(text, start)
    end = word.end() if word else start + 1
    found = text[start:end]
    if text[start] in "\"'" and text.count(text[start]) % 2:
        return written.refuse("A text is not closed.", f"End it with {text[start]} on its own line.", start)
    if _NUMBER_BEFORE.search(text[:start]) and (found[0].isalpha() or found[0] in "%/"):
        return written.refuse(f"There is no unit {found}.", f"The units are {unit_symbols()}.", start, end)
    if found.startswith("="):
        return written.refuse(f"{found} is not expected here.", "Write a single =.", start, end)
    expects = unexpected.accepts if isinstance(unexpected, UnexpectedToken) else unexpected.allowed  # type: ignore[attr-defined]
    instead = (
        "Write a fact, a limit, a quantity or a text here."
        if "NAME" in (expects or ())
        else "Join the parts with and, or, a comparison or a sign, or end the clause."
    )
    return written.refuse(f"{found} is not expected here.", instead, start, end)


def unit_symbols() -> str:
    """The units of the rule language, in words."""
    return ", ".join(unit.symbol for unit in Unit if unit is not Unit.QUARTER)
