"""The build sheets beside a page that links to them: one file for each plan that holds a stack."""

from __future__ import annotations

import datetime
import gc
import os
from pathlib import Path
from urllib.parse import quote

from stacklint.checked import CheckedPlan
from stacklint.command.output import UnwrittenError, opened
from stacklint.files import STANDARD_INPUT

_SUFFIX = ".html"


class Sheets:
    """Writes sheets into a folder, which is made if it is not there; each under the name of its plan.

    Of plans of one name the second is called as the first with ``-2``, and so on, in the order in which they come.
    """

    def __init__(self, folder: str, page: str | None, today: datetime.date) -> None:
        self._folder = Path(folder)
        self._beside = Path(page).parent if page is not None else Path()
        self._today = today
        # The page itself may lie in the folder. Names that differ in case alone are one file on many disks.
        self._taken = {os.path.realpath(page).casefold()} if page is not None else set()

    def write(self, checked: CheckedPlan) -> str | None:
        """Writes the sheet of a plan, and gives its address from the page; ``None`` where the plan holds no stack.

        Raises:
            UnwrittenError: if it cannot be written.
        """
        if not checked.stacks:
            return None
        from stacklint.report.sheet_page import sheet_html

        path = self._free("standard-input" if checked.path == STANDARD_INPUT else Path(checked.path).stem)
        self._make_folder()
        with opened(str(path)) as out:
            out.write(sheet_html(checked, self._today))
        # A page's drawings and its filling in leave cycles, which the command else lets pile up (see main.run).
        gc.collect(0)
        steps = Path(os.path.relpath(path.resolve(), self._beside.resolve())).parts
        return "/".join(quote(os.fsencode(step)) for step in steps)

    def _free(self, name: str) -> Path:
        count = 1
        while True:
            path = self._folder / f"{name}{f'-{count}' if count > 1 else ''}{_SUFFIX}"
            identity = os.path.realpath(path).casefold()
            if identity not in self._taken:
                self._taken.add(identity)
                return path
            count += 1

    def _make_folder(self) -> None:
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            reason = error.strerror.lower() if error.strerror else str(error)
            raise UnwrittenError(f"the folder {self._folder} cannot be made: {reason}") from None
