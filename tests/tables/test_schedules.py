"""Which published schedule a wood takes, and codes as people write them."""

from __future__ import annotations

from math import inf

import pytest
from kiln_charges import wood

from stacklint.tables import schedules
from stacklint.tables.rows import read
from stacklint.units import ONE_INCH, Unit


# Dry Kiln Operator's Manual AH-188 (1991) ch. 7 code index (memory).
@pytest.mark.parametrize(
    ("name", "thin", "thick"),
    [
        ("northern red oak", "T4-D2", "T3-D1"),
        ("white oak", "T4-C2", "T3-C1"),
        ("sugar maple", "T8-C3", "T5-C2"),
        ("black cherry", "T8-B4", "T5-B3"),
        ("black walnut", "T6-D4", "T3-D3"),
        ("yellow-poplar", "T11-D4", "T10-D3"),
        ("American basswood", "T12-E7", "T10-E6"),
        ("eastern white pine", "T11-C5", "T10-C4"),
    ],
)
def test_a_wood_takes_its_published_codes_by_thickness(name: str, thin: str, thick: str) -> None:
    four, six, eight = (schedules.published(wood(name), inches * ONE_INCH) for inches in (1, 1.5, 2))
    assert four is not None and six is not None and eight is not None
    assert (four.code, six.code, eight.code) == (thin, thin, thick)
    assert four.origin.memory and not eight.beyond


def test_boards_thicker_than_8_4_take_its_row_and_lie_beyond_it() -> None:
    found = schedules.published(wood("white oak"), 3 * ONE_INCH)
    assert found is not None
    assert found.code == "T3-C1" and found.beyond


def test_thick_lowland_oak_has_no_schedule_from_green() -> None:
    """AH-188 has it air-dried to about 25% first (memory)."""
    assert schedules.published(wood("southern red oak"), ONE_INCH) is not None
    assert schedules.published(wood("southern red oak"), 2 * ONE_INCH) is None


def test_a_softwood_whose_row_was_not_recalled_has_no_schedule() -> None:
    assert schedules.published(wood("coast Douglas-fir"), ONE_INCH) is None
    assert schedules.mild(wood("coast Douglas-fir")) == schedules.MILD_SOFTWOOD


def test_the_code_for_woods_without_one_is_the_mildest_of_its_kind() -> None:
    rows = [row for row in read("kiln_schedule_species") if schedules.known(row["schedule_code"])]
    for group, mild in (("hardwood", schedules.MILD_HARDWOOD), ("softwood", schedules.MILD_SOFTWOOD)):
        codes = {row["schedule_code"] for row in rows if row["group"] == group and "redcedar" not in row["species"]}
        assert mild in codes
        start = {code: schedules.temperatures(code)[0][1] for code in codes}
        assert start[mild] == min(start.values())


@pytest.mark.parametrize("written", ["T8-D4", "t8-d4", "T8D4", " t8 d4 ", "T08-D4"])
def test_a_code_is_known_however_it_is_written(written: str) -> None:
    assert schedules.known(written) == "T8-D4"


@pytest.mark.parametrize(
    ("written", "near"), [("T99-D4", "T14-D4"), ("T8-D9", "T8-D8"), ("T0-A1", "T1-A1"), ("T6-H2", "T6-F2")]
)
def test_a_code_that_does_not_exist_is_met_with_the_nearest(written: str, near: str) -> None:
    assert schedules.known(written) is None
    assert schedules.nearest(written)[0] == near
    assert schedules.known(near) == near


def test_a_half_written_code_is_met_with_codes_spelt_like_it() -> None:
    assert schedules.known("T9-D") is None
    assert "T9-D1" in schedules.nearest("T9-D")


def test_there_are_14_temperature_and_48_depression_codes_with_as_many_steps_as_printed() -> None:
    codes = {row["code"] for row in read("kiln_schedule_steps")}
    hot = {code for code in codes if code.startswith("T")}
    assert (len(hot), len(codes - hot)) == (14, 48)
    assert all(len(schedules.temperatures(f"{code}-A1")) == 5 for code in hot)
    assert all(len(schedules.depressions(f"T1-{code}")) == 6 for code in codes - hot)


def test_every_schedule_gets_hotter_and_drier_as_the_boards_dry() -> None:
    for row in read("kiln_schedule_species"):
        code = schedules.known(row["schedule_code"])
        for steps in (schedules.temperatures(code), schedules.depressions(code)) if code else ():
            assert steps[0][0] == inf
            starts, figures = zip(*steps, strict=True)
            assert list(starts) == sorted(starts, reverse=True)
            assert list(figures) == sorted(figures)


def test_the_celsius_columns_of_the_table_agree_with_the_fahrenheit_ones() -> None:
    for row in read("kiln_schedule_steps"):
        if row["dry_bulb_f"]:
            assert Unit.FAHRENHEIT.to_si(float(row["dry_bulb_f"])) == pytest.approx(float(row["dry_bulb_c"]), abs=0.06)
        else:
            depression = float(row["wet_bulb_depression_f"]) / 1.8
            assert depression == pytest.approx(float(row["wet_bulb_depression_c"]), abs=0.06)
