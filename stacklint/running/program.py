"""What the program itself is: its code, tables, rules and grammars, and the libraries that it leans on."""

from __future__ import annotations

import hashlib
import sys
from collections.abc import Iterator
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from importlib.resources import files
from typing import TYPE_CHECKING

from stacklint import __version__
from stacklint.data import folder

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

_LIBRARIES = ("jinja2", "lark", "pydantic", "rich")
_MADE = frozenset({"__pycache__"})


@cache
def program_digest() -> str:
    """The same for two installations that find the same in every plan: by content, wherever and whenever installed."""
    digest = hashlib.sha256(f"{__version__} {sys.version_info[:3]} {[_version(name) for name in _LIBRARIES]}".encode())
    for root in (files("stacklint"), folder("grammar"), folder("rules")):
        for name, content in _contents(root, ""):
            digest.update(f"\0{name}\0{len(content)}\0".encode())
            digest.update(content)
    return digest.hexdigest()


def _contents(where: Traversable, above: str) -> Iterator[tuple[str, bytes]]:
    for each in sorted(where.iterdir(), key=lambda each: each.name):
        name = f"{above}/{each.name}"
        if each.is_dir():
            if each.name not in _MADE:
                yield from _contents(each, name)
        else:
            yield name, each.read_bytes()


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return ""
