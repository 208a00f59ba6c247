"""Finds the package's text data: the grammars, the rule book, and the examples of the rules.

An installed wheel carries ``grammar``, ``rules`` and ``cases`` inside the package. In a checkout the first two stand
beside it, and the cases are the plans that the rules are tested with; there an editable install finds them.
"""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable


_BESIDE = MappingProxyType({"grammar": "grammar", "rules": "rules", "cases": "tests/rules"})


def folder(name: str) -> Traversable:
    """The data folder ``name`` (``grammar``, ``rules`` or ``cases``).

    Raises:
        FileNotFoundError: if the installation lacks it.
    """
    inside = files("stacklint") / name
    if inside.is_dir():
        return inside
    beside = Path(str(files("stacklint"))).parent / _BESIDE[name]
    if beside.is_dir():
        return beside
    raise FileNotFoundError(f"this installation of stacklint lacks its folder {name}; install it again")
