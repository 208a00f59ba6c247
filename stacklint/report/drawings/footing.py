"""What a stack stands on: ground or floor, pads, bearers, pallets."""

from __future__ import annotations

from stacklint.plan.supports import BearerKind, Soil
from stacklint.report.drawings.board import Board
from stacklint.report.drawings.shape import MM, Shape
from stacklint.report.svg import element, number


def soil(board: Board, shape: Shape, left: float, right: float) -> None:
    """The ground as a line with slanting strokes under it, a floor or slab as two lines; with its name."""
    letters = board.letters
    start, end = left - letters * 0.5, right + letters * 0.5
    board.line("ground", ((start, 0.0), (end, 0.0)), data_y=0)
    if floor(shape):
        board.line("soil", ((start, -letters * 0.35), (end, -letters * 0.35)))
    else:
        board.add(element("path", class_="soil", d=_strokes(start, end, letters)))
    board.reach(start, -letters * 0.6)
    board.words(_name(shape), start - letters * 0.4, -letters * 0.8, anchor="end", size=0.9, class_="words soil-name")


def floor(shape: Shape) -> bool:
    """It rests on a floor, or on a slab."""
    ground = shape.stack.ground
    kind = shape.stack.bearers.kind if shape.stack.bearers is not None else BearerKind.NONE
    rests = shape.laid.whole_floor and kind is BearerKind.NONE
    said = ground.soil if ground is not None else None
    return rests or said is Soil.CONCRETE or (said is None and not shape.facts.ground_matters)


def _name(shape: Shape) -> str:
    ground = shape.stack.ground
    if ground is not None and ground.soil is not None:
        return ground.soil.value
    return "floor" if floor(shape) else "ground"


def _strokes(start: float, end: float, letters: float) -> str:
    size = letters * 0.45
    count = int((end - start) / size / 1.6)
    return "".join(
        f"M{number(start + size * 1.6 * index + size)} 0l{number(-size)} {number(size)}" for index in range(count)
    )


def supports_from_the_side(board: Board, shape: Shape) -> None:
    """Pads and bearers by their ends, pallets whole."""
    wide, deep = shape.laid.bearer_width * MM, shape.laid.bearer_depth * MM
    if not shape.bearers:
        if shape.base > 0:
            board.box("pallet" if shape.on_pallets else "support", 0.0, 0.0, shape.length, shape.base)
            if shape.on_pallets and shape.base > board.letters:
                y = (shape.base - board.letters * 0.7) / 2
                board.words("pallets", shape.length / 2, y, class_="words on-part")
        return
    pads = shape.pads
    if pads is not None:
        for x in shape.bearers:
            board.box("pad", x - pads.along / 2, pads.low, pads.along, pads.high - pads.low, data_middle=x)
    for x in shape.bearers:
        board.box("bearer", x - wide / 2, shape.bearer_low, wide, deep, data_middle=x)


def supports_from_the_end(board: Board, shape: Shape) -> None:
    """The bearer nearest to the eye along its length, and its pads."""
    if not shape.bearers:
        if shape.base > 0:
            board.box("pallet" if shape.on_pallets else "support", 0.0, 0.0, shape.width, shape.base)
        return
    pads = shape.pads
    if pads is not None:
        for z in pads.places:
            board.box("pad", z - pads.across / 2, pads.low, pads.across, pads.high - pads.low, data_middle=z)
    board.box("bearer", 0.0, shape.bearer_low, shape.width, shape.laid.bearer_depth * MM)
