"""What a stack says of its days, its moisture and its kiln that cannot all be so."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stacklint.drying.batch import Batch
from stacklint.faults import Fault, FaultKind, Measure
from stacklint.plan.stack import Day, Stack, StackKind
from stacklint.plan.yard import Kiln
from stacklint.show import percent
from stacklint.units import NUMBER, TEMPERATURE
from stacklint.where import Where

_SAME_HEAT = 1.0
"""C. Heats said in Fahrenheit and in Celsius may differ by so little and be meant alike."""


def contradictions(
    stack: Stack, batches: tuple[Batch, ...], piles: Sequence[Stack] = (), kiln: Kiln | None = None
) -> Iterator[Fault]:
    """The faults, each at its place. ``piles`` are those that a charge takes its boards from."""
    yield from _days(stack)
    yield from _taken_too_soon(stack, piles)
    yield from _target(stack, batches)
    yield from _conditions(stack)
    if kiln is not None:
        yield from _too_hot(stack, kiln)
    yield from _schedule(stack)


def _days(stack: Stack) -> Iterator[Fault]:
    charge = stack.kind is StackKind.CHARGE
    begins = (stack.starts or stack.stacked) if charge else stack.stacked
    start = "the charge starts" if charge else "they are stacked"
    by = stack.want.by if stack.want is not None else None
    if stack.sawn is not None and stack.stacked is not None and stack.stacked.date < stack.sawn.date:
        message = f"Stacked on {stack.stacked.date}, before the boards were sawn on {stack.sawn.date}."
        yield _wrong(stack, stack.stacked.where, message, "Correct one of the two dates.")
    if charge and stack.starts is not None:
        for said, done in ((stack.stacked, "stacked"), (stack.sawn, "sawn")):
            if said is not None and stack.starts.date < said.date:
                message = f"The charge starts on {stack.starts.date}, before the boards are {done} on {said.date}."
                yield _wrong(stack, stack.starts.where, message, "Correct one of the two dates.")
    if by is not None and begins is not None and by.date < begins.date:
        yield _too_early(stack, by, begins, start)


def _too_early(stack: Stack, by: Day, begins: Day, start: str) -> Fault:
    message = f"The boards are wanted by {by.date}, but {start} on {begins.date}."
    return _wrong(stack, by.where, message, "Correct one of the two dates.")


def _taken_too_soon(charge: Stack, piles: Sequence[Stack]) -> Iterator[Fault]:
    for pile in piles:
        if charge.starts is not None and pile.stacked is not None and charge.starts.date < pile.stacked.date:
            message = (
                f"The charge starts on {charge.starts.date}, before the pile {pile.name.text} "
                f"that its boards come from is stacked on {pile.stacked.date}."
            )
            yield _wrong(charge, charge.starts.where, message, "Correct one of the two dates.")


def _target(stack: Stack, batches: tuple[Batch, ...]) -> Iterator[Fault]:
    want = stack.want
    if want is None or want.moisture is None or not batches:
        return
    wettest = max(batch.moisture for batch in batches)
    if want.moisture.si <= wettest:
        return
    yield Fault(
        FaultKind.VALUE_OUT_OF_RANGE,
        want.where,
        f"{percent(want.moisture.si)} is wanted, "
        f"but the wettest of the boards are at {percent(round(wettest, 3))} already.",
        "Want a lower moisture content, or correct that of the boards.",
        stack.name.text,
        Measure(want.moisture.si, NUMBER),
        Measure(wettest, NUMBER),
    )


def _conditions(stack: Stack) -> Iterator[Fault]:
    for setting in stack.runs:
        wet = setting.wet_bulb
        if wet is not None and wet.si > setting.dry_bulb.si:
            message = (
                f"A wet bulb of {wet.number:g} {wet.unit.symbol} above a dry bulb of "
                f"{setting.dry_bulb.number:g} {setting.dry_bulb.unit.symbol} cannot be."
            )
            yield _wrong(stack, setting.where, message, "Write the dry bulb first, as: runs at 110 F / 102 F.")


def _too_hot(stack: Stack, kiln: Kiln) -> Iterator[Fault]:
    """Settings hotter than the kiln gets."""
    most = kiln.heats_to
    if most is None:
        return
    for setting in stack.runs:
        hot = setting.dry_bulb
        if hot.si > most.si + _SAME_HEAT:
            yield Fault(
                FaultKind.VALUE_OUT_OF_RANGE,
                setting.where,
                f"The charge runs at {hot.number:g} {hot.unit.symbol}, but kiln {kiln.name.text} heats to "
                f"{most.number:g} {most.unit.symbol}.",
                "Run it no hotter than it heats, or correct what the kiln heats to.",
                stack.name.text,
                Measure(hot.si, TEMPERATURE),
                Measure(most.si, TEMPERATURE),
            )


def _schedule(stack: Stack) -> Iterator[Fault]:
    said = stack.schedule
    if said is None:
        return
    from stacklint.tables import schedules

    if schedules.known(said.text):
        return
    close = ", ".join(schedules.nearest(said.text))
    near = f"; near it are {close}" if close else ""
    yield Fault(
        FaultKind.VALUE_OUT_OF_RANGE,
        said.where,
        f"There is no published kiln schedule {said.text}.",
        f"Write a temperature code T1 to T14 and a wet-bulb code A1 to F8, as T8-D4{near}.",
        stack.name.text,
    )


def _wrong(stack: Stack, where: Where, message: str, instead: str) -> Fault:
    return Fault(FaultKind.VALUE_OUT_OF_RANGE, where, message, instead, stack.name.text)
