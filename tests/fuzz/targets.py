"""The fuzz targets by name."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from importlib import import_module
from typing import NamedTuple

NAMES = ("plan", "check", "rules", "tally", "editor")


class Target(NamedTuple):
    """Something that takes any bytes.

    ``examine`` raises if what it finds breaks a promise; ``seeds`` are sound inputs to begin with; ``words`` are what
    inputs are made of.
    """

    name: str
    examine: Callable[[bytes], None]
    seeds: Callable[[], Iterator[bytes]]
    words: Callable[[], tuple[str, ...]]


def target(name: str) -> Target:
    """The target of one of :data:`NAMES`."""
    module = import_module(f"fuzz.{name}_target")
    return Target(name, module.examine, module.seeds, module.words)
