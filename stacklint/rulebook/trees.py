"""Reading the trees of the expression grammar."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

if TYPE_CHECKING:
    from lark import Token, Tree


def token(tree: Tree[Token], index: int) -> Token:
    return cast("Token", tree.children[index])


def branch(tree: Tree[Token], index: int) -> Tree[Token]:
    return cast("Tree[Token]", tree.children[index])


def chain(tree: Tree[Token]) -> list[Tree[Token]]:
    """The parts of a chain of one word, such as and, or of a list: the grammar nests them to the left."""
    parts: list[Tree[Token]] = []
    node = tree
    while node.data == tree.data:
        parts.append(branch(node, -1))
        if len(node.children) == 1:
            return parts[::-1]
        node = branch(node, 0)
    parts.append(node)
    return parts[::-1]


def token_extent(token: Token) -> tuple[int, int]:
    start = token.start_pos or 0
    return start, start + len(token)


def extent(tree: Tree[Token]) -> tuple[int, int]:
    """From the first token of a tree to its last; parentheses and words without a token are not counted."""
    start, end = _edge(tree, 0), _edge(tree, -1)
    return start.start_pos or 0, (end.start_pos or 0) + len(end)


def _edge(tree: Tree[Token], index: int) -> Token:
    node: Tree[Token] | Token = tree
    while not isinstance(node, str):
        node = node.children[index]
    return node
