"""What is beyond all measure is told once, with its limit; what is just within is read like any other."""

from __future__ import annotations

import pytest

from stacklint.faults import Fault
from stacklint.language import UsedText, read
from stacklint.language.blocks import MOST_BLOCKS, MOST_STATEMENTS
from stacklint.language.board_statements import MOST_IN_ROW
from stacklint.language.line import MOST_FAULTS
from stacklint.language.lines import LONGEST, MOST_LINES
from stacklint.language.scan import LONGEST_FIGURE, LONGEST_FRACTION
from stacklint.language.used import DEEPEST, LARGEST_TOGETHER, MOST_USES
from stacklint.tidying import tidied

AROUND = [pytest.param(-1, id="below"), pytest.param(0, id="at"), pytest.param(1, id="above")]


def faults(text: str, files: dict[str, str] | None = None) -> tuple[Fault, ...]:
    found = files or {}
    return read(text, "main", lambda name, _: UsedText(name, found[name])).faults


def is_told_only_above(found: tuple[Fault, ...], more: int, limit: int, line: int) -> None:
    if more <= 0:
        assert found == ()
        return
    (fault,) = found
    assert f"{limit:,}" in fault.message
    assert fault.where.line == line
    assert fault.instead


@pytest.mark.parametrize("more", AROUND)
def test_blocks_of_a_text(more: int) -> None:
    text = "".join(f'site "S{number}"\n' for number in range(MOST_BLOCKS + more)) + "# the end"
    is_told_only_above(faults(text), more, MOST_BLOCKS, MOST_BLOCKS + 1)
    assert len(read(text).plan.sites) == min(MOST_BLOCKS, MOST_BLOCKS + more)


@pytest.mark.parametrize("more", AROUND)
def test_statements_of_a_block(more: int) -> None:
    text = 'pile "A"\n' + "  reading 2026-05-10 41%\n" * (MOST_STATEMENTS + more)
    is_told_only_above(faults(text), more, MOST_STATEMENTS, MOST_STATEMENTS + 2)


def test_what_is_not_read_beyond_the_limit_is_left_as_it_stands(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("stacklint.language.blocks.MOST_STATEMENTS", 2)
    beyond = ' ends   coated\npile   "B"\n wind   along\n'
    assert tidied(f'pile "A"\n  wind across\n  clearance 14 in\n{beyond}').endswith(f"14 in\n{beyond}")


@pytest.mark.parametrize("more", AROUND)
def test_lines_of_a_text(more: int) -> None:
    is_told_only_above(faults("\n" * (MOST_LINES - 1 + more)), more, MOST_LINES, MOST_LINES + 1)


@pytest.mark.parametrize("more", AROUND)
def test_characters_of_a_line(more: int) -> None:
    # The line's end counts as one of them.
    comment = "# " + "x" * (LONGEST - 3 + more)
    is_told_only_above(faults(comment), more, LONGEST, 1)


@pytest.mark.parametrize("more", AROUND)
def test_faults_of_a_text(more: int) -> None:
    found = faults("bogus\n" * (MOST_FAULTS + more))
    told = [fault for fault in found if "not listed" in fault.message]
    assert len(found) - len(told) == min(MOST_FAULTS, MOST_FAULTS + more)
    assert [f"{MOST_FAULTS:,}" in fault.message for fault in told] == [True] * (more >= 0)


@pytest.mark.parametrize("more", AROUND)
@pytest.mark.parametrize(
    "before, longest", [("1.", LONGEST_FIGURE), ("1/", LONGEST_FRACTION)], ids=["figure", "fraction"]
)
def test_characters_of_a_figure(before: str, longest: int, more: int) -> None:
    text = f'pile "A"\n  clearance {before}{"1" * (longest - len(before) + more)} in\n'
    is_told_only_above(faults(text), more, longest, 2)
    if more > 0:
        assert f"{longest + more} characters" in faults(text)[0].message


@pytest.mark.parametrize("more", AROUND)
def test_boards_of_a_row(more: int) -> None:
    row = " + ".join(["a"] * (MOST_IN_ROW + more))
    text = f'pile "A"\n  boards a: 900 of white ash 4/4 x 6 in x 8 ft\n  course 1: 1 rows of {row}\n'
    is_told_only_above(faults(text), more, MOST_IN_ROW, 3)


@pytest.mark.parametrize("more", AROUND)
def test_files_that_use_one_another_in_a_row(more: int) -> None:
    last = DEEPEST - 1 + more
    files = {str(number): f'use "{number + 1}"\n' for number in range(1, last)} | {str(last): 'site "S"\n'}
    found = faults('use "1"\n', files)
    assert bool(found) == (more > 0)
    assert all(str(DEEPEST) in fault.message for fault in found)


@pytest.mark.parametrize("more", AROUND)
def test_use_statements_in_all(more: int) -> None:
    half = MOST_USES // 2
    files = {"other": 'use "site"\n' * (half - 1), "site": 'site "S"\n'}
    text = 'use "other"\n' + 'use "site"\n' * (half + more)
    is_told_only_above(faults(text, files), more, MOST_USES, half + 2)


@pytest.mark.parametrize("more", AROUND)
def test_characters_of_all_that_is_used(more: int) -> None:
    half = LARGEST_TOGETHER // 2
    line = "#" * 9_999 + "\n"
    files = {"one": line * (half // len(line)), "other": line * (half // len(line)) + "#" * max(more, 0)}
    files["other"] = files["other"][: half + more]
    is_told_only_above(faults('use "one"\nuse "other"\n', files), more, LARGEST_TOGETHER, 2)


@pytest.mark.parametrize("more", [0, 100])
def test_what_is_used_beyond_the_limit_is_not_looked_for(more: int) -> None:
    asked: list[str] = []

    def lend(name: str, _: str) -> UsedText:
        asked.append(name)
        return UsedText(name, "")

    read('use "a"\n' * (MOST_USES + more), "main", lend)
    assert len(asked) == MOST_USES
