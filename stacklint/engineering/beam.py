"""Continuous beams on rigid supports: how boards bend over stickers, stacks over bearers, bearers over pads.

Elementary beam theory with uniform load and stiffness within each span. The moments over the supports
come from the three-moment equation (Clapeyron's theorem; any text on strength of materials), the sag of
a span from its end moments:

    E I y = w x (L^3 - 2 L x^2 + x^3) / 24  +  Ml x (L - x) (2 L - x) / (6 L)  +  Mr x (L - x) (L + x) / (6 L)

Deflections count downward, moments are positive where they open the underside (sagging). Shear deflection
is not added: published moduli of wood come from bending tests and contain it (Wood Handbook ch. 5, memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import sqrt
from typing import NamedTuple

SAME_PLACE = 1e-9
"""Supports closer than this (m) are one support; a support this far past an end still counts."""

SIMPLE_SPAN = 5 / 384
"""Largest sag of one span, as a share of ``w L^4 / (E I)``: AWC Design Aid 6 Fig. 1."""
TWO_SPANS = 0.00541612
"""The same of two equal spans; printed as 0.00541 and 1/185."""
MANY_SPANS = 0.00688417
"""The same of three equal spans, printed as 0.0069. Four and more equal spans sag less."""


class BeamResult(NamedTuple):
    """A solved beam. Metres, newtons, newton metres.

    ``sags`` has one figure a span: its largest deflection below the supports, 0 where it only arches up.
    ``droops`` are the deflections of the left and right end; negative where an end lifts.
    ``moments`` are those over the supports, ``reactions`` what the supports push up with; negative where
    the support would have to hold the beam down.
    ``spans``, ``loads`` and ``stiffness`` are what was solved; the last two begin and end with the overhangs.
    """

    supports: tuple[float, ...]
    overhangs: tuple[float, float]
    spans: tuple[float, ...]
    loads: tuple[float, ...]
    stiffness: tuple[float, ...]
    sags: tuple[float, ...]
    droops: tuple[float, float]
    reactions: tuple[float, ...]
    moments: tuple[float, ...]

    @property
    def largest_sag(self) -> float:
        """Of all spans; the ends are not counted."""
        return max(self.sags)

    @property
    def lifts(self) -> tuple[int, ...]:
        """Indices of the supports that the beam would lift off, were it not held down."""
        weight = sum(self.reactions)
        return tuple(i for i, reaction in enumerate(self.reactions) if reaction < -1e-9 * weight)

    @property
    def span_moments(self) -> tuple[float, ...]:
        """Largest sagging moment within each span, its ends included."""
        return tuple(
            _largest_moment(load, span, left, right)
            for load, span, left, right in zip(
                self.loads[1:-1], self.spans, self.moments, self.moments[1:], strict=False
            )
        )

    @property
    def largest_moment(self) -> float:
        """The largest bending moment of either sign."""
        return max(*self.span_moments, *(-moment for moment in self.moments))

    @property
    def largest_shear(self) -> float:
        """The largest shear force, beside a support."""
        left, right = self.overhangs
        shears = [self.loads[0] * left, self.loads[-1] * right]
        for i, span in enumerate(self.spans):
            half = self.loads[i + 1] * span / 2
            tilt = (self.moments[i + 1] - self.moments[i]) / span
            shears += (abs(half + tilt), abs(half - tilt))
        return max(shears)

    def deflection(self, x: float) -> float:
        """How far the beam sags at ``x``, measured as the supports are; past an end, that end's droop."""
        first, last = self.supports[0], self.supports[-1]
        if x < first:
            return self._overhang_deflection(0, min(first - x, self.overhangs[0]))
        if x > last:
            return self._overhang_deflection(-1, min(x - last, self.overhangs[1]))
        i = next(i for i, end in enumerate(self.supports[1:]) if x <= end)
        share = (x - self.supports[i]) / self.spans[i]
        a, b, c, d = _curve(self.loads[i + 1], self.spans[i], self.moments[i], self.moments[i + 1])
        return share * (a + share * (b + share * (c + share * d))) / self.stiffness[i + 1]

    def _overhang_deflection(self, side: int, out: float) -> float:
        load, stiffness, reach = self.loads[side], self.stiffness[side], self.overhangs[side]
        if side == 0:
            slope = _slope_out(self.loads[1], self.spans[0], self.stiffness[1], self.moments[0], self.moments[1])
        else:
            slope = _slope_out(self.loads[-2], self.spans[-1], self.stiffness[-2], self.moments[-1], self.moments[-2])
        return slope * out + load * out**2 * (6 * reach**2 - 4 * reach * out + out**2) / (24 * stiffness)


def solve(
    supports: Sequence[float],
    start: float,
    end: float,
    load: float | Sequence[float],
    stiffness: float | Sequence[float],
) -> BeamResult | None:
    """Bends a beam that reaches from ``start`` to ``end`` over ``supports`` (m).

    ``load`` (N/m) and ``stiffness`` (E I, N m2) are one figure for the whole beam, or one for each part:
    the left overhang, every span, the right overhang, overhangs of no length included. The supports hold
    the beam up and down; :func:`rest` lets it lift off. Supports beyond the beam's ends are not its own.

    Returns ``None`` where fewer than two supports lie under the beam: it would tip.
    """
    places = _places_under(supports, start, end)
    count = len(places) - 1
    if count < 1:
        return None
    loads = (float(load),) * (count + 2) if isinstance(load, int | float) else tuple(load)
    stiff = (float(stiffness),) * (count + 2) if isinstance(stiffness, int | float) else tuple(stiffness)
    if len(loads) != count + 2 or len(stiff) != count + 2:
        raise ValueError(f"a beam of {count} spans needs {count + 2} loads and as many stiffnesses")
    spans = tuple([right - left for left, right in pairwise(places)])
    left_over, right_over = max(places[0] - start, 0.0), max(end - places[-1], 0.0)
    moments = _support_moments(spans, loads, stiff, left_over, right_over)
    sags = []
    reactions = [loads[0] * left_over]
    for span, w, ei, left, right in zip(spans, loads[1:], stiff[1:], moments, moments[1:], strict=False):
        half, tilt = w * span / 2, (right - left) / span
        reactions[-1] += half + tilt
        reactions.append(half - tilt)
        sags.append(_largest_sag(w, span, left, right) / ei)
    reactions[-1] += loads[-1] * right_over
    droops = (
        _droop(loads[0], left_over, stiff[0], _slope_out(loads[1], spans[0], stiff[1], moments[0], moments[1])),
        _droop(loads[-1], right_over, stiff[-1], _slope_out(loads[-2], spans[-1], stiff[-2], moments[-1], moments[-2])),
    )
    return BeamResult(
        places, (left_over, right_over), spans, loads, stiff, tuple(sags), droops, tuple(reactions), tuple(moments)
    )


def rest(supports: Sequence[float], start: float, end: float, load: float, stiffness: float) -> BeamResult | None:
    """Like :func:`solve`, for a uniform beam that only rests: supports that it would lift off are left out.

    The supports that still carry are those of the result. Returns ``None`` where fewer than two carry.
    """
    result = solve(supports, start, end, load, stiffness)
    while result is not None and result.lifts:
        loosest = min(range(len(result.reactions)), key=result.reactions.__getitem__)
        kept = result.supports[:loosest] + result.supports[loosest + 1 :]
        result = solve(kept, start, end, load, stiffness)
    return result


def widest_spacing(limit: float, load: float, stiffness: float, spans: int = 3) -> float:
    """The widest even spacing at which a beam of so many equal spans sags no more than ``limit`` (m).

    Args:
        limit: the sag that is allowed, m; greater than 0.
        load: uniform, N/m; greater than 0.
        stiffness: E I, N m2.
        spans: how many spans it runs over; from three on, the three-span figure, which is the largest.
    """
    coefficient = SIMPLE_SPAN if spans <= 1 else TWO_SPANS if spans == 2 else MANY_SPANS
    return sqrt(sqrt(limit * stiffness / (coefficient * load)))


def _places_under(supports: Sequence[float], start: float, end: float) -> tuple[float, ...]:
    places: list[float] = []
    low, high = start - SAME_PLACE, end + SAME_PLACE
    for place in sorted(supports):
        if low <= place <= high and (not places or place - places[-1] > SAME_PLACE):
            places.append(place)
    return tuple(places)


def _support_moments(
    spans: tuple[float, ...],
    loads: tuple[float, ...],
    stiffness: tuple[float, ...],
    left_over: float,
    right_over: float,
) -> list[float]:
    """Solves the three-moment equations by elimination from left to right and substitution back.

    M[i-1] f[i] + 2 M[i] (f[i] + f[i+1]) + M[i+1] f[i+1] = -(w[i] L[i]^2 f[i] + w[i+1] L[i+1]^2 f[i+1]) / 4
    with f = L / (E I) of the span on either side.
    """
    last = len(spans)
    moments = [0.0] * (last + 1)
    moments[0] = -loads[0] * left_over * left_over / 2
    moments[last] = -loads[-1] * right_over * right_over / 2
    flex = spans[0] / stiffness[1]
    turn = loads[1] * spans[0] * spans[0] * flex / 4
    factor, value = 0.0, moments[0]
    factors, values = [factor], [value]
    for i in range(1, last):
        next_flex = spans[i] / stiffness[i + 1]
        next_turn = loads[i + 1] * spans[i] * spans[i] * next_flex / 4
        pivot = 2 * (flex + next_flex) - flex * factor
        value = (-turn - next_turn - flex * value) / pivot
        factor = next_flex / pivot
        factors.append(factor)
        values.append(value)
        flex, turn = next_flex, next_turn
    for i in range(last - 1, 0, -1):
        moments[i] = values[i] - factors[i] * moments[i + 1]
    return moments


def _curve(load: float, span: float, left: float, right: float) -> tuple[float, float, float, float]:
    """E I y of a span as ``s (a + b s + c s^2 + d s^3)``, with s = x / L."""
    square = span * span / 6
    own, by_left, by_right = load * square * square * 1.5, left * square, right * square
    return own + 2 * by_left + by_right, -3 * by_left, by_left - by_right - 2 * own, own


def _largest_sag(load: float, span: float, left: float, right: float) -> float:
    """E I times the largest downward deflection of a span.

    A hollow can lie only where the moment is positive, which is one stretch of the span, and in that
    stretch the slope falls steadily: there its zero is found by Newton's method within brackets.
    """
    a, b, c, d = _curve(load, span, left, right)
    low, high = 0.0, 1.0
    if left < 0 or right < 0:
        # -y'' = -(2 b + 6 c s + 12 d s^2), positive between its roots (d >= 0)
        if d <= 0:
            return _largest_sag_unloaded(a, b, c)
        under = 9 * c * c - 24 * b * d
        if under <= 0:
            return 0.0
        root = sqrt(under)
        low = max((-3 * c - root) / (12 * d), 0.0)
        high = min((-3 * c + root) / (12 * d), 1.0)
        if low >= high or _slope(a, b, c, d, low) <= 0 or _slope(a, b, c, d, high) >= 0:
            return 0.0
    elif a <= 0:
        return 0.0
    share = (low + high) / 2
    for _ in range(60):
        slope = a + share * (2 * b + share * (3 * c + share * 4 * d))
        if slope > 0:
            low = share
        else:
            high = share
        bend = 2 * b + share * (6 * c + share * 12 * d)
        guess = share - slope / bend if bend else low
        if not low < guess < high:
            guess = (low + high) / 2
        step, share = guess - share, guess
        if -1e-7 < step < 1e-7:
            break
    # A shallow hollow may lie wholly above the supports, in a span that its neighbours bend up.
    return max(share * (a + share * (b + share * (c + share * d))), 0.0)


def _largest_sag_unloaded(a: float, b: float, c: float) -> float:
    """The same for a span without load of its own: a cubic whose slope is a parabola."""
    if not c:
        return max(a * a / (-4 * b), 0.0) if b < 0 < a else 0.0
    under = b * b - 3 * a * c
    if under <= 0:
        return 0.0
    roots = ((-b + sqrt(under)) / (3 * c), (-b - sqrt(under)) / (3 * c))
    return max([0.0, *(s * (a + s * (b + s * c)) for s in roots if 0 < s < 1)])


def _slope(a: float, b: float, c: float, d: float, share: float) -> float:
    return a + share * (2 * b + share * (3 * c + share * 4 * d))


def _slope_out(load: float, span: float, stiffness: float, near: float, far: float) -> float:
    """Slope of the beam at its first support, downward on the way out to the end beside it."""
    return -(load * span**3 / 24 + near * span / 3 + far * span / 6) / stiffness


def _droop(load: float, reach: float, stiffness: float, slope: float) -> float:
    return slope * reach + load * reach**4 / (8 * stiffness)


def _largest_moment(load: float, span: float, left: float, right: float) -> float:
    ends = max(left, right)
    if load <= 0:
        return ends
    place = span / 2 + (right - left) / (load * span)
    if not 0 < place < span:
        return ends
    return left + load * place * place / 2
