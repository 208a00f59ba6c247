"""Dry sizes against published ones."""

from __future__ import annotations

import pytest

from stacklint.drying.finish import dry_size, shrinkage_of
from stacklint.plan.boards import Face
from stacklint.rulebook import builtin
from stacklint.tables import woods
from stacklint.units import ONE_INCH

HARDWOODS = ("northern red oak", "white oak", "white ash", "sugar maple", "black cherry", "black walnut")


def dry(name: str, face: Face, moisture: float, green: float = 1.0) -> float:
    """Thickness in inches of a board that is ``green`` inches thick off the saw."""
    wood = woods.find(name)
    assert wood is not None
    return dry_size(green, shrinkage_of(wood, face).thickness, moisture)


def limit(name: str) -> float:
    """Of the rule on finished sizes, in inches."""
    rule = builtin().rule("too-thin-after-drying")
    assert rule is not None
    return next(limit.value.value for limit in rule.limits if limit.name == name) / ONE_INCH


@pytest.mark.parametrize("name", HARDWOODS)
def test_flatsawn_hardwoods_lose_about_three_percent_or_less_from_green_to_air_dry(name: str) -> None:
    """Wengert, Correct thickness for 4/4 and 8/4 lumber (woodworkingnetwork.com): about 3% or less; 15% as air-dry."""
    assert 1 - dry(name, Face.FLAT, 0.15) < 0.03


def test_quartersawn_oak_loses_about_a_sixteenth_of_five_quarters_in_air_and_six_to_eight_percent_in_the_kiln() -> None:
    """Wengert, clarification on 5/4 lumber, https://woodweb.com./cgi-bin/forums/sawdry.pl?read=758973: 5% in the air,
    6 to 8% in all in the kiln, perhaps 4% flatsawn."""
    assert 1 - dry("northern red oak", Face.QUARTER, 0.14) == pytest.approx(0.05, abs=0.007)
    assert 0.055 < 1 - dry("northern red oak", Face.QUARTER, 0.07) < 0.08
    assert 1 - dry("northern red oak", Face.FLAT, 0.07) < 0.04


@pytest.mark.parametrize("name", HARDWOODS)
def test_four_quarters_sawn_as_mills_saw_them_plane_to_thirteen_sixteenths(name: str) -> None:
    """Wengert, Rough-sawn thickness versus finished thickness (woodweb.com/knowledge_base):
    most mills saw 4/4 to 1 1/16 in on the average; 13/16 in is its surfaced size (froggybuilder.com, 2014)."""
    left = dry(name, Face.FLAT, 0.07, 1 + 1 / 16) - 2 * limit("face")
    assert left >= 13 / 16


def test_the_planing_allowance_lies_above_the_least_of_a_planer_mill() -> None:
    """Oregon State University EM 8731 (2000) p. 5: in its example a bottom head is set to take 0.030 in."""
    assert limit("face") > 0.030
