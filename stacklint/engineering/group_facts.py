"""Facts of the groups of boards of a stack."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from stacklint.drying import times
from stacklint.drying.forecast import Forecast, NoForecast
from stacklint.engineering import finish_facts
from stacklint.engineering.facts import Group
from stacklint.engineering.lots import TIMBER, Lot
from stacklint.findings import Mark, Part
from stacklint.layout.arrangement import Arrangement, CourseRun
from stacklint.plan.node import Quantity, Range
from stacklint.plan.stack import Stack, StackKind
from stacklint.tables import safe_rates
from stacklint.units import GRAVITY


def groups(
    stack: Stack,
    lots: Iterable[Lot],
    arrangement: Arrangement,
    widest: Mapping[str, float],
    forecast: Forecast | NoForecast,
) -> tuple[Group, ...]:
    """The facts of each lot. ``widest`` is the widest distance between stickers under the boards of a label, m."""
    runs = _runs(arrangement)
    return tuple(
        _group(lot, stack, arrangement, runs.get(lot.label, ()), widest.get(lot.label), _first_loss(lot, forecast))
        for lot in lots
    )


def _runs(arrangement: Arrangement) -> dict[str, list[CourseRun]]:
    """The runs of courses that boards of each label lie in."""
    found: dict[str, list[CourseRun]] = {}
    for run in arrangement.courses:
        for label in dict.fromkeys(piece.label for rows in run.rows for piece in rows.row.pieces):
            found.setdefault(label, []).append(run)
    return found


def _group(
    lot: Lot,
    stack: Stack,
    arrangement: Arrangement,
    runs: Sequence[CourseRun],
    spacing: float | None,
    first_loss: float | None,
) -> Group:
    safe = safe_rates.of(lot.wood, lot.thickness)
    drying = times.drying_time(lot.wood, lot.thickness, lot.moisture.value, kiln=stack.kind is StackKind.CHARGE)
    return Group(
        where=lot.boards.where,
        marks=tuple(Mark(Part.COURSE, run.first, run.last) for run in runs),
        label=lot.label,
        boards=lot.words,
        wood=lot.wood.name,
        hardwood=lot.wood.hardwood,
        pieces=lot.pieces,
        volume=lot.volume,
        thickness=lot.thickness,
        width=lot.width,
        length=lot.longest,
        moisture=lot.moisture.value,
        moisture_stated=lot.moisture.stated,
        density=lot.weight_density / GRAVITY,
        board_mass=lot.weight_density / GRAVITY * lot.largest_volume,
        sizes_vary=not isinstance(lot.boards.width, Quantity) or isinstance(lot.boards.length, Range),
        timber=lot.thickness >= TIMBER,
        warp_prone=lot.wood.warp_prone,
        stain_prone=lot.wood.stain_prone,
        check_prone=lot.wood.check_prone,
        unpaired=sum(odd.count for odd in arrangement.unpaired if odd.label == lot.label),
        left_over=sum(odd.count for odd in arrangement.left_over if odd.label == lot.label),
        spacing=spacing,
        **finish_facts.sizes(lot, stack),
        drying_days_low=drying.low if drying is not None else None,
        drying_days_high=drying.high if drying is not None else None,
        safe_loss=safe.per_day if safe is not None else None,
        safe_memory=safe.memory if safe is not None else None,
        first_loss=first_loss,
    )


def _first_loss(lot: Lot, forecast: Forecast | NoForecast) -> float | None:
    """Moisture content that a lot likely loses on the first day of its forecast; readings speak for themselves."""
    if isinstance(forecast, NoForecast) or forecast.restarted is not None:
        return None
    curve = next(each.spread.likely for each in forecast.batches if each.batch.label == lot.label)
    return curve.moisture[0] - curve.moisture[1] if len(curve.moisture) > 1 else None
