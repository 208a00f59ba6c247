"""What bearers carry and what share of their strength it uses."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.engineering import bearers
from stacklint.engineering.bearers import LoadDuration, Pads, SizeClass, Strength, Way
from stacklint.units import GRAVITY, ONE_FOOT, ONE_INCH, ONE_POUND, Unit

PSI = Unit.PSI.to_si(1)
POUND = ONE_POUND * GRAVITY
OAK = Strength(850 * PSI, 220 * PSI, 800 * PSI, 900_000 * PSI)
SECTION = (3.5 * ONE_INCH, 5.5 * ONE_INCH)


def used(load: float, pads: Pads | None, strength: Strength | None = OAK, **details: object) -> bearers.BearerUse:
    return bearers.use(load * POUND, 4 * ONE_FOOT, *SECTION, pads, strength, **details)  # type: ignore[arg-type]


TWO_PADS = Pads((0.1, 4 * ONE_FOOT - 0.1), 8 * ONE_INCH)


@pytest.mark.parametrize(
    ("section", "size"),
    [
        ((0.75, 3.5), None),
        ((1.5, 3.5), SizeClass.DIMENSION),
        ((4.0, 6.0), SizeClass.DIMENSION),
        ((6.0, 4.0), SizeClass.DIMENSION),
        ((4.5, 4.5), SizeClass.POST),
        ((5.5, 5.5), SizeClass.POST),
        ((6.0, 8.0), SizeClass.POST),
        ((6.0, 10.0), SizeClass.BEAM),
        ((10.0, 6.0), SizeClass.BEAM),
    ],
)
def test_a_section_falls_in_the_size_class_of_its_thickness(
    section: tuple[float, float], size: SizeClass | None
) -> None:
    assert bearers.size_class(section[0] * ONE_INCH, section[1] * ONE_INCH) is size


def test_the_middle_of_three_bearers_carries_five_eighths_of_the_stack() -> None:
    assert bearers.stack_loads(1000.0, (0.0, 1.0, 2.0), 0.0, 2.0) == pytest.approx((187.5, 625.0, 187.5))


def test_the_inner_two_of_four_bearers_carry_over_a_third_each() -> None:
    """0.4, 1.1, 1.1, 0.4 w L of 3 w L."""
    shares = bearers.stack_loads(3.0, (0.0, 1.0, 2.0, 3.0), 0.0, 3.0)
    assert shares == pytest.approx((0.4, 1.1, 1.1, 0.4))


def test_a_bearer_that_the_stack_lifts_off_carries_nothing() -> None:
    shares = bearers.stack_loads(1000.0, (0.0, 0.1, 2.0, 4.0), 0.0, 4.0)
    assert shares[0] == 0.0
    assert sum(shares) == pytest.approx(1000.0)


def test_one_bearer_carries_the_stack_and_none_carries_none() -> None:
    assert bearers.stack_loads(1000.0, (1.0,), 0.0, 2.0) == (1000.0,)
    assert bearers.stack_loads(1000.0, (), 0.0, 2.0) == ()


def test_bearers_all_under_one_end_hold_more_than_the_weight() -> None:
    """The stack tips over the inner one: 1,000 N at 1 m on bearers at 0 and 0.2 m need 5,000 N there."""
    assert bearers.stack_loads(1000.0, (0.0, 0.2), 0.0, 2.0) == pytest.approx((0.0, 5000.0))


@given(st.lists(st.floats(0.0, 5.0), min_size=2, max_size=8, unique=True))
def test_bearers_under_a_stack_that_does_not_tip_carry_just_its_weight(places: list[float]) -> None:
    places = sorted(places)
    if places[0] > 2.4 or places[-1] < 2.6 or min(b - a for a, b in pairwise(places)) < 0.02:
        return
    assert sum(bearers.stack_loads(1000.0, places, 0.0, 5.0)) == pytest.approx(1000.0)


def test_twice_the_load_uses_twice_the_share() -> None:
    one, two = used(1000, TWO_PADS), used(2000, TWO_PADS)
    assert one.worst is not None
    assert two.worst is not None
    assert two.worst[0] == pytest.approx(2 * one.worst[0])
    assert two.worst[1] is one.worst[1]


def test_a_pad_in_the_middle_cuts_the_bending_to_a_quarter() -> None:
    pads = Pads((0.0, 2 * ONE_FOOT, 4 * ONE_FOOT), 8 * ONE_INCH)
    wide = used(1000, Pads((0.0, 4 * ONE_FOOT), 8 * ONE_INCH))
    close = used(1000, pads)
    assert wide.bending is not None
    assert close.bending is not None
    assert close.bending / wide.bending == pytest.approx(0.25)
    assert close.span == pytest.approx(2 * ONE_FOOT)
    assert close.pad_load == pytest.approx(625 * POUND)


def test_a_bearer_flat_on_the_ground_does_not_bend_but_is_crushed() -> None:
    flat = used(10_000, None)
    assert flat.bending == 0.0
    assert flat.shear == 0.0
    assert flat.pad_load is None
    assert flat.worst is not None
    assert flat.worst[1] is Way.CRUSHING
    assert flat.crushing == pytest.approx(10_000 / (3.5 * 48) / (800 * 0.67))


def test_a_bearer_on_one_pad_stands_out_to_both_sides() -> None:
    """Two cantilevers of 2 ft under 250 lb/ft: 500 lb-ft on a section modulus of 17.65 in3, Fb 850 x 1.3 x 0.9
    for a nominal 4 x 6 in, Fb x CF under 1150 psi, so no wet factor."""
    single = used(1000, Pads((2 * ONE_FOOT,), 8 * ONE_INCH))
    assert single.bending == pytest.approx(500 * 12 / (3.5 * 5.5**2 / 6) / (850 * 1.3 * 0.9))
    assert single.pad_load == pytest.approx(1000 * POUND)


def test_steel_has_no_design_value_but_its_pads_carry_all_the_same() -> None:
    steel = used(1000, TWO_PADS, None)
    assert steel.worst is None
    assert steel.bending is None
    assert steel.pad_load == pytest.approx(500 * POUND)


def test_a_board_too_thin_for_design_values_is_unknown() -> None:
    thin = bearers.use(1000.0, 1.2, 6 * ONE_INCH, 0.75 * ONE_INCH, TWO_PADS, OAK)
    assert thin.worst is None


def test_a_short_pad_crushes_more_than_a_long_one() -> None:
    short = used(5000, Pads(TWO_PADS.places, 4 * ONE_INCH))
    long = used(5000, Pads(TWO_PADS.places, 8 * ONE_INCH))
    assert short.crushing is not None
    assert long.crushing is not None
    assert short.crushing > long.crushing


def test_a_bearer_on_edge_carries_more_than_laid_flat() -> None:
    edge = bearers.use(1000.0, 1.2, *SECTION, TWO_PADS, OAK)
    flat = bearers.use(1000.0, 1.2, *SECTION[::-1], TWO_PADS, OAK)
    assert edge.bending is not None
    assert flat.bending is not None
    # S goes from b d^2/6 to d b^2/6, a ratio of 5.5/3.5; a nominal 4 x 6 in has a flat-use factor of 1.05.
    assert flat.bending / edge.bending == pytest.approx(5.5 / 3.5 / 1.05)


@given(st.floats(1.5, 12), st.floats(1.5, 16), st.booleans())
def test_wet_service_and_permanent_load_never_raise_what_is_allowed(width: float, depth: float, wet: bool) -> None:
    base = bearers.adjusted(OAK, width * ONE_INCH, depth * ONE_INCH, wet=False, duration=LoadDuration.TEN_YEARS)
    service = bearers.adjusted(OAK, width * ONE_INCH, depth * ONE_INCH, wet=wet)
    assert base is not None
    assert service is not None
    assert service.bending < base.bending
    assert service.shear < base.shear
    assert service.crushing <= base.crushing
    assert service.stiffness <= base.stiffness


def test_load_duration_leaves_crushing_and_stiffness_alone() -> None:
    """NDS 2.3.2: not applied to compression across the grain nor to the modulus of elasticity."""
    ten = bearers.adjusted(OAK, *SECTION, duration=LoadDuration.TEN_YEARS)
    permanent = bearers.adjusted(OAK, *SECTION, duration=LoadDuration.PERMANENT)
    assert ten is not None
    assert permanent is not None
    assert permanent.bending / ten.bending == pytest.approx(0.9)
    assert permanent.shear / ten.shear == pytest.approx(0.9)
    assert permanent.crushing == ten.crushing
    assert permanent.stiffness == ten.stiffness


def test_a_short_pad_away_from_the_end_is_let_press_harder() -> None:
    """NDS bearing area factor: (b + 0.375 in) / b for bearings under 6 in, 3 in or more from an end (memory)."""
    near, inside = (
        used(2000, Pads((inches * ONE_INCH, 4 * ONE_FOOT - inches * ONE_INCH), 4 * ONE_INCH)) for inches in (4, 6)
    )
    assert near.crushing is not None and inside.crushing is not None
    assert inside.crushing / near.crushing == pytest.approx(4 / 4.375)


def test_southern_pine_4_in_thick_gains_a_tenth_only_above_6_in_of_width() -> None:
    """NDS Supplement Table 4B: tabulated by width; 4 in thick and 8 in or wider 1.1 (memory)."""
    pine = OAK._replace(size_in_value=True)
    six, eight = (
        bearers.use(1000 * POUND, 4 * ONE_FOOT, 4 * ONE_INCH, wide * ONE_INCH, TWO_PADS, pine).bending
        for wide in (6, 8)
    )
    assert six is not None and eight is not None
    assert six / eight == pytest.approx(8**2 / 6**2 * 1.1)
