"""Boards as beams over their stickers: what must hold for any of them."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from stacklint.engineering import beam

SPANS = st.lists(st.floats(0.15, 2.0), min_size=1, max_size=7)
OVERHANG = st.one_of(st.just(0.0), st.floats(0.01, 0.9))
LOAD = st.floats(1.0, 3000.0)
STIFFNESS = st.floats(50.0, 1e6)


def laid(spans: list[float]) -> tuple[float, ...]:
    places = [0.0]
    for span in spans:
        places.append(places[-1] + span)
    return tuple(places)


def solved(*arguments: object) -> beam.BeamResult:
    result = beam.solve(*arguments)  # type: ignore[arg-type]
    assert result is not None
    return result


def mean_sag(result: beam.BeamResult, start: float, end: float) -> float:
    """Signed mean deflection, by Boole's rule, which is exact for the quartics between supports."""
    stops = sorted({start, *result.supports, end})
    area = 0.0
    for left, right in pairwise(stops):
        step = (right - left) / 4
        heights = [result.deflection(left + i * step) for i in range(5)]
        area += 2 * step / 45 * sum(f * y for f, y in zip((7, 32, 12, 32, 7), heights, strict=True))
    return area / (end - start)


@given(SPANS, OVERHANG, OVERHANG, LOAD, STIFFNESS)
def test_the_supports_push_up_with_the_weight_and_its_turning_moment(
    spans: list[float], left: float, right: float, load: float, stiffness: float
) -> None:
    places = laid(spans)
    start, end = -left, places[-1] + right
    result = solved(places, start, end, load, stiffness)
    weight = load * (end - start)
    assert sum(result.reactions) == pytest.approx(weight)
    turning = sum(reaction * place for reaction, place in zip(result.reactions, places, strict=True))
    assert turning == pytest.approx(weight * (start + end) / 2, abs=1e-9 * weight * (end - start))


@given(SPANS, OVERHANG, OVERHANG, LOAD, STIFFNESS)
def test_the_largest_sag_of_a_span_is_the_deepest_point_of_its_curve(
    spans: list[float], left: float, right: float, load: float, stiffness: float
) -> None:
    places = laid(spans)
    result = solved(places, -left, places[-1] + right, load, stiffness)
    for begin, span, sag in zip(places, result.spans, result.sags, strict=False):
        seen = [result.deflection(begin + span * i / 400) for i in range(401)]
        size = max(abs(y) for y in seen)
        assert sag >= max(*seen, 0.0) - 1e-9 * size
        assert sag <= max(*seen, 0.0) + 1e-4 * size


@given(SPANS, OVERHANG, OVERHANG, LOAD, STIFFNESS)
def test_a_board_turned_end_for_end_bends_alike(
    spans: list[float], left: float, right: float, load: float, stiffness: float
) -> None:
    there = solved(laid(spans), -left, sum(spans) + right, load, stiffness)
    back = solved(laid(spans[::-1]), -right, sum(spans) + left, load, stiffness)
    scale = load * max(*spans, left, right) ** 4 / stiffness
    assert there.sags == pytest.approx(back.sags[::-1], abs=1e-9 * scale)
    assert there.droops == pytest.approx(back.droops[::-1], abs=1e-9 * scale)
    assert there.largest_moment == pytest.approx(back.largest_moment)
    assert there.largest_shear == pytest.approx(back.largest_shear)


@given(st.lists(st.tuples(st.floats(0.2, 2), LOAD, LOAD, STIFFNESS), min_size=3, max_size=7))
def test_two_loads_bend_a_board_by_the_sum_of_what_each_does(
    parts: list[tuple[float, float, float, float]],
) -> None:
    lengths, first, second, stiffness = (tuple(column) for column in zip(*parts, strict=True))
    places = laid(list(lengths[1:-1]))
    start, end = -lengths[0], places[-1] + lengths[-1]
    one, two = solved(places, start, end, first, stiffness), solved(places, start, end, second, stiffness)
    both = solved(places, start, end, [a + b for a, b in zip(first, second, strict=True)], stiffness)
    stops = [start + (end - start) * i / 50 for i in range(51)]
    size = max(abs(both.deflection(x)) for x in stops)
    for x in stops:
        assert both.deflection(x) == pytest.approx(one.deflection(x) + two.deflection(x), abs=1e-9 * size)


@given(st.floats(0.5, 6.0), st.integers(1, 12), LOAD, STIFFNESS)
def test_closer_even_stickers_never_sag_more(length: float, count: int, load: float, stiffness: float) -> None:
    wide, close = (
        solved([length * i / n for i in range(n + 1)], 0.0, length, load, stiffness) for n in (count, count + 1)
    )
    assert close.largest_sag < wide.largest_sag


@given(SPANS, OVERHANG, OVERHANG, st.floats(0.02, 0.98), STIFFNESS)
def test_one_more_sticker_never_lets_a_board_sag_more_on_the_whole(
    spans: list[float], left: float, right: float, share: float, stiffness: float
) -> None:
    """The mean sag under an even load is the work that the load does; a further support only takes from it
    (Rayleigh's theorem on constraints)."""
    places = laid(spans)
    start, end = -left, places[-1] + right
    extra = start + share * (end - start)
    assume(all(abs(extra - place) > 1e-3 for place in places))
    before = mean_sag(solved(places, start, end, 100.0, stiffness), start, end)
    after = mean_sag(solved((*places, extra), start, end, 100.0, stiffness), start, end)
    assert after <= before + 1e-9 * abs(before)


def test_one_more_sticker_can_let_the_next_span_sag_more() -> None:
    """Halving one of two equal spans takes away weight that held the other up: 0.0054 becomes 0.0072 w L^4/EI."""
    before = solved((0, 1, 2), 0, 2, 1, 1)
    after = solved((0, 0.5, 1, 2), 0, 2, 1, 1)
    assert before.largest_sag == pytest.approx(0.00541612, rel=1e-5)
    assert after.largest_sag > 1.3 * before.largest_sag
    assert after.sags[0] < before.sags[0] / 7


def test_stickers_at_24_in_sag_five_times_as_much_as_at_16_in() -> None:
    """The fourth power of the spacing: (24/16)^4 = 5.06."""
    wide = solved((0, 24, 48, 72), 0, 72, 1, 1)
    close = solved((0, 16, 32, 48), 0, 48, 1, 1)
    assert wide.largest_sag / close.largest_sag == pytest.approx(5.0625)


@pytest.mark.parametrize("supports", [(), (1.0,), (1.0, 1.0), (-3.0, 1.0), (1.0, 9.0)])
def test_a_board_on_fewer_than_two_stickers_has_no_answer(supports: tuple[float, ...]) -> None:
    assert beam.solve(supports, 0.0, 2.0, 10.0, 100.0) is None
    assert beam.rest(supports, 0.0, 2.0, 10.0, 100.0) is None


def test_stickers_beyond_the_board_and_stickers_named_twice_change_nothing() -> None:
    plain = solved((0.1, 0.9), 0.0, 1.0, 10.0, 100.0)
    assert solved((3.0, 0.9, 0.1, 0.9, -1.0), 0.0, 1.0, 10.0, 100.0) == plain


def test_figures_for_a_wrong_number_of_spans_are_refused() -> None:
    with pytest.raises(ValueError, match="2 spans needs 4 loads"):
        beam.solve((0, 1, 2), 0, 2, (1.0, 1.0), 1.0)


def test_the_short_end_span_of_a_long_one_lifts_off_its_sticker() -> None:
    held = solved((0.0, 0.2, 2.0, 4.0), 0.0, 4.0, 10.0, 100.0)
    assert held.lifts == (0,)
    resting = beam.rest((0.0, 0.2, 2.0, 4.0), 0.0, 4.0, 10.0, 100.0)
    assert resting is not None
    assert resting.supports == (0.2, 2.0, 4.0)
    assert resting.droops[0] < 0
    assert resting.lifts == ()
    assert sum(resting.reactions) == pytest.approx(40.0)


@given(SPANS, OVERHANG, OVERHANG)
def test_a_resting_board_is_pushed_up_by_every_sticker_that_it_keeps(
    spans: list[float], left: float, right: float
) -> None:
    places = laid(spans)
    resting = beam.rest(places, -left, places[-1] + right, 100.0, 1000.0)
    if resting is None:
        assert max(left, right) > min(spans)
        return
    assert all(reaction >= -1e-6 for reaction in resting.reactions)


@given(st.floats(1e-4, 0.02), LOAD, STIFFNESS, st.integers(1, 9))
def test_stickers_at_the_widest_spacing_sag_just_within_the_limit(
    limit: float, load: float, stiffness: float, spans: int
) -> None:
    spacing = beam.widest_spacing(limit, load, stiffness, spans)
    sag = solved([spacing * i for i in range(spans + 1)], 0.0, spacing * spans, load, stiffness).largest_sag
    assert sag <= limit * (1 + 1e-5)
    if spans <= 3:
        assert sag == pytest.approx(limit, rel=1e-5)


def test_a_long_end_is_sheared_hardest_over_its_last_sticker() -> None:
    """An end of 1 m under 10 N/m beyond a span of 0.5 m that carries nothing: 10 N in the end, 10 N in the span."""
    result = solved((0.0, 0.5), 0.0, 1.5, (0, 0, 10), 1)
    assert result.largest_shear == pytest.approx(10.0)
    assert solved((0.0, 4.0), 0.0, 5.0, (0, 0, 10), 1).largest_shear == pytest.approx(10.0)


def test_a_span_that_carries_nothing_is_bent_up_by_its_neighbours() -> None:
    result = solved((0, 1, 2, 3), 0, 3, (0, 1, 0, 1, 0), 1)
    assert result.sags[1] == 0.0
    assert result.deflection(1.5) < 0


@pytest.mark.parametrize("x", [-0.5, 0.0, 3.0, 3.4])
def test_the_curve_meets_the_ends_and_the_supports(x: float) -> None:
    result = solved((0, 1, 3), -0.5, 3.4, 10, 50)
    expected = {-0.5: result.droops[0], 3.4: result.droops[1]}.get(x, 0.0)
    assert result.deflection(x) == pytest.approx(expected, abs=1e-15)


@given(SPANS, st.floats(0.05, 0.9))
def test_the_slope_runs_on_over_the_last_sticker(spans: list[float], right: float) -> None:
    places = laid(spans)
    last = places[-1]
    result = solved(places, 0.0, last + right, 100.0, 1000.0)
    tiny = 1e-6
    inside = -result.deflection(last - tiny) / tiny
    outside = result.deflection(last + tiny) / tiny
    assert outside == pytest.approx(inside, abs=1e-7 + 1e-4 * abs(inside))
