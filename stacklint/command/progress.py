"""How far a long run has come: a bar below what is printed, which is gone when the run is over."""

from __future__ import annotations

import sys
from typing import IO, TYPE_CHECKING

if TYPE_CHECKING:
    from rich import progress

LONG = 100
"""Plans from which on a run is long."""
_EVERY = 10
"""Plans after which the bar is drawn anew."""


class Progress:
    """A bar on the terminal that ``out`` is, else on that of standard error; on neither there is none."""

    def __init__(self, out: IO[str]) -> None:
        self._out = out
        self._on = next((file for file in (out, sys.stderr) if file.isatty()), None)
        self._bar: progress.Progress | None = None
        self._done = 0

    def begin(self, total: int) -> None:
        if self._on is None or total < LONG:
            return
        from rich.console import Console
        from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

        # Without a thread of its own, for processes are begun while it is shown.
        self._bar = Progress(
            TextColumn("checking"),
            BarColumn(),
            MofNCompleteColumn(),
            TextColumn("plans,"),
            TimeRemainingColumn(),
            TextColumn("to go"),
            console=Console(file=self._on, legacy_windows=False),
            auto_refresh=False,
            transient=True,
            redirect_stdout=False,
            redirect_stderr=False,
        )
        self._bar.add_task("", total=total)
        self._bar.start()

    def one_more(self) -> None:
        self._done += 1
        if self._bar is not None and self._done % _EVERY == 0:
            self._bar.update(self._bar.task_ids[0], completed=self._done, refresh=True)

    def write(self, text: str) -> int:
        """Prints a text that is laid out already, above the bar where both are on one terminal."""
        if self._bar is None or self._on is not self._out:
            return self._out.write(text)
        from rich.segment import Segment, Segments

        self._bar.console.print(Segments([Segment(text)]), end="", crop=False)
        return len(text)

    def end(self) -> None:
        if self._bar is not None:
            self._bar.stop()
            self._bar = None
