"""Parses one logical line by the grammar of the plan language.

A line is parsed whole. If that fails it is parsed again part by part, the parts being what its commas
separate, so that each faulty part is reported at its own place and the others keep their meaning.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, cast

from lark import Lark, Tree, UnexpectedToken
from lark.lexer import Lexer, LexerState, PatternStr, TerminalDef

from stacklint.grammars import Grammar, parser
from stacklint.language.scan import Token

Branch = Tree[Token]
"""A statement's head or one of its details; the children are tokens and smaller branches."""


@dataclass(frozen=True, slots=True)
class Refusal:
    """A token that the grammar has no room for, and the terminals that it has room for.

    ``token`` is ``None`` where the line ended too soon. ``before`` and ``after`` are its neighbours.
    """

    token: Token | None
    expected: frozenset[str]
    before: Token | None
    after: Token | None


@dataclass(frozen=True, slots=True)
class Part:
    """What stands between two commas: its tokens and either what it says or why it cannot be read."""

    tokens: tuple[Token, ...]
    said: Branch | Refusal


def parse(tokens: list[Token]) -> list[Branch] | None:
    """The head and the details of a line, or ``None`` if any of it cannot be read."""
    try:
        line = _parser().parse(tokens)
    except UnexpectedToken:
        return None
    return [cast(Branch, child) for child in line.children if type(child) is Tree]


def parse_parts(tokens: list[Token]) -> list[Part]:
    """The parts of a line, each parsed by itself: the head, then the details with the comma before each."""
    return [parse_part(part) for part in _at_commas(tokens)]


def parse_part(tokens: tuple[Token, ...]) -> Part:
    """One part of a line: a detail if it begins with a comma, otherwise a head."""
    try:
        return Part(tokens, cast(Branch, _parser().parse(tokens).children[-1]))
    except UnexpectedToken as error:
        return Part(tokens, _refusal(tokens, error))


def _refusal(tokens: tuple[Token, ...], error: UnexpectedToken) -> Refusal:
    expected = frozenset(error.expected) - {"$END"}
    token = error.token if isinstance(error.token, Token) else None
    if token is None:
        return Refusal(None, expected, tokens[-1] if tokens else None, None)
    index = tokens.index(token)
    return Refusal(
        token,
        expected,
        tokens[index - 1] if index else None,
        tokens[index + 1] if index + 1 < len(tokens) else None,
    )


def _at_commas(tokens: list[Token]) -> Iterator[tuple[Token, ...]]:
    start = 0
    for index, token in enumerate(tokens):
        if token.type == "COMMA" and index:
            yield tuple(tokens[start:index])
            start = index
    yield tuple(tokens[start:])


@functools.cache
def keywords() -> Mapping[str, tuple[str, ...]]:
    """The words of the grammar in lower case, each with the terminals that it could be."""
    found: dict[str, tuple[str, ...]] = {}
    for terminal in _parser().terminals:
        for word in _words(terminal):
            found[word] = (*found.get(word, ()), terminal.name)
    return MappingProxyType(found)


def _words(terminal: TerminalDef) -> list[str]:
    if isinstance(terminal.pattern, PatternStr):
        return [terminal.pattern.value]
    return [re.sub(r"\\(.)", r"\1", word) for word in terminal.pattern.value.removeprefix("(?:")[:-1].split("|")]


class _Chooser(Lexer):
    """Hands tokens to the parser, and lets the parser's state decide whether a word is a keyword."""

    def __init__(self, conf: Any) -> None:
        """The parser hands in its lexer configuration, of which nothing is needed here."""

    __future_interface__ = 1

    def lex(self, lexer_state: LexerState, parser_state: Any) -> Iterator[Any]:
        states = parser_state.parse_conf.states
        stack = parser_state.state_stack
        tokens: Any = lexer_state.text
        for token in tokens:
            if token.could_be:
                accepted = states[stack[-1]]
                for keyword in token.could_be:
                    if keyword in accepted:
                        token.type = keyword
                        break
                else:
                    token.type = "WORD"
            yield token


GRAMMAR = Grammar("plan", start="line", lexer=_Chooser, keep_all_tokens=True)


@functools.cache
def _parser() -> Lark:
    return parser(GRAMMAR)
