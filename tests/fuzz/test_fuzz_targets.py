"""What fuzzing found stays mended, and spoiled inputs keep every promise that sound ones do."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest
from fuzz.mutator import spoiled
from fuzz.targets import NAMES, Target, target

FOUND = Path(__file__).parent / "found"
LONGEST = 4096
MANY = {"plan": 200, "check": 60, "rules": 300, "tally": 300, "editor": 40}
"""Spoiled inputs of each target: all of them together take some seconds."""


@pytest.fixture(params=NAMES)
def chosen(request: pytest.FixtureRequest) -> Target:
    if request.param == "editor":
        pytest.importorskip("pygls", reason="the editor's server needs pygls: pip install 'stacklint[editor]'")
    return target(request.param)


KEPT = [
    pytest.param(name, file, id=f"{name}-{file.name}") for name in NAMES for file in sorted((FOUND / name).glob("*"))
]


@pytest.mark.parametrize("name, file", KEPT)
def test_what_was_found_once_is_found_no_more(name: str, file: Path) -> None:
    target(name).examine(file.read_bytes())


def test_nothing_is_kept_for_a_target_that_there_is_not() -> None:
    assert {folder.name for folder in FOUND.iterdir()} <= set(NAMES)


def test_spoiled_inputs_keep_every_promise(chosen: Target) -> None:
    random = Random(20260601)
    seeds, words = [seed[:LONGEST] for seed in chosen.seeds()], chosen.words()
    for _ in range(MANY[chosen.name]):
        data = spoiled(random.choice(seeds), random, words, seeds, LONGEST)
        try:
            chosen.examine(data)
        except Exception as error:
            error.add_note(f"of the input {data!r}")
            raise


def test_spoiling_is_the_same_for_the_same_seed(chosen: Target) -> None:
    seeds, words = list(chosen.seeds()), chosen.words()
    one, other = (
        [spoiled(seeds[0], random, words, seeds, LONGEST) for _ in range(50)] for random in (Random(7), Random(7))
    )
    assert one == other
    assert len(set(one)) > 40
