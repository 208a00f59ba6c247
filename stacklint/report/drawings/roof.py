"""What lies over a stack and hangs down it: weights or straps, the cover with its overhang, cloth at the sides."""

from __future__ import annotations

from typing import NamedTuple

from stacklint.plan.shelter import Cover, CoverKind, SideKind
from stacklint.report.drawings import dimensions
from stacklint.report.drawings.board import Board
from stacklint.report.drawings.shape import MM, Shape, rows_across
from stacklint.report.tape import slope_words
from stacklint.show import show
from stacklint.units import MASS, PRESSURE, System

_THICK = 0.15
"""Of a cover as it is drawn, in sizes of the drawing's letters: a plan does not say how thick it is."""
_MOST_WEIGHTS = 12
_STRAPS = (0.12, 0.5, 0.88)
"""Where straps are drawn, as shares of the length: a plan does not say where they are."""


class Roof(NamedTuple):
    """The cover along the stack: from ``left`` to ``right``, ``low`` at the stack's left end and rising by ``slope``.

    ``sides`` is how far it stands out at the long sides.
    """

    cover: Cover | None
    left: float
    right: float
    sides: float
    low: float
    slope: float

    @property
    def drawn(self) -> bool:
        return self.cover is not None

    def height(self, x: float) -> float:
        """Of its underside."""
        return self.low + self.slope * x

    def from_the_side(self, board: Board, shape: Shape) -> None:
        """Weights, cover, overhangs and the gap."""
        letters, thick = board.letters, board.letters * _THICK
        _weights(board, shape, self)
        _cloth(board, shape, at_ends=True, places=(0.0, shape.length))
        if self.cover is None:
            _label(board, shape, self, self._crest(board, shape))
            return
        top = shape.top
        for x in (0.0, shape.length / 2, shape.length) if self.height(0.0) > top else ():
            board.line("post", ((x, top), (x, self.height(x))))
        ends = ((self.left, self.height(self.left)), (self.right, self.height(self.right)))
        shell = [*ends, *((x, y + thick) for x, y in reversed(ends))]
        board.area("cover", shell, data_x=self.left, data_y=self.height(0.0), data_width=self.right - self.left)
        if self.cover.hanging_down:
            for x, y in ends:
                board.line("hanging", ((x, y), (x, shape.underside)))
        y = self._crest(board, shape)
        if self.right > shape.length:
            out = dimensions.length(-self.left, shape.facts.system)
            for start, end in ((self.left, 0.0), (shape.length, self.right)):
                dimensions.across(board, start, end, y, out, "overhang")
            for x in (self.left, self.right):
                dimensions.extension(board, (x, self.height(x) + thick), (x, y + letters * 0.4))
        gap = self.height(0.0) - top
        if gap > 0:
            x = min(self.left, -letters * 2.4) - letters * 1.2
            text = f"gap {dimensions.length(gap, shape.facts.system)}"
            board.line("dimension", ((x, top), (x, top + gap)), data_kind="gap", data_value=gap)
            dimensions.extension(board, (x - letters * 0.3, top), (0.0, top))
            dimensions.extension(board, (x - letters * 0.3, top + gap), (0.0, top + gap))
            board.words(text, x - letters * 0.5, top + gap / 2 - letters * 0.35, anchor="end")
        _label(board, shape, self, y)

    def _crest(self, board: Board, shape: Shape) -> float:
        """A height over all that lies on the stack, with room for a line of words."""
        cover = self.height(self.right) + board.letters * _THICK if self.drawn else shape.top
        return max(cover, shape.top + _weight_height(board, shape, self)) + board.letters * 0.9

    def from_the_end(self, board: Board, shape: Shape) -> None:
        """At the stack's left end."""
        letters, thick = board.letters, board.letters * _THICK
        _weights_from_the_end(board, shape, self)
        _cloth(board, shape, at_ends=False, places=(0.0, shape.width))
        if self.cover is None:
            return
        left, right = -self.sides, shape.width + self.sides
        low = self.height(0.0)
        for z in (0.0, shape.width) if low > shape.top else ():
            board.line("post", ((z, shape.top), (z, low)))
        board.box("cover", left, low, right - left, thick)
        if self.cover.hanging_down:
            for z in (left, right):
                board.line("hanging", ((z, low), (z, shape.underside)))
        if self.sides > 0:
            out = dimensions.length(self.sides, shape.facts.system)
            y = max(low + thick, shape.top + _weight_height(board, shape, self)) + letters * 0.9
            for start, end in ((left, 0.0), (shape.width, right)):
                dimensions.across(board, start, end, y, out, "overhang")
            for z in (left, right):
                dimensions.extension(board, (z, low), (z, y + letters * 0.4))


def roof_of(shape: Shape) -> Roof:
    """Slopes are drawn along the boards, rising to the right: a plan does not say which way."""
    cover = shape.stack.cover
    if cover is None or cover.kind is CoverKind.NONE:
        return Roof(None, 0.0, shape.length, 0.0, shape.top, 0.0)
    ends = cover.overhang_ends.si * MM if cover.overhang_ends is not None else 0.0
    sides = cover.overhang_sides.si * MM if cover.overhang_sides is not None else 0.0
    gap = cover.gap.si * MM if cover.gap is not None else 0.0
    return Roof(cover, -ends, shape.length + ends, sides, shape.top + gap, cover.slope or 0.0)


def load_words(shape: Shape) -> str:
    """What lies on top, in words; nothing where nothing does."""
    load, system = shape.stack.top_load, shape.facts.system
    if load is None:
        return ""
    if load.pressure is not None:
        return f"weights, {show(load.pressure.si, PRESSURE, system)}"
    if load.weight is not None:
        return f"weights, {show(load.weight.si, MASS, system)}"
    return "straps" if load.straps else ""


def cover_words(cover: Cover, system: System) -> str:
    """*sheet metal, slope 1 in 12, tied*."""
    slope = f"slope {slope_words(cover.slope)}" if cover.slope else ""
    fastening = cover.fastening.value if cover.fastening is not None else ""
    if cover.weight is not None:
        fastening += f" with {show(cover.weight.si, MASS, system)}"
    return ", ".join(word for word in (cover.kind.value, slope, fastening) if word)


def _label(board: Board, shape: Shape, roof: Roof, y: float) -> None:
    words = [cover_words(roof.cover, shape.facts.system)] if roof.cover is not None else []
    load = load_words(shape)
    words += [f"on top: {load}"] if load else []
    if words:
        board.words("; ".join(words), shape.length / 2, y + board.letters * 0.1)


def _weights(board: Board, shape: Shape, roof: Roof) -> None:
    load = shape.stack.top_load
    if load is None:
        return
    if load.straps:
        for x in (share * shape.length for share in _STRAPS):
            board.line("strap", ((x, shape.base), (x, shape.top)), data_x=x)
        return
    places = shape.lines or (shape.length / 4, shape.length / 2, shape.length * 3 / 4)
    every = -(-len(places) // _MOST_WEIGHTS)
    wide = min(board.letters * 1.4, shape.length / len(places[::every]) * 0.6)
    high = _weight_height(board, shape, roof)
    for x in places[::every]:
        from_x = min(max(x - wide / 2, 0.0), shape.length - wide)
        board.box("weight", from_x, shape.top, wide, high)


def _weights_from_the_end(board: Board, shape: Shape, roof: Roof) -> None:
    _across(board, shape, 0.0, _weight_height(board, shape, roof))


def draw_load(board: Board, shape: Shape, z: float, room: float) -> None:
    """Weights or straps of a charge in its kiln's section, its near side at ``z``, ``room`` mm under the ceiling."""
    _across(board, shape, z, weight_in_kiln(board, shape, room))


def weight_in_kiln(board: Board, shape: Shape, room: float) -> float:
    """How high weights are drawn under a ceiling; a plan does not say how high they are. 0 where there are none."""
    load = shape.stack.top_load
    return 0.0 if load is None or load.straps else max(min(board.letters * 0.8, room * 0.5), 0.0)


def _across(board: Board, shape: Shape, z: float, high: float) -> None:
    """Seen across the boards."""
    load = shape.stack.top_load
    if load is None:
        return
    if load.straps:
        far = z + shape.width
        board.line("strap", ((z, shape.base), (z, shape.top), (far, shape.top), (far, shape.base)))
        return
    rows = rows_across(shape.tiers[-1].run, shape)
    start, wide = rows[0].z, rows[-1].z + rows[-1].width - rows[0].z
    board.box("weight", z + start + wide * 0.1, shape.top, wide * 0.8, high)


def _weight_height(board: Board, shape: Shape, roof: Roof) -> float:
    """As high as the gap leaves room for; a plan does not say how high they are. 0 where there are none."""
    load = shape.stack.top_load
    if load is None or load.straps:
        return 0.0
    gap = roof.height(0.0) - shape.top
    return min(gap * 0.8, board.letters) if roof.drawn and gap > 0 else board.letters * 0.8


def _cloth(board: Board, shape: Shape, *, at_ends: bool, places: tuple[float, float]) -> None:
    """Shade cloth, plastic or boards where they hang edgewise to the eye, with their name at the first of them."""
    sides = shape.stack.sides
    if sides is None or sides.kind is SideKind.OPEN or (at_ends and sides.on_one_side):
        return
    if not at_ends and sides.on_ends:
        return
    closed = "" if sides.kind is SideKind.SHADE_CLOTH else " closed"
    out = board.letters * 0.35
    for place, way in zip(places, (-1, 1), strict=True):
        x = place + way * out
        board.line(f"side{closed}", ((x, shape.base), (x, shape.top)), data_kind=sides.kind.value)
        if sides.on_one_side:
            return
