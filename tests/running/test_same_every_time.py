"""The same plans come to the same report to the byte: on one core or several, from a cache or not, in whatever order
they are named, in whichever process."""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from made_coop import TODAY, Fault, seeded

from stacklint.command.main import main

FORMS = ("lines", "json", "sarif", "html")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One yard with faults within its plans and between them."""
    where = tmp_path_factory.mktemp("coop")
    seeded(12, 49, {Fault.KILN_TWICE: 1, Fault.TAKEN_TWICE: 1, Fault.WIDE: 1, Fault.SPOTS: 1}).write(where)
    return where


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("cache")


@pytest.fixture(scope="module")
def plain(folder: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """Each form of report as one process has it without a cache."""
    out = tmp_path_factory.mktemp("plain")
    return {form: report(folder, out / form, form, 1, None) for form in FORMS}


def report(folder: Path, out: Path, form: str, processes: int, cache: Path | None) -> bytes:
    words = ["check", str(folder), "--as", form, "--today", str(TODAY), "--out", str(out)]
    assert main([*words, "--processes", str(processes), "--cache", str(cache) if cache else "none"]) == 1
    return out.read_bytes()


@pytest.mark.parametrize("processes", [2, 3])
def test_several_processes_report_the_same_and_so_does_what_they_kept(
    processes: int, folder: Path, plain: dict[str, bytes], tmp_path: Path
) -> None:
    cold = {form: report(folder, tmp_path / form, form, processes, tmp_path / "cache") for form in FORMS}
    warm = {form: report(folder, tmp_path / form, form, processes, tmp_path / "cache") for form in FORMS}
    alone = {form: report(folder, tmp_path / form, form, 1, tmp_path / "cache") for form in FORMS}
    assert cold == warm == alone == plain


@pytest.mark.parametrize("form", FORMS)
def test_another_process_reports_the_same_whatever_its_hashes(
    form: str, folder: Path, plain: dict[str, bytes]
) -> None:
    words = ["check", str(folder), "--as", form, "--today", str(TODAY), "--cache", "none", "--processes", "2"]
    run = subprocess.run(
        [sys.executable, "-m", "stacklint", *words],
        capture_output=True,
        check=False,
        env=os.environ | {"PYTHONHASHSEED": str(FORMS.index(form)), "PYTHONUTF8": "1"},
    )
    assert (run.returncode, run.stderr) == (1, b"")
    assert run.stdout == plain[form]


def findings(report: bytes) -> Iterator[str]:
    for plan in json.loads(report)["plans"]:
        for finding in (*plan["findings"], *plan["waived"]):
            yield json.dumps([plan["path"], finding], sort_keys=True)


def test_the_order_in_which_plans_are_named_changes_nothing_but_the_order_of_the_report(
    folder: Path, plain: dict[str, bytes], cache: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    paths = sorted(map(str, folder.rglob("*.stackplan")))
    for seed in range(4):
        shuffled = random.Random(seed).sample(paths, len(paths))
        main(["check", *shuffled, "--as", "json", "--today", str(TODAY), "--cache", str(cache), "--processes", "1"])
        out = capsys.readouterr().out.encode()
        assert [plan["path"] for plan in json.loads(out)["plans"]] == shuffled
        assert sorted(findings(out)) == sorted(findings(plain["json"]))


def yard_findings(words: list[str], capsys: pytest.CaptureFixture[str]) -> list[tuple[str, str, int]]:
    """What is found between plans, by rule, file and line."""
    main(["check", *words, "--as", "json", "--today", str(TODAY)])
    plans: list[Any] = json.loads(capsys.readouterr().out)["plans"]
    return sorted(
        (each["rule"], Path(each["path"]).name, each["line"])
        for plan in plans
        for each in plan["findings"]
        if each["related"]
    )


@pytest.fixture
def pair(folder: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[list[str], list[tuple[str, str, int]]]:
    """Of the yard a charge that takes what another took, the other, and their piles; and what is found in them."""
    monkeypatch.chdir(folder / "alder-000")
    made = seeded(12, 49, {Fault.KILN_TWICE: 1, Fault.TAKEN_TWICE: 1, Fault.WIDE: 1, Fault.SPOTS: 1})
    (told,) = (each for each in made.between if each.rule == "pile-taken-twice")
    paths = {told.place.path, *(place.path for place in told.related)}
    expected = [(told.rule, Path(told.place.path).name, made.line(told.place))]
    return sorted(path.removeprefix("alder-000/") for path in paths), expected


def test_one_plan_named_twice_by_two_names_is_one(
    pair: tuple[list[str], list[tuple[str, str, int]]], capsys: pytest.CaptureFixture[str]
) -> None:
    names, expected = pair
    twice = [*names, *(f"./{name}" for name in names), *(str(Path(name).resolve()) for name in names)]
    assert yard_findings(names, capsys) == yard_findings(twice, capsys) == expected


@pytest.mark.parametrize("spelled", ["./{}", "../alder-000/{}", "{absolute}", "../alder-000/./kiln/../{}"])
def test_however_paths_are_spelled_a_pile_is_the_one_that_its_charges_take(
    spelled: str, pair: tuple[list[str], list[tuple[str, str, int]]], capsys: pytest.CaptureFixture[str]
) -> None:
    """Each path by itself: one is spelled otherwise, the others as they are."""
    names, expected = pair
    for odd in names:
        words = [spelled.format(name, absolute=Path(name).resolve()) if name == odd else name for name in names]
        assert yard_findings(words, capsys) == expected


def test_a_pile_that_is_reached_by_a_link_to_its_folder_is_the_one_that_its_charges_take(
    pair: tuple[list[str], list[tuple[str, str, int]]], capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    names, expected = pair
    (tmp_path / "link").symlink_to(Path.cwd(), target_is_directory=True)
    words = [str(tmp_path / "link" / name) if name.startswith("pile") else name for name in names]
    assert yard_findings(words, capsys) == expected


def test_a_pile_that_its_charge_uses_by_a_link_beside_it_is_one_pile(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    made = seeded(12, 49, {})
    made.write(tmp_path)
    (tmp_path / "alder-000/linked.stackplan").symlink_to("pile-26-05.stackplan")
    charge = tmp_path / "alder-000/kiln/charge-26-21.stackplan"
    charge.write_text(made.texts["alder-000/kiln/charge-26-21.stackplan"].replace("pile-26-05", "linked"), "utf-8")
    words = [str(tmp_path / "alder-000" / name) for name in ("pile-26-05.stackplan", "kiln/charge-26-21.stackplan")]
    assert yard_findings(words, capsys) == yard_findings([str(tmp_path)], capsys) == []
