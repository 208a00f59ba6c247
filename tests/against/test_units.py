"""Unit conversions against pint, a general units library, and against the defining standards."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.units import System, Unit

REGISTRY = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)

IN_PINT = {
    Unit.INCH: ("inch", "m"),
    Unit.FOOT: ("foot", "m"),
    Unit.QUARTER: ("0.25 inch", "m"),
    Unit.MILLIMETRE: ("mm", "m"),
    Unit.CENTIMETRE: ("cm", "m"),
    Unit.METRE: ("m", "m"),
    Unit.SQUARE_FOOT: ("foot ** 2", "m ** 2"),
    Unit.SQUARE_METRE: ("m ** 2", "m ** 2"),
    Unit.BOARD_FOOT: ("144 inch ** 3", "m ** 3"),
    Unit.CUBIC_FOOT: ("foot ** 3", "m ** 3"),
    Unit.CUBIC_METRE: ("m ** 3", "m ** 3"),
    Unit.POUND: ("pound", "kg"),
    Unit.KILOGRAM: ("kg", "kg"),
    Unit.PSF: ("pound_force / foot ** 2", "Pa"),
    Unit.PSI: ("psi", "Pa"),
    Unit.KILOPASCAL: ("kPa", "Pa"),
    Unit.MEGAPASCAL: ("MPa", "Pa"),
    Unit.KILOGRAM_PER_SQUARE_METRE: ("kilogram_force / m ** 2", "Pa"),
    Unit.KILOGRAM_PER_CUBIC_METRE: ("kg / m ** 3", "kg / m ** 3"),
    Unit.POUND_PER_CUBIC_FOOT: ("pound / foot ** 3", "kg / m ** 3"),
    Unit.PERCENT: ("0.01", ""),
    Unit.CFM: ("foot ** 3 / minute", "m ** 3 / s"),
    Unit.CUBIC_METRE_PER_HOUR: ("m ** 3 / hour", "m ** 3 / s"),
    Unit.FEET_PER_MINUTE: ("foot / minute", "m / s"),
    Unit.MILE_PER_HOUR: ("mile / hour", "m / s"),
    Unit.METRE_PER_SECOND: ("m / s", "m / s"),
    Unit.SECOND: ("s", "s"),
    Unit.MINUTE: ("minute", "s"),
    Unit.HOUR: ("hour", "s"),
    Unit.DAY: ("day", "s"),
}
WATER = {Unit.PINT_PER_DAY: "pint / day", Unit.LITRE_PER_DAY: "litre / day"}
TEMPERATURES = {Unit.FAHRENHEIT: "degF", Unit.CELSIUS: "degC"}


def test_every_unit_is_checked() -> None:
    assert set(IN_PINT) | set(WATER) | set(TEMPERATURES) == set(Unit)


@pytest.mark.parametrize("unit", IN_PINT)
def test_a_unit_is_worth_what_pint_makes_of_it(unit: Unit) -> None:
    written, si = IN_PINT[unit]
    expected = REGISTRY.Quantity(written).to(si).magnitude
    assert unit.to_si(1) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("unit", WATER)
def test_water_is_reckoned_at_a_kilogram_a_litre(unit: Unit) -> None:
    litres = REGISTRY.Quantity(WATER[unit]).to("litre / s").magnitude
    assert unit.to_si(1) == pytest.approx(litres, rel=1e-9)


@pytest.mark.parametrize("unit", TEMPERATURES)
@given(number=st.floats(-60, 400))
def test_temperatures_agree_with_pint(unit: Unit, number: float) -> None:
    expected = REGISTRY.Quantity(number, TEMPERATURES[unit]).to("degC").magnitude
    assert unit.to_si(number) == pytest.approx(expected, abs=1e-9)


@given(unit=st.sampled_from(Unit), number=st.floats(-1e6, 1e6))
def test_a_figure_comes_back_as_it_was_written(unit: Unit, number: float) -> None:
    assert unit.from_si(unit.to_si(number)) == pytest.approx(number, rel=1e-9, abs=1e-9)


def test_the_dimension_of_every_unit_is_that_of_pint() -> None:
    names = ("[length]", "[mass]", "[time]")
    for unit, (written, _) in IN_PINT.items():
        powers = REGISTRY.Quantity(written).dimensionality
        expected = tuple(powers.get(name, 0) for name in names)
        dimension = unit.dimension
        assert (dimension.length, dimension.mass, dimension.time) == expected, unit


def test_the_inch_units_are_the_customary_ones() -> None:
    # NIST SP 811 Appendix B.8 lists these as units outside the SI
    assert Unit.INCH.system is Unit.POUND.system is Unit.FAHRENHEIT.system is System.INCH
    assert Unit.METRE.system is Unit.KILOGRAM.system is Unit.CELSIUS.system is System.METRIC


# NIST SP 811 Appendix B.8 and B.9, factors as printed (memory)
@pytest.mark.parametrize(
    ("unit", "printed"),
    [
        (Unit.PSI, 6.894757e3),
        (Unit.PSF, 4.788026e1),
        (Unit.POUND, 4.535924e-1),
        (Unit.BOARD_FOOT, 2.359737e-3),
        (Unit.CFM, 4.719474e-4),
        (Unit.POUND_PER_CUBIC_FOOT, 1.601846e1),
        (Unit.MILE_PER_HOUR, 4.4704e-1),
    ],
)
def test_factors_as_the_national_standard_prints_them(unit: Unit, printed: float) -> None:
    assert unit.to_si(1) == pytest.approx(printed, rel=3e-7)
