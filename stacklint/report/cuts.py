"""What a cut list is made of."""

from __future__ import annotations

from typing import NamedTuple


class Cut(NamedTuple):
    """So many parts alike. ``number`` is ``None`` where it is one thing, or so much by area or weight."""

    part: str
    number: int | None
    length: str
    section: str
    remark: str = ""
