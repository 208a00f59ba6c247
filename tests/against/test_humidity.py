"""Moist air against psychrolib, a psychrometrics package with its own coding of the ASHRAE Handbook's formulas.

It is asked in SI units and in inch-pound units, which it codes apart. Also published rows, named beside each.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import psychrolib
import pytest

from stacklint.drying import air

TEMPERATURES = range(-30, 96, 5)
HUMIDITIES = (0.02, 0.05, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.95, 0.999)
DEPRESSIONS = (0.0, 0.5, 1.0, 2.0, 4.0, 7.0, 11.0, 16.0, 22.0, 30.0, 40.0)
STATES = tuple(product(TEMPERATURES, HUMIDITIES))
SEA_LEVEL_PSI = 14.6959488
"""101 325 Pa in psi."""


@pytest.fixture
def si() -> Iterator[None]:
    psychrolib.SetUnitSystem(psychrolib.SI)
    yield


@pytest.fixture
def ip() -> Iterator[None]:
    psychrolib.SetUnitSystem(psychrolib.IP)
    yield
    psychrolib.SetUnitSystem(psychrolib.SI)


def fahrenheit(celsius: float) -> float:
    return 32 + 1.8 * celsius


@pytest.mark.usefixtures("si")
def test_the_pressure_of_saturated_vapour_over_ice_and_water() -> None:
    for temperature in range(-60, 181):
        assert air.saturation_pressure(temperature) == pytest.approx(psychrolib.GetSatVapPres(temperature), rel=1e-12)


@pytest.mark.usefixtures("si")
def test_the_humidity_at_a_wet_bulb() -> None:
    """Every dry bulb from -20 to 120 C and depression to 40 C at which air has any water: same to 1e-12."""
    seen = 0
    for dry, depression in product(range(-20, 121, 4), DEPRESSIONS):
        wet = dry - depression
        if not -25 < wet < 99:
            continue
        theirs = psychrolib.GetHumRatioFromTWetBulb(dry, wet, air.SEA_LEVEL)
        if theirs <= 1.1e-7:  # Where there can be no such air it answers its least figure, the package 0.
            assert air.humidity_from_wet_bulb(dry, wet) < 1e-3
            continue
        assert air.humidity_from_wet_bulb(dry, wet) == pytest.approx(
            psychrolib.GetRelHumFromTWetBulb(dry, wet, air.SEA_LEVEL), abs=1e-12
        )
        seen += 1
    assert seen > 200


@pytest.mark.usefixtures("si")
def test_the_humidity_at_a_wet_bulb_on_a_mountain() -> None:
    for dry, wet in ((20, 12), (50, 40), (70, 45), (82.2, 54.4)):
        assert air.humidity_from_wet_bulb(dry, wet, 84_000) == pytest.approx(
            psychrolib.GetRelHumFromTWetBulb(dry, wet, 84_000), abs=1e-12
        )


@pytest.mark.usefixtures("si")
def test_the_water_in_air() -> None:
    for temperature, humidity in STATES:
        theirs = psychrolib.GetHumRatioFromRelHum(temperature, humidity, air.SEA_LEVEL)
        assert air.humidity_ratio(temperature, humidity) == pytest.approx(theirs, rel=1e-9, abs=1.1e-7)


@pytest.mark.usefixtures("si")
def test_the_dew_point_and_back() -> None:
    for temperature, humidity in STATES:
        dew_point = air.dew_point(temperature, humidity)
        if dew_point > -90:
            assert dew_point == pytest.approx(psychrolib.GetTDewPointFromRelHum(temperature, humidity), abs=0.001)
        assert air.humidity_from_dew_point(temperature, dew_point) == pytest.approx(humidity, abs=1e-6)


@pytest.mark.usefixtures("si")
def test_the_wet_bulb_and_back() -> None:
    """psychrolib stops within 0.001 C. It is asked below the boil only, above which it answers the dry bulb, and away
    from freezing: within half a degree of 0 C a frozen wick and a wet one both have an answer."""
    for temperature, humidity in STATES:
        wet_bulb = air.wet_bulb(temperature, humidity)
        if abs(wet_bulb) > 0.5:
            theirs = psychrolib.GetTWetBulbFromRelHum(temperature, humidity, air.SEA_LEVEL)
            assert wet_bulb == pytest.approx(theirs, abs=0.002)
        assert air.humidity_from_wet_bulb(temperature, wet_bulb) == pytest.approx(humidity, abs=1e-5)


@pytest.mark.usefixtures("ip")
def test_all_of_it_in_inch_pound_units() -> None:
    """Same to 1e-4 of humidity: the handbook prints the inch-pound constants rounded apart."""
    for temperature, humidity in STATES:
        degrees = fahrenheit(temperature)
        assert air.saturation_pressure(temperature) == pytest.approx(
            psychrolib.GetSatVapPres(degrees) * 6894.757, rel=2e-4
        )
        wet = fahrenheit(air.wet_bulb(temperature, humidity))
        if abs(wet - 32) > 0.1:  # Where the wick freezes the two systems change over at points a hair apart.
            assert psychrolib.GetRelHumFromTWetBulb(degrees, wet, SEA_LEVEL_PSI) == pytest.approx(humidity, abs=3e-3)
        dew = fahrenheit(air.dew_point(temperature, humidity))
        if dew > -140:
            assert psychrolib.GetRelHumFromTDewPoint(degrees, dew) == pytest.approx(humidity, abs=2e-4)


def test_steam_tables_give_the_same_pressure_of_saturated_vapour() -> None:
    """2.339 kPa at 20 C and 101.42 kPa at 100 C, steam tables (memory)."""
    assert air.saturation_pressure(20) == pytest.approx(2339, rel=5e-4)
    assert air.saturation_pressure(100) == pytest.approx(101_420, rel=5e-4)


@pytest.mark.parametrize(
    ("dry", "wet", "worked", "published", "source"),
    [
        (70, 61, 60.0, 59, "FPL R1903-7 (poor scan: the depression's digit is inferred)"),
        (110, 106, 87.4, 87, "AH-188 family (memory)"),
        (110, 105, 84.4, 84, "AH-188 family (memory)"),
        (110, 102, 75.8, 75, "AH-188 family (memory)"),
        (120, 110, 72.3, None, ""),
        (130, 115, 62.8, None, ""),
        (140, 130, 75.3, None, ""),
        (160, 110, 21.5, None, ""),
        (180, 130, 26.4, 26, "AH-188 family (memory)"),
    ],
)
def test_kiln_settings_give_the_published_humidity(
    dry: float, wet: float, worked: float, published: float | None, source: str
) -> None:
    """Within 1.1 points of the manuals, which used an older formula and print whole points."""
    humidity = 100 * air.humidity_from_wet_bulb((dry - 32) / 1.8, (wet - 32) / 1.8)
    assert humidity == pytest.approx(worked, abs=0.06)
    if published is not None:
        assert humidity == pytest.approx(published, abs=1.1), source


def weather_glossary(dry: float, wet: float) -> float:
    """Relative humidity by the American Meteorological Society's glossary (found):
    https://glossary.ametsoc.org/wiki/Psychrometric_formula"""

    def saturated(t: float) -> float:
        return float(2.718281828459045 ** ((16.78 * t - 116.9) / (t + 237.3)))

    return (saturated(wet) - 0.00066 * (1 + 0.00115 * wet) * 101.3 * (dry - wet)) / saturated(dry)


def test_the_weather_glossarys_formula_gives_the_same_humidity_to_a_point() -> None:
    """Largest difference 1.1 points (70 F and 46 F) over dry bulbs of 60 to 180 F; 0.7 at the kiln settings above."""
    gaps = []
    for dry, depression in product(range(60, 181, 10), range(2, 51, 2)):
        bulbs = (dry - 32) / 1.8, (dry - depression - 32) / 1.8
        humidity = air.humidity_from_wet_bulb(*bulbs)
        if bulbs[1] > 5 and humidity > 0.02:
            gaps.append((abs(weather_glossary(*bulbs) - humidity), dry, depression))
    assert len(gaps) > 200
    assert max(gaps)[0] < 0.0115, max(gaps)
