"""The air of a charge: what of the fans' air goes between the courses, what goes round them, and how fast it is.

Air crosses the boards, from the one long side to the other. Openings and gaps share it by their areas: that takes them
for equally easy ways. A gap is the easier one, so the speed between the courses is at most what is computed here.
"""

from __future__ import annotations

from typing import NamedTuple


class Gaps(NamedTuple):
    """Open areas round a charge, m2: above it, past its ends, under it. 0 where a baffle closes one."""

    above: float
    ends: float
    under: float

    @property
    def total(self) -> float:
        return self.above + self.ends + self.under


class Room(NamedTuple):
    """A kiln's inside as the air meets it: ``length`` along the boards, ``height``, m."""

    length: float
    height: float


class Charge(NamedTuple):
    """A charge as the air meets it, m. ``under`` is the height below its lowest boards, ``bearers`` the length of that
    space that its bearers fill; ``top`` is the top of the highest boards over the floor."""

    length: float
    top: float
    under: float
    bearers: float


def open_area(courses: int, sticker_thickness: float, length: float, stickers: float) -> float:
    """Openings of one long side, m2: one as high as the stickers under each course, less what the stickers fill.

    ``stickers`` is the length (m) that the stickers of one course take. By definition: the fans' air is speed x
    openings.
    """
    return courses * sticker_thickness * max(length - stickers, 0.0)


def gaps(room: Room, charge: Charge, *, top: bool, ends: bool, floor: bool) -> Gaps:
    """The ways round a charge; ``top``, ``ends`` and ``floor`` say which of them baffles close."""
    above = max(room.height - charge.top, 0.0) * room.length
    beside = max(room.length - charge.length, 0.0) * charge.top
    below = charge.under * max(charge.length - charge.bearers, 0.0)
    return Gaps(0.0 if top else above, 0.0 if ends else beside, 0.0 if floor else below)


def bypass(openings: float, round_it: Gaps) -> float:
    """Share of the fans' air that goes round the charge."""
    whole = openings + round_it.total
    return round_it.total / whole if whole else 0.0


def speed(delivery: float, openings: float, share_round: float) -> float:
    """Of the air between the courses, m/s, where ``delivery`` is what the fans move, m3/s."""
    return delivery * (1 - share_round) / openings
