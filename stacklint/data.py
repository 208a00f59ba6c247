"""Finds the package's text data: the grammars and the rule book.

An installed wheel carries ``grammar`` and ``rules`` inside the package. In a checkout they stand
beside it, which is where an editable install finds them.
"""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable


def folder(name: str) -> Traversable:
    """The data folder ``name`` (``grammar`` or ``rules``).

    Raises:
        FileNotFoundError: if the installation lacks it.
    """
    inside = files("stacklint") / name
    if inside.is_dir():
        return inside
    beside = Path(str(files("stacklint"))).parent / name
    if beside.is_dir():
        return beside
    raise FileNotFoundError(f"this installation of stacklint lacks its folder {name}; install it again")
