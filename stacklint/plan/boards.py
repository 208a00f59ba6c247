"""The boards that a stack is built of."""

from __future__ import annotations

from enum import Enum

from stacklint.plan.bounds import BoardLength, BoardThickness, BoardWidth, MoistureContent, Volume
from stacklint.plan.node import Name, Node
from stacklint.units import ONE_INCH, Unit


class MoistureWord(Enum):
    """A moisture said in a word instead of a figure."""

    GREEN = "green"
    AIR_DRIED = "air dried"
    KILN_DRIED = "kiln dried"


class Face(Enum):
    """How the boards were sawn from the log."""

    FLAT = "flatsawn"
    QUARTER = "quartersawn"
    RIFT = "riftsawn"


class Boards(Node):
    """One ``boards`` statement: a group of like boards.

    Exactly one of ``count`` and ``volume`` is given. ``width`` is ``None`` for random widths; a range
    of widths or lengths stands for boards spread evenly over it. ``moisture`` is ``None`` if not said.
    """

    label: Name
    count: int | None = None
    volume: Volume | None = None
    wood: Name
    thickness: BoardThickness
    width: BoardWidth | None = None
    length: BoardLength
    moisture: MoistureContent | MoistureWord | None = None
    face: Face | None = None
    live_edge: bool = False
    boxed_heart: bool = False
    squares: bool = False
    finished: BoardThickness | None = None

    @property
    def wood_volume(self) -> float | None:
        """m3 of wood as it is, where the boards are listed by a volume.

        Board feet count boards under 1 in thick as if they were 1 in (memory: the trade's rule): 4 bf of 3/4 in
        boards are 3 bf of wood.
        """
        if self.volume is None or self.volume.unit is not Unit.BOARD_FOOT:
            return None if self.volume is None else self.volume.si
        return self.volume.si * min(1.0, self.thickness.si / ONE_INCH)


class CourseRows(Node):
    """``8 rows of a + a``: rows side by side, each of boards laid end to end."""

    count: int
    labels: tuple[Name, ...]


class Courses(Node):
    """A ``course`` statement: courses ``first`` to ``last``, counted from the ground, all laid alike."""

    first: int
    last: int
    rows: tuple[CourseRows, ...]
