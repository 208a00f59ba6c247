"""Which proposals are tried for which rule, and what is for people alone to decide."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from types import MappingProxyType

from stacklint.mending import dates, foundation, running, shelter, sorting, splitting, stickers, texts
from stacklint.mending.case import Case, Proposal, Proposer
from stacklint.plan.stack import Stack


def _of_stack(*proposers: Callable[[Case, Stack], Iterable[Proposal]]) -> Proposer:
    """One after the other, for a finding of a stack."""

    def proposals(case: Case) -> Iterator[Proposal]:
        if case.stack is not None:
            for proposer in proposers:
                yield from proposer(case, case.stack)

    return proposals


PROPOSERS: Mapping[str, Proposer] = MappingProxyType(
    {
        # stickers and ends
        "sticker-crushing": _of_stack(stickers.broader),
        "no-stickers": _of_stack(stickers.on_stickers),
        "stickers-wet": _of_stack(stickers.dry),
        "stickers-too-thin": _of_stack(stickers.thicker),
        "stickers-too-thick": _of_stack(stickers.thinner),
        "stickers-too-wide": _of_stack(stickers.narrower),
        "stickers-uneven": _of_stack(stickers.one_thickness),
        "stickers-too-short": _of_stack(stickers.as_long_as_wide),
        "stickers-short": _of_stack(stickers.wider),
        "ends-bare": _of_stack(shelter.coated),
        "slow-to-stack": _of_stack(dates.stacked_sooner),
        # support
        "sag-between-stickers": _of_stack(stickers.closer, stickers.bearers_alike),
        "sticker-spacing-too-wide": _of_stack(stickers.closer),
        "end-sticker-missing": _of_stack(stickers.ends),
        "board-on-one-sticker": _of_stack(stickers.ends),
        "joint-off-sticker": _of_stack(stickers.joints),
        "sticker-off-bearer": _of_stack(stickers.bearers_alike),
        "stickers-out-of-line": _of_stack(stickers.in_line),
        "top-unweighted": _of_stack(shelter.top_load),
        "course-half-empty": _of_stack(sorting.laid_anew, foundation.another_width),
        "weights-on-few-boards": _of_stack(foundation.another_width),
        # loads
        "bearer-overloaded": _of_stack(foundation.stronger_bearers),
        "ground-overloaded": _of_stack(foundation.broader_footing),
        "block-overloaded": _of_stack(foundation.more_pads, foundation.stronger_bearers),
        "kiln-overfull": _of_stack(splitting.by_amount),
        "kiln-overweight": _of_stack(splitting.by_amount),
        "rack-overloaded": _of_stack(splitting.by_amount),
        "floor-overloaded": _of_stack(splitting.by_amount),
        "stack-too-big-for-kiln": _of_stack(foundation.into_kiln, splitting.by_amount),
        "pile-top-heavy": _of_stack(foundation.wider_stack, splitting.by_amount),
        "pile-too-tall": _of_stack(foundation.wider_stack, splitting.by_amount),
        # weather
        "no-cover": _of_stack(shelter.covered),
        "cover-too-short": _of_stack(shelter.overhang),
        "rain-on-sides": _of_stack(shelter.overhang),
        "cover-on-boards": _of_stack(shelter.gap),
        "cover-flat": _of_stack(shelter.slope),
        "cover-untied": _of_stack(shelter.tied),
        "sides-sealed": _of_stack(shelter.opened),
        "clearance-too-low": _of_stack(foundation.higher),
        "season-for-checks": _of_stack(shelter.shaded, dates.another_season),
        "season-for-stain": _of_stack(dates.another_season),
        # air
        "pile-too-wide": _of_stack(foundation.narrower_stack),
        "boards-too-tight": _of_stack(foundation.boards_apart),
        "piles-too-close": _of_stack(foundation.next_pile),
        "airflow-too-slow": _of_stack(running.baffles, stickers.thinner, splitting.by_amount),
        "plenum-too-narrow": _of_stack(stickers.thinner, splitting.by_amount),
        "baffle-missing": _of_stack(running.baffles),
        # sorting
        "mixed-thickness-in-course": _of_stack(sorting.laid_anew),
        "mixed-thickness-in-stack": _of_stack(splitting.by_thickness),
        "mixed-species": _of_stack(splitting.by_wood),
        "mixed-moisture": _of_stack(splitting.by_moisture),
        "lengths-unpaired": _of_stack(sorting.left_out),
        "long-over-short": _of_stack(sorting.laid_anew),
        "ragged-ends": _of_stack(sorting.as_long_as_rows),
        "boards-do-not-fit": _of_stack(sorting.laid_anew),
        # drying
        "target-wrong-for-use": _of_stack(running.for_the_use),
        "target-below-reach": _of_stack(running.reachable),
        "not-ready-in-time": _of_stack(dates.promised_later, running.reachable),
        "too-thin-after-drying": _of_stack(running.smaller_wish),
        "kiln-cannot-sterilize": _of_stack(running.hotter_spell),
        "insects-not-killed": _of_stack(running.hotter_spell),
        "schedule-too-harsh": _of_stack(running.published_schedule),
        "dryer-too-small": _of_stack(splitting.by_amount),
        "reading-implausible": _of_stack(dates.readings_in_order),
        # the yard
        "kiln-double-booked": _of_stack(dates.started_later),
        "spot-double-booked": _of_stack(dates.started_later),
        "pile-not-dry-yet": _of_stack(dates.started_later),
        "yard-overfull": _of_stack(dates.started_later),
        # the text
        "plan-text": texts.meant,
        "unknown-species": texts.meant,
        "unknown-place": texts.meant,
        "unknown-kiln": texts.meant,
        "value-out-of-range": texts.another_unit,
        "name-used-twice": texts.another_name,
        "waiver-unused": texts.waiver_out,
        "waiver-expired": texts.old_waiver_out,
    }
)

FOR_PEOPLE: Mapping[str, str] = MappingProxyType(
    {
        "ground-not-flat": "The plan tells what was measured: bring the bearers into one plane, then say how they lie.",
        "lift-too-heavy": "No change of the plan makes a board lighter: waive it, and say who lifts it.",
        "airflow-too-fast": "Which fans are run, and how fast, is for you to decide; say so in the kiln's block.",
        "dryer-too-strong": "How the machine is held back is for whoever runs it: by its controls, or by fewer hours.",
        "dried-too-fast": "What was measured stays: look for checks, and slow the drying down.",
        "dried-too-slow": "What was measured stays: look for what keeps the air from the boards.",
        "place-without-air": "Whether to move the boards or to set up a fan is for you to decide.",
        "place-too-hot": "Where else the boards could stand is for you to decide.",
        "wind-along-boards": "Whether the stack can be turned is for you to decide.",
        "assumed": "Only you know what is so; say it in the plan.",
        "not-judged": "Only you know what is so; say it in the plan.",
        "waiver-without-reason": "Only you know the reason.",
    }
)
"""Rules that no proposal is made for, and why."""

UNCLEAR: Mapping[str, str] = MappingProxyType(
    {
        "plan-text": "What was meant is not plain.",
        "unknown-species": "Which wood was meant is not plain.",
        "unknown-place": "Which place was meant is not plain.",
        "unknown-kiln": "Which kiln was meant is not plain.",
        "value-out-of-range": "Which figure was meant is not plain.",
        "slow-to-stack": "The days that have passed cannot be changed.",
        "ends-bare": "Ends that were not coated fresh stay so.",
        "lengths-unpaired": "Whether boards are added, cut or left out is for you to decide.",
        "stickers-short": "How many stickers can be had is for you to say.",
        "reading-implausible": "Only you know what was measured.",
        "season-for-stain": "The day is past, or no other day of a year is better for the rest of the plan.",
        "waiver-expired": "Whether it holds on is for you to decide, with a new day and reason.",
        "spot-double-booked": "What stands there is built: which stack moves is for you to decide.",
        "yard-overfull": "What stands there is built: which stack moves, or what is added, is for you to decide.",
        "pile-taken-twice": "Which charge gets which boards is for you to decide.",
    }
)
"""What is said where a rule's proposals all fail, in place of that no single change will do."""
