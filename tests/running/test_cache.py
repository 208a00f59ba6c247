"""What is kept of plans is found again where nothing changed, and never trusted where anything did or is damaged."""

from __future__ import annotations

import datetime
import json
import os
import random
import sqlite3
import subprocess
import sys
import zlib
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing
from pathlib import Path

import pytest
from made_coop import TODAY, sound

from stacklint.running import cache as caches
from stacklint.running import job as jobs_module
from stacklint.running import program
from stacklint.running import run as runs
from stacklint.running.cache import NAME, opened
from stacklint.running.job import Done, Drawn, Form, Job
from stacklint.running.run import Runner

JobsOf = Callable[..., list[Job]]
LATER = datetime.date(2026, 8, 1)


class Kept:
    """Checks jobs with the results in a folder, and counts those that were not found there."""

    def __init__(self, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.folder = folder
        self.anew: list[str] = []
        monkeypatch.setattr(runs, "done", self._done)

    def _done(self, job: Job) -> Done:
        self.anew.append(job.plan.path)
        return jobs_module.done(job)

    def check(self, jobs: Sequence[Job], day: datetime.date = TODAY) -> list[Done]:
        self.anew.clear()
        with opened(self.folder, day) as cache, Runner(1, cache) as runner:
            return [each.done for each in runner.outcomes(jobs)]

    @property
    def file(self) -> Path:
        return self.folder / NAME


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Kept:
    return Kept(tmp_path / "kept", monkeypatch)


@pytest.fixture
def few(yard: Path, jobs_of: JobsOf) -> Callable[..., list[Job]]:
    """Some plans of the yard: charges, the piles that they take, and what all share."""

    def jobs(form: Form = Form()) -> list[Job]:  # noqa: B008
        return [each for each in jobs_of(yard / "alder-000", form=form) if "-27-" not in each.plan.path]

    return jobs


def plainly(jobs: Sequence[Job]) -> list[Done]:
    return [jobs_module.done(job) for job in jobs]


def test_what_was_found_once_is_found_again(kept: Kept, few: JobsOf) -> None:
    jobs = few()
    assert kept.check(jobs) == plainly(jobs)
    assert len(kept.anew) == len(jobs)
    assert kept.check(jobs) == plainly(jobs)
    assert kept.anew == []


def names(paths: Sequence[str]) -> list[str]:
    return [Path(path).stem for path in paths]


# What a result depends on


def test_a_changed_plan_is_checked_anew_and_so_is_the_charge_that_takes_its_boards(
    kept: Kept, few: JobsOf, yard: Path
) -> None:
    kept.check(few())
    pile = yard / "alder-000/pile-26-05.stackplan"
    pile.write_text(pile.read_text(encoding="utf-8").replace("clearance 14 in", "clearance 4 in"), encoding="utf-8")
    jobs = few()
    assert kept.check(jobs) == plainly(jobs)
    assert names(kept.anew) == ["charge-26-21", "pile-26-05"]


def test_what_all_plans_use_has_all_of_them_checked_anew_when_it_changes(kept: Kept, few: JobsOf, yard: Path) -> None:
    kept.check(few())
    shared = yard / "alder-000/yard.stackplan"
    shared.write_text(shared.read_text(encoding="utf-8") + "# one more line\n", encoding="utf-8")
    jobs = few()
    assert kept.check(jobs) == plainly(jobs)
    assert len(kept.anew) == len(jobs)


def test_a_used_file_that_goes_or_comes_back_changes_the_result(kept: Kept, few: JobsOf, yard: Path) -> None:
    kept.check(few())
    pile = yard / "alder-000/pile-26-05.stackplan"
    text = pile.read_text(encoding="utf-8")
    pile.unlink()
    without = few()
    assert kept.check(without) == plainly(without)
    assert names(kept.anew) == ["charge-26-21"]
    pile.write_text(text, encoding="utf-8")
    whole = few()
    assert kept.check(whole) == plainly(whole)


@pytest.mark.parametrize("where", ["house.rules", "alder-000/house.rules", "alder-000/kiln/house.rules"])
def test_changed_house_rules_have_those_plans_checked_anew_that_they_hold_for(
    where: str, kept: Kept, few: JobsOf, yard: Path
) -> None:
    kept.check(few())
    (yard / where).write_text('skip assumed because "we know"\n', encoding="utf-8")
    jobs = few()
    assert kept.check(jobs) == plainly(jobs)
    assert len(kept.anew) == sum("kiln" in job.plan.path or "kiln" not in where for job in jobs)


def test_a_drawn_plan_is_not_taken_for_one_of_which_nothing_was_drawn(kept: Kept, few: JobsOf) -> None:
    kept.check(few())
    sheets = few(Form(Drawn.SHEET))
    drawn = [each.drawn for each in kept.check(sheets) if each.kept.stacks]
    assert len(drawn) == len(sheets) - 1
    assert all(drawn)
    assert len(kept.anew) == len(sheets)


def test_the_same_text_under_another_name_is_another_plan(kept: Kept, few: JobsOf, yard: Path) -> None:
    kept.check(few())
    (yard / "alder-000/pile-26-05.stackplan").rename(yard / "alder-000/pile-26-55.stackplan")
    kept.check(few())
    assert names(kept.anew) == ["charge-26-21", "pile-26-55"]


def test_another_program_trusts_nothing_that_this_one_kept(
    kept: Kept, few: JobsOf, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept.check(few())
    monkeypatch.setattr(caches, "program_digest", lambda: "another")
    jobs = few()
    kept.check(jobs)
    assert len(kept.anew) == len(jobs)


@pytest.fixture
def installed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A program of a few files."""
    home = tmp_path / "program"
    for name in ("check.py", "tables/woods.csv"):
        (home / name).parent.mkdir(parents=True, exist_ok=True)
        (home / name).write_text("white ash\n", encoding="utf-8")
    monkeypatch.setattr(program, "files", lambda _: home)
    return home


def change(path: Path) -> None:
    path.write_text("white oak\n", encoding="utf-8")


@pytest.mark.parametrize(
    "changed",
    [
        lambda home: change(home / "check.py"),
        lambda home: change(home / "tables/woods.csv"),
        lambda home: change(home / "tables/more.csv"),
        lambda home: (home / "check.py").unlink(),
        lambda home: (home / "check.py").rename(home / "checks.py"),
        lambda home: (home / "tables/woods.csv").rename(home / "woods.csv"),
    ],
)
def test_code_and_tables_of_the_program_make_it_another(changed: Callable[[Path], None], installed: Path) -> None:
    before = program.program_digest.__wrapped__()
    changed(installed)
    assert program.program_digest.__wrapped__() != before


def test_what_python_makes_beside_the_code_makes_no_other_program(installed: Path) -> None:
    before = program.program_digest.__wrapped__()
    (installed / "__pycache__").mkdir()
    change(installed / "__pycache__/check.cpython-311.pyc")
    assert program.program_digest.__wrapped__() == before


def test_only_a_plan_that_depends_on_the_day_is_checked_anew_on_another(
    kept: Kept, few: JobsOf, yard: Path
) -> None:
    read = yard / "alder-000/pile-26-01.stackplan"
    text = read.read_text(encoding="utf-8") + "  reading 2026-06-01 30%\n"
    read.write_text(text, encoding="utf-8")
    before = kept.check(few())
    jobs = [job._replace(today=LATER) for job in few()]
    after = kept.check(jobs, LATER)
    assert names(kept.anew) == ["charge-26-11", "charge-26-12", "pile-26-01"]
    assert after == plainly(jobs)
    assert after != before
    kept.check(jobs, LATER)
    assert kept.anew == []


# Damage


Row = tuple[bytes, int, bytes, bytes]
ChangeRows = Callable[[list[Row]], Sequence[Sequence[object]]]


def rows(file: Path) -> list[Row]:
    with closing(sqlite3.connect(file)) as database:
        return database.execute("SELECT key, day, digest, content FROM results ORDER BY key").fetchall()


def rewritten(file: Path, changed: ChangeRows) -> None:
    new = changed(rows(file))
    with closing(sqlite3.connect(file)) as database, database:
        database.execute("DELETE FROM results")
        database.executemany("INSERT INTO results VALUES (?, ?, ?, ?)", new)


def flipped(content: bytes, place: int) -> bytes:
    return content[:place] + bytes([content[place] ^ 0x20]) + content[place + 1 :]


def sealed(key: bytes, content: bytes) -> Row:
    """A row whose digest is right, whatever is in it."""
    packed = zlib.compress(content)
    return key, TODAY.toordinal(), caches._digest(key, packed), packed


def random_bytes(file: Path) -> None:
    file.write_bytes(random.Random(1).randbytes(20_000))


def bytes_in_the_middle(file: Path) -> None:
    content = bytearray(file.read_bytes())
    content[5000:] = random.Random(2).randbytes(len(content) - 5000)
    file.write_bytes(content)


def cut_short(file: Path) -> None:
    os.truncate(file, file.stat().st_size // 2)


def folder_in_its_place(file: Path) -> None:
    file.unlink()
    file.mkdir()


def another_layout(file: Path) -> None:
    with closing(sqlite3.connect(file)) as database:
        database.execute("PRAGMA user_version = 2000")


def another_table(file: Path) -> None:
    with closing(sqlite3.connect(file)) as database, database:
        database.execute("DROP TABLE results")
        database.execute("CREATE TABLE results (key BLOB PRIMARY KEY, content BLOB)")


WHOLE_FILE: dict[str, Callable[[Path], object]] = {
    "random bytes": random_bytes,
    "bytes in the middle": bytes_in_the_middle,
    "nothing in it": lambda file: file.write_bytes(b""),
    "cut short": cut_short,
    "a text": lambda file: file.write_text("pile of ash\n" * 900, encoding="utf-8"),
    "a folder": folder_in_its_place,
    "another layout": another_layout,
    "another table": another_table,
}
ROWS: dict[str, ChangeRows] = {
    "a byte of what is kept": lambda rows: [(k, d, s, flipped(c, len(c) // 2)) for k, d, s, c in rows],
    "the last byte": lambda rows: [(k, d, s, c[:-1]) for k, d, s, c in rows],
    "a byte of the digest": lambda rows: [(k, d, flipped(s, 3), c) for k, d, s, c in rows],
    "a byte of the key": lambda rows: [(flipped(k, 3), d, s, c) for k, d, s, c in rows],
    "rows of other keys": lambda rows: [(rows[number - 1][0], *each[1:]) for number, each in enumerate(rows)],
    "not JSON": lambda rows: [sealed(each[0], b"pile of ash") for each in rows],
    "not packed": lambda rows: [(k, d, caches._digest(k, b"{}"), b"{}") for k, d, _, _ in rows],
    "other JSON": lambda rows: [sealed(each[0], b'{"kept": [], "drawn": null}') for each in rows],
    "a list": lambda rows: [sealed(each[0], b"[1, 2, 3]") for each in rows],
    "too deep": lambda rows: [sealed(each[0], b"[" * 100_000) for each in rows],
    "no values": lambda rows: [(each[0], None, None, None) for each in rows],
    "words for figures": lambda rows: [(k, "today", "digest", "content") for k, *_ in rows],
}


@pytest.mark.parametrize("damage", WHOLE_FILE.values(), ids=WHOLE_FILE)
def test_a_damaged_file_is_passed_over(damage: Callable[[Path], object], kept: Kept, few: JobsOf) -> None:
    jobs = few()
    kept.check(jobs)
    damage(kept.file)
    assert kept.check(jobs) == plainly(jobs)
    assert kept.check(jobs) == plainly(jobs)


@pytest.mark.parametrize("name", [name for name in WHOLE_FILE if name not in ("a folder", "another table")])
def test_a_damaged_file_is_begun_anew(name: str, kept: Kept, few: JobsOf) -> None:
    jobs = few()
    kept.check(jobs)
    WHOLE_FILE[name](kept.file)
    kept.check(jobs)
    kept.check(jobs)
    kept.check(jobs)
    assert kept.anew == []


@pytest.mark.parametrize("damage", ROWS.values(), ids=ROWS)
def test_a_damaged_row_is_passed_over(damage: ChangeRows, kept: Kept, few: JobsOf) -> None:
    jobs = few()
    kept.check(jobs)
    rewritten(kept.file, damage)
    assert kept.check(jobs) == plainly(jobs)
    assert len(kept.anew) == len(jobs)


def test_a_row_of_another_day_is_not_taken_for_one_of_today(kept: Kept, few: JobsOf, yard: Path) -> None:
    """Nor is its day: what came of a plan that has a waiver is of the day on which it was judged."""
    pile = yard / "alder-000/pile-26-01.stackplan"
    pile.write_text(
        pile.read_text(encoding="utf-8") + '  waive sticker-spacing-too-wide until 2026-07-01 because "as it is"\n',
        encoding="utf-8",
    )
    kept.check(few())
    later = [job._replace(today=LATER) for job in few()]
    assert kept.check(later) == plainly(later)


@pytest.mark.parametrize("place", ["file/kept", "file", "/proc/none/kept", "with\0zero"])
def test_where_nothing_can_be_kept_all_is_checked(
    place: str, few: JobsOf, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    jobs = few()
    kept = Kept(tmp_path / place, monkeypatch)
    assert kept.check(jobs) == kept.check(jobs) == plainly(jobs)


def test_in_a_folder_that_may_only_be_read_nothing_is_kept(kept: Kept, few: JobsOf) -> None:
    if os.geteuid() == 0:
        pytest.skip("the superuser may write everywhere")
    kept.folder.mkdir()
    kept.folder.chmod(0o500)
    jobs = few()
    assert kept.check(jobs) == plainly(jobs)
    assert list(kept.folder.iterdir()) == []


def test_a_file_that_another_run_holds_is_waited_for_and_then_done_without(
    kept: Kept, few: JobsOf, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(caches, "_PATIENCE", 0.01)
    jobs = few()
    kept.check(jobs)
    with closing(sqlite3.connect(kept.file)) as database:
        database.execute("BEGIN EXCLUSIVE")
        assert kept.check(jobs) == plainly(jobs)
    kept.check(jobs)
    assert kept.anew == []


def test_what_is_kept_is_json_and_nothing_that_could_be_run(kept: Kept, few: JobsOf) -> None:
    jobs = few()
    kept.check(jobs)
    read = [json.loads(zlib.decompress(content)) for _, _, _, content in rows(kept.file)]
    assert len(read) == len(jobs)
    assert all(set(each) == {"kept", "drawn", "readings", "today"} for each in map(_named, read))


def _named(row: object) -> dict[str, object]:
    """A result as it is written: its fields in their order, with or without their names."""
    return row if isinstance(row, dict) else dict(zip(Done._fields, row, strict=True))  # type: ignore[call-overload]


def test_what_nobody_asks_for_in_a_quarter_of_a_year_is_thrown_away(kept: Kept, few: JobsOf) -> None:
    jobs = few()
    kept.check(jobs)
    kept.check(jobs[:2], TODAY + datetime.timedelta(days=60))
    kept.check([], TODAY + datetime.timedelta(days=120))
    assert len(rows(kept.file)) == 2


# Runs that end in the middle, and two at once

_FEW_AT_A_TIME = """
from stacklint.command.main import run
from stacklint.running import cache
cache._AT_A_TIME = 3
run()
"""


def started(folder: Path, kept: Path | None, processes: int = 1) -> subprocess.Popen[bytes]:
    words = ["check", str(folder), "--as", "json", "--today", str(TODAY), "--processes", str(processes)]
    return subprocess.Popen(
        [sys.executable, "-c", _FEW_AT_A_TIME, *words, "--cache", str(kept) if kept else "none"],
        stdout=subprocess.PIPE,
    )


def report(process: subprocess.Popen[bytes]) -> bytes:
    out, _ = process.communicate(timeout=300)
    assert process.returncode in (0, 1)
    return out


def written_so_far(file: Path) -> Iterator[int]:
    """How many results are in a file, again and again."""
    while True:
        try:
            yield len(rows(file))
        except sqlite3.Error:
            yield 0


def test_a_run_that_is_killed_leaves_nothing_that_misleads_the_next(tmp_path: Path) -> None:
    sound(10, 98).write(tmp_path / "coop")
    right = report(started(tmp_path / "coop", None))
    for enough in (1, 20, 60):
        kept = tmp_path / f"kept-{enough}"
        process = started(tmp_path / "coop", kept, processes=2)
        next(number for number in written_so_far(kept / NAME) if number >= enough or process.poll() is not None)
        process.kill()
        process.communicate()
        assert process.returncode == -9
        assert 0 < len(rows(kept / NAME)) < 98
        assert report(started(tmp_path / "coop", kept)) == right


def test_two_runs_at_once_share_what_is_kept(tmp_path: Path) -> None:
    sound(10, 98).write(tmp_path / "coop")
    right = report(started(tmp_path / "coop", None))
    both = [started(tmp_path / "coop", tmp_path / "kept") for _ in range(2)]
    assert [report(each) for each in both] == [right, right]
    assert len(rows(tmp_path / "kept" / NAME)) == 98
    assert report(started(tmp_path / "coop", tmp_path / "kept")) == right
