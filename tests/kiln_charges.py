"""Batches and kilns for tests of kiln drying, in the trade's units."""

from __future__ import annotations

import datetime

from stacklint.drying.batch import Batch
from stacklint.drying.climate import Air, Climate
from stacklint.drying.kiln_drying import KilnDrying, dry
from stacklint.drying.kiln_run import KilnRun
from stacklint.plan.boards import Face
from stacklint.plan.yard import KilnType
from stacklint.tables import woods
from stacklint.tables.wood import Wood
from stacklint.units import ONE_BOARD_FOOT, ONE_INCH, Unit

JUNE = datetime.date(2026, 6, 1)
VENTED = KilnRun(KilnType.VENTED)
DEHUMIDIFICATION = KilnRun(KilnType.DEHUMIDIFICATION)
SUMMER = Climate((Air(22.0, 0.68),) * 12, "everlasting summer", "made for a test", memory=False)
"""What the solar kiln's collector was fitted in."""


def wood(name: str) -> Wood:
    found = woods.find(name)
    assert found is not None, name
    return found


def batch(
    name: str, inches: float = 1.0, moisture: float | None = None, board_feet: float = 500, face: Face | None = None
) -> Batch:
    """Boards of a wood; green where no moisture content is given."""
    kind = wood(name)
    mass = board_feet * ONE_BOARD_FOOT * kind.sg_green * 1000
    words = f"{name} {inches * 4:g}/4"
    return Batch(name, words, kind, inches * ONE_INCH, kind.mc_green if moisture is None else moisture, mass, face)


def likely(found: KilnDrying, index: int = 0) -> float:
    reached = found.spreads[index].likely.reached
    assert reached is not None
    return reached


def days(charge: Batch, run: KilnRun = VENTED, wanted: float = 0.06) -> float:
    return likely(dry([charge], run, wanted, JUNE))


def dehumidifier(pints: float, heats_to: float = 120.0, hours: float | None = None) -> KilnRun:
    """A dehumidification kiln by its machine's pints a day and its hottest air, F."""
    return KilnRun(
        KilnType.DEHUMIDIFICATION,
        heats_to=Unit.FAHRENHEIT.to_si(heats_to),
        removes=Unit.PINT_PER_DAY.to_si(pints),
        hours=hours,
    )


def solar(square_feet: float, climate: Climate = SUMMER) -> KilnRun:
    return KilnRun(KilnType.SOLAR, collector=Unit.SQUARE_FOOT.to_si(square_feet), outdoor=climate)
