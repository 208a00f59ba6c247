"""The build sheets beside a page that links to them: one file for each plan that holds a stack."""

from __future__ import annotations

import os
from pathlib import Path
from urllib.parse import quote

from stacklint.command.output import UnwrittenError, opened
from stacklint.files import STANDARD_INPUT

_SUFFIX = ".html"


class Sheets:
    """Writes sheets into a folder, which is made if it is not there; each under the name of its plan.

    Of plans of one name the second is called as the first with ``-2``, and so on, in the order in which they come.
    """

    def __init__(self, folder: str, page: str | None) -> None:
        self._folder = Path(folder)
        self._beside = Path(page).parent if page is not None else Path()
        # The page itself may lie in the folder. Names that differ in case alone are one file on many disks.
        self._taken = {os.path.realpath(page).casefold()} if page is not None else set()

    def write(self, plan: str, sheet: str) -> str:
        """Writes the sheet of the plan at a path, and gives its address from the page.

        Raises:
            UnwrittenError: if it cannot be written.
        """
        path = self._free("standard-input" if plan == STANDARD_INPUT else Path(plan).stem)
        self._make_folder()
        with opened(str(path)) as out:
            out.write(sheet)
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
