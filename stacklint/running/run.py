"""Jobs done on all cores, and what comes of them in the order of the jobs."""

from __future__ import annotations

import gc
import os
import signal
from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from types import TracebackType
from typing import TYPE_CHECKING, NamedTuple

from stacklint.running import job as jobs
from stacklint.running.job import Done, Job, done

if TYPE_CHECKING:
    from concurrent.futures import Future, ProcessPoolExecutor

    from stacklint.running.cache import Cache

CHUNK = 16
"""Jobs that a process is given at a time. Fewer are done in this process: another costs more to start."""
_AHEAD = 64
"""Chunks that may wait for one that takes long: what bounds the memory of a run."""


class Outcome(NamedTuple):
    """A job and what came of it."""

    job: Job
    done: Done


class Runner:
    """Does jobs, of which it takes from ``cache`` what it has. A context manager: at its end no process is left.

    ``cores`` is the number of processes; with one all is done in this process.
    """

    def __init__(self, cores: int, cache: Cache | None = None) -> None:
        self._cores = cores
        self._cache = cache
        self._pool: ProcessPoolExecutor | None = None

    def __enter__(self) -> Runner:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._pool is not None:
            self._pool.shutdown(cancel_futures=True)

    def outcomes(self, given: Iterable[Job]) -> Iterator[Outcome]:
        """What comes of each job, in the order of the jobs, whatever the number of processes."""
        waiting: deque[_Slot] = deque()
        missing: list[_Slot] = []
        for job in given:
            slot = _Slot(job, self._cache.find(job) if self._cache is not None else None)
            waiting.append(slot)
            if slot.done is None:
                missing.append(slot)
            if len(missing) == CHUNK:
                self._begin(missing)
                missing = []
            while waiting and (self._cores == 1 or waiting[0].ready or len(waiting) > CHUNK * _AHEAD):
                yield self._finished(waiting.popleft(), missing)
        while waiting:
            yield self._finished(waiting.popleft(), missing)

    def _begin(self, slots: Sequence[_Slot]) -> None:
        """Has a chunk of jobs done elsewhere; with one core they are done when they are asked for."""
        if self._cores == 1:
            return
        # Costs a small check a tenth of its time, which has no use for it.
        from concurrent.futures import BrokenExecutor, ProcessPoolExecutor

        if self._pool is None:
            self._pool = ProcessPoolExecutor(self._cores, initializer=_prepared)
        try:
            with _not_interrupted():
                chunk = _Chunk(self._pool.submit(_all_done, [slot.job for slot in slots]), tuple(slots))
        except BrokenExecutor:
            self._cores = 1
            return
        for slot in slots:
            slot.chunk = chunk

    def _finished(self, slot: _Slot, missing: list[_Slot]) -> Outcome:
        if slot.chunk is not None:
            self._take(slot.chunk)
        if slot.done is None:
            slot.done = done(slot.job)
            if slot in missing:
                missing.remove(slot)
            if self._cache is not None:
                self._cache.keep(slot.job, jobs.written(slot.done))
        return Outcome(slot.job, slot.done)

    def _take(self, chunk: _Chunk) -> None:
        """Takes over what was done elsewhere.

        Where a process was ended from outside, as a system does that runs out of memory, nothing more is given to
        others: what they had is done here, one by one.
        """
        from concurrent.futures import BrokenExecutor

        for slot in chunk.slots:
            slot.chunk = None
        try:
            contents = chunk.future.result()
        except BrokenExecutor:
            self._cores = 1
            return
        for slot, content in zip(chunk.slots, contents, strict=True):
            slot.done = jobs.read(content)
            if self._cache is not None:
                self._cache.keep(slot.job, content)


class _Slot:
    """A job that waits for its turn to be handed on."""

    __slots__ = ("chunk", "done", "job")

    def __init__(self, job: Job, done: Done | None) -> None:
        self.job = job
        self.done = done
        self.chunk: _Chunk | None = None

    @property
    def ready(self) -> bool:
        return self.done is not None or (self.chunk is not None and self.chunk.future.done())


class _Chunk(NamedTuple):
    future: Future[list[bytes]]
    slots: tuple[_Slot, ...]


def cores() -> int:
    """The cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


@contextmanager
def _not_interrupted() -> Iterator[None]:
    """Has an interrupt wait while processes are begun: it would be lost here, and be told of by those in their way."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _prepared() -> None:
    """A process that works for another leaves it to that one to be interrupted, and ends with it however it ends."""
    import threading

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_the_other, daemon=True).start()
    gc.freeze()


def _end_with_the_other() -> None:
    from multiprocessing import parent_process

    other = parent_process()
    if other is not None:
        other.join()
        os._exit(1)


def _all_done(given: Sequence[Job]) -> list[bytes]:
    finished = [jobs.written(done(job)) for job in given]
    # What a check leaves is small, but cycles in it would pile up: see stacklint.command.main.run.
    gc.collect(1)
    return finished
