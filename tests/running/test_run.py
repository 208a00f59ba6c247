"""Many plans on all cores: in their order, whatever happens to a process, and none is left at the end."""

from __future__ import annotations

import multiprocessing
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from made_coop import TODAY, sound

from stacklint.running.job import Done, Job, done
from stacklint.running.run import CHUNK, Outcome, Runner

JobsOf = Callable[..., list[Job]]
PATIENCE = 120.0
"""Seconds for what takes a few on an idle machine."""
has_proc = pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="needs the list of processes of Linux")


def outcomes(jobs: Sequence[Job], cores: int) -> list[Outcome]:
    with Runner(cores) as runner:
        return list(runner.outcomes(jobs))


def plainly(jobs: Sequence[Job]) -> list[Done]:
    return [done(job) for job in jobs]


@pytest.mark.parametrize("cores", [1, 2, 3])
def test_results_come_in_the_order_of_the_plans_whatever_the_number_of_processes(
    cores: int, yard: Path, jobs_of: JobsOf
) -> None:
    jobs = jobs_of(yard)[: 2 * CHUNK + 5]
    found = outcomes(jobs, cores)
    assert [each.job for each in found] == jobs
    assert [each.done for each in found] == plainly(jobs)


@pytest.mark.parametrize("many", [0, 1, CHUNK - 1, CHUNK, CHUNK + 1])
def test_no_plans_one_plan_and_whole_and_broken_chunks_are_all_done(many: int, yard: Path, jobs_of: JobsOf) -> None:
    jobs = jobs_of(yard)[:many]
    assert [each.job for each in outcomes(jobs, 2)] == jobs
    assert multiprocessing.active_children() == []


def test_what_a_process_had_to_do_that_was_killed_is_done_here(yard: Path, jobs_of: JobsOf) -> None:
    """As a system does with one of the processes when it runs out of memory."""
    jobs = jobs_of(yard)
    with Runner(2) as runner:
        running = runner.outcomes(jobs)
        found = [next(running)]
        for process in multiprocessing.active_children():
            process.kill()
        found += running
    assert [each.done for each in found] == plainly(jobs)
    assert multiprocessing.active_children() == []


def test_of_a_run_that_is_left_half_done_no_process_stays(yard: Path, jobs_of: JobsOf) -> None:
    with Runner(2) as runner:
        next(runner.outcomes(jobs_of(yard)))
        assert multiprocessing.active_children()
    assert multiprocessing.active_children() == []


class Run:
    """A check of a folder by two processes, in a session of its own."""

    def __init__(self, folder: Path) -> None:
        words = ["check", str(folder), "--as", "lines", "--today", str(TODAY), "--cache", "none", "--processes", "2"]
        self.process = subprocess.Popen(
            [sys.executable, "-m", "stacklint", *words],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
            start_new_session=True,
        )
        until(lambda: len(self.helpers()) == 2 or self.process.poll() is not None)
        self.begun = self.helpers()

    def helpers(self) -> list[int]:
        pid = self.process.pid
        try:
            return list(map(int, Path(f"/proc/{pid}/task/{pid}/children").read_text(encoding="ascii").split()))
        except OSError:
            return []

    @property
    def left(self) -> list[int]:
        return [pid for pid in self.begun if runs(pid)]


def runs(pid: int) -> bool:
    """There is such a process, and it is not one that has ended and of which only the number is left."""
    try:
        state = Path(f"/proc/{pid}/stat").read_text(encoding="ascii", errors="replace").rpartition(")")[2].split()[0]
    except OSError:
        return False
    return state not in "ZX"


def until(true: Callable[[], bool]) -> None:
    end = time.monotonic() + PATIENCE
    while not true():
        assert time.monotonic() < end
        time.sleep(0.02)


@pytest.fixture
def large(tmp_path: Path) -> Path:
    """More plans than are checked before a signal comes."""
    folder = tmp_path / "large"
    sound(9, 600).write(folder)
    return folder


@has_proc
def test_an_interrupt_from_the_keyboard_ends_all_processes_quietly(large: Path) -> None:
    """A terminal sends it to every process of the session."""
    run = Run(large)
    assert len(run.begun) == 2
    os.killpg(run.process.pid, signal.SIGINT)
    _, told = run.process.communicate(timeout=PATIENCE)
    assert (run.process.returncode, told) == (130, "")
    until(lambda: not run.left)


@has_proc
def test_an_interrupt_of_the_first_process_alone_ends_the_others(large: Path) -> None:
    run = Run(large)
    run.process.send_signal(signal.SIGINT)
    _, told = run.process.communicate(timeout=PATIENCE)
    assert (run.process.returncode, told) == (130, "")
    until(lambda: not run.left)


@has_proc
@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGTERM])
def test_when_the_first_process_is_killed_the_others_end(how: signal.Signals, large: Path) -> None:
    run = Run(large)
    assert len(run.begun) == 2
    run.process.send_signal(how)
    run.process.communicate(timeout=PATIENCE)
    until(lambda: not run.left)


@has_proc
def test_when_another_process_is_killed_the_check_is_whole_all_the_same(tmp_path: Path) -> None:
    sound(9, 98).write(tmp_path)
    run = Run(tmp_path)
    os.kill(run.begun[0], signal.SIGKILL)
    _, told = run.process.communicate(timeout=PATIENCE)
    assert (run.process.returncode, told) == (0, "")
    until(lambda: not run.left)
