"""What the boards of a stack weigh as they are stacked, as they were last read, and dry."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from typing import NamedTuple

from stacklint.checked import CheckedStack
from stacklint.drying.density import mass, oven_dry_mass
from stacklint.drying.forecast import Forecast
from stacklint.engineering.part_facts import Group
from stacklint.plan.stack import Reading, Stack, StackKind
from stacklint.tables import woods
from stacklint.tables.wood import Wood

AIR_DRY, KILN_DRY = 0.12, 0.08
"""Moisture contents that dry boards are weighed at where none is wanted: of a pile the customary one of tables of
weights (Wood Handbook), of a charge that of rooms (common practice, no source)."""


class Weighed(NamedTuple):
    """``mass`` (kg) of all the boards at ``moisture``, their mean; ``day`` of a reading."""

    mass: float
    moisture: float
    day: datetime.date | None = None


class _Lot(NamedTuple):
    """Boards of one group: ``volume`` as listed, m3."""

    label: str
    wood: Wood
    volume: float
    moisture: float


def as_stacked(checked: CheckedStack) -> Weighed | None:
    """``None`` where what a wood weighs is not known here."""
    lots = _lots(checked)
    return _weighed(lots, [lot.moisture for lot in lots])


def as_read(checked: CheckedStack) -> Weighed | None:
    """By the last reading of each group; ``None`` where some group has none."""
    lots = _lots(checked)
    last = [_last(checked.stack, lot.label) for lot in lots]
    known = [reading for reading in last if reading]
    found = _weighed(lots, [_mean(reading) for reading in known])
    if found is None or len(known) < len(lots):
        return None
    return found._replace(day=max(reading[0].day.date for reading in known))


def dry(checked: CheckedStack) -> Weighed | None:
    """At the moisture content that is wanted, else at a customary one; boards that are drier stay as they are.

    ``None`` also where nothing is wanted and the boards are no wetter.
    """
    want = checked.stack.want
    if want is not None and want.moisture is not None:
        at = want.moisture.si
    else:
        at = KILN_DRY if checked.stack.kind is StackKind.CHARGE else AIR_DRY
    lots = _lots(checked)
    if (want is None or want.moisture is None) and all(lot.moisture <= at for lot in lots):
        return None
    found = _weighed(lots, [min(at, lot.moisture) for lot in lots])
    return found._replace(moisture=at) if found is not None else None


def _weighed(lots: Sequence[_Lot], moistures: Sequence[float]) -> Weighed | None:
    if not lots or len(lots) != len(moistures):
        return None
    now = sum(mass(lot.wood, lot.volume, each) for lot, each in zip(lots, moistures, strict=True))
    bone = sum(oven_dry_mass(lot.wood, lot.volume) for lot in lots)
    return Weighed(now, now / bone - 1) if bone > 0 else None


def _lots(checked: CheckedStack) -> tuple[_Lot, ...]:
    groups = checked.facts.groups if checked.facts is not None else ()
    batches = checked.forecast.batches if isinstance(checked.forecast, Forecast) else ()
    described = {each.batch.label: each.batch.wood for each in batches}
    found = [_lot(group, described) for group in groups]
    known = tuple(lot for lot in found if lot is not None)
    return known if len(known) == len(found) else ()


def _lot(group: Group, described: dict[str, Wood]) -> _Lot | None:
    wood = described.get(group.label or "") or woods.find(group.wood or "")
    if wood is None or group.volume is None or group.moisture is None:
        return None
    return _Lot(group.label or "", wood, group.volume, group.moisture)


def _last(stack: Stack, label: str) -> list[Reading]:
    """The readings of the last day on which these boards were read."""
    of_them = [each for each in stack.readings if each.label is None or each.label.text == label]
    last = max((each.day.date for each in of_them), default=None)
    return [each for each in of_them if each.day.date == last]


def _mean(readings: Sequence[Reading]) -> float:
    return sum(each.moisture.si for each in readings) / len(readings)
