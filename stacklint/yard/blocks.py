"""Which sites and kilns of several texts are one.

Blocks of one name are one site or kiln if they are the same block (a used file's), if they lie in one folder, or if
they say the same. So each plan may carry its own copy, and two yards may each have a kiln that is called Box.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping

from stacklint.where import Where
from stacklint.yard.stands import Block

Key = tuple[str, int, str]
"""Tells a site or kiln from all others: path and line of the first block that describes it, and its name."""


def one_by_one(blocks: Iterable[Block]) -> Mapping[Where, Key]:
    """For each block, by its place, the key of the site or kiln that it describes."""
    distinct = sorted({block.where: block for block in blocks}.values(), key=lambda block: block.where)
    first: dict[tuple[str, str, str], Block] = {}
    one: dict[Where, Where] = {}
    for block in distinct:
        one[block.where] = block.where
        name = block.name.casefold()
        folder = os.path.dirname(block.where.path)  # noqa: PTH120 - the text of a path, not a file
        for alike in ((name, "folder", folder), (name, "words", block.words)):
            other = first.setdefault(alike, block)
            one[_root(one, block.where)] = _root(one, other.where)
    lowest: dict[Where, Where] = {}
    for block in distinct:
        lowest.setdefault(_root(one, block.where), block.where)
    names = {block.where: block.name.casefold() for block in distinct}
    return {where: _key(lowest[_root(one, where)], names[where]) for where in one}


def _root(one: Mapping[Where, Where], where: Where) -> Where:
    while one[where] != where:
        where = one[where]
    return where


def _key(where: Where, name: str) -> Key:
    return where.path, where.line, name
