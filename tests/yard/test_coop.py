"""A whole co-op: every planted fault is found, at its place and with the places that have a share in it; none is
invented."""

from __future__ import annotations

import datetime
import json
from collections import Counter
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from made_coop import OF_A_YARD, TODAY, WITHIN, Coop, Expected, Fault, seeded, sound

from stacklint.command.main import main

OF_THE_YARD = {
    "kiln-double-booked",
    "spot-double-booked",
    "name-used-twice",
    "pile-taken-twice",
    "pile-not-dry-yet",
    "yard-overfull",
}
Seen = tuple[str, str, str, int, str, tuple[tuple[str, int], ...]]
FEW = dict.fromkeys(Fault, 1) | {Fault.KILN_TWICE: 3, Fault.SPOT_TWICE: 2, Fault.TAKEN_TWICE: 3, Fault.NAME_TWICE: 2}
MANY = dict.fromkeys(Fault, 12) | {Fault.KILN_TWICE: 30, Fault.SPOT_TWICE: 25, Fault.TAKEN_TWICE: 20}


def checked(coop: Coop, folder: Path, capsys: pytest.CaptureFixture[str], *words: str) -> Any:
    coop.write(folder)
    main(["check", str(folder), "--as", "json", "--today", str(TODAY), "--cache", "none", *words])
    out, err = capsys.readouterr()
    assert err == ""
    return json.loads(out)


def found(report: Any, folder: Path) -> Counter[Seen]:
    """What the plans say of one another: by the rules on that, or of a pile that stands in another plan."""

    def home(path: str) -> str:
        return Path(path).relative_to(folder).as_posix()

    return Counter(
        (
            each["rule"],
            each["level"],
            home(each["path"]),
            each["line"],
            each["stack"],
            tuple(sorted((home(other["path"]), other["line"]) for other in each["related"])),
        )
        for plan in report["plans"]
        for each in plan["findings"]
        if each["rule"] in OF_THE_YARD or each["related"]
    )


def planted(coop: Coop) -> Counter[Seen]:
    def seen(each: Expected) -> Seen:
        related = sorted((place.path, coop.line(place)) for place in each.related)
        return each.rule, each.level, each.place.path, coop.line(each.place), each.stack, tuple(related)

    return Counter(map(seen, coop.between))


def within(report: Any, folder: Path) -> set[tuple[str, str]]:
    return {
        (each["rule"], Path(each["path"]).relative_to(folder).as_posix())
        for plan in report["plans"]
        for each in plan["findings"]
        if each["level"] != "note"
    }


def test_plans_of_a_sound_co_op_say_nothing_against_one_another_and_nothing_graver_than_a_note(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    report = checked(sound(1, 190), tmp_path, capsys, "--processes", "1")
    assert len(report["plans"]) >= 190
    assert within(report, tmp_path) == set()
    assert found(report, tmp_path) == Counter()


def test_every_fault_that_was_planted_in_a_co_op_is_found_where_it_is_and_no_other(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    coop = seeded(2, 280, FEW)
    report = checked(coop, tmp_path, capsys, "--processes", "1")
    assert found(report, tmp_path) == planted(coop)
    assert set(coop.within) <= within(report, tmp_path)


@pytest.mark.slow
def test_faults_planted_among_thousands_of_plans_are_all_found(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    coop = seeded(3, 3000, MANY)
    report = checked(coop, tmp_path, capsys)
    assert found(report, tmp_path) == planted(coop)
    assert set(coop.within) <= within(report, tmp_path)


@pytest.mark.parametrize("fault", [each for each in Fault if each not in WITHIN])
def test_what_is_planted_is_planted(fault: Fault) -> None:
    """Else all of the above would hold of a co-op that has no fault."""
    faults: Mapping[Fault, int] = {fault: 2}
    coop, twin, other = seeded(5, 190, faults), seeded(5, 190, faults), sound(5, 190)
    assert len(coop.between) == 2 * (4 if fault is Fault.KILN_MONTH else 1)
    assert coop == twin
    changed = {path for path, text in coop.texts.items() if other.texts[path] != text}
    limits = {place.path for each in coop.between for place in each.related if place.path.endswith("yard.stackplan")}
    assert len(changed) >= 2
    assert len(limits) == (2 if fault in OF_A_YARD else 0)
    assert limits <= changed


def test_a_made_plan_is_of_the_length_of_a_real_one() -> None:
    texts = [text for path, text in sound(6, 190).texts.items() if path.endswith(".stackplan")]
    lengths = sorted(text.count("\n") for text in texts)
    assert 20 <= lengths[len(lengths) // 2] <= 30


def test_the_days_of_a_made_co_op_lie_after_the_day_of_its_check() -> None:
    days = [line.split()[1] for text in sound(7, 190).texts.values() for line in text.split("\n") if "  sawn " in line]
    assert min(map(datetime.date.fromisoformat, days)) > TODAY
