"""Checks what is open when typing pauses, in the background, and keeps what was found."""

from __future__ import annotations

import asyncio
import datetime
from collections.abc import Callable

from stacklint.checking import check
from stacklint.editor.desk import MOST_CHARACTERS, Desk, Document
from stacklint.editor.findings import Told, told_of_plan, told_of_rules, told_of_size
from stacklint.editor.fixes import Fix
from stacklint.editor.mended import mended
from stacklint.editor.texts import Books, Project

PAUSE = 0.25
"""Seconds without a change after which a text is checked."""


class Checking:
    """``publish`` is called with a document and its findings, each time they are found anew."""

    def __init__(
        self,
        desk: Desk,
        books: Books,
        publish: Callable[[Document, tuple[Told, ...]], None],
        today: datetime.date | None = None,
    ) -> None:
        self.books = books
        self.today = today
        self._desk = desk
        self._publish = publish
        self._tasks: dict[str, asyncio.Task[None]] = {}
        self._told: dict[str, tuple[Document, tuple[Told, ...]]] = {}
        self._mends: dict[str, tuple[Document, dict[Told, asyncio.Task[tuple[Fix, ...]]]]] = {}
        self._mending = asyncio.Lock()

    def soon(self, document: Document, pause: float = PAUSE, *, others: bool = True) -> None:
        """Checks a text after a pause, and the open ones that a change of it bears on, if ``others``."""
        self._cancel(document.uri)
        self._tasks[document.uri] = asyncio.ensure_future(self._later(document, pause, others))

    def forget(self, document: Document) -> None:
        """A text was closed: nothing is found in it any more."""
        self._cancel(document.uri)
        self._told.pop(document.uri, None)
        self._drop_mends(document.uri)
        self._publish(document, ())
        for other in self._desk.leaning_on(document):
            self.soon(other, 0, others=False)

    def all_soon(self) -> None:
        for document in self._desk:
            self.soon(document, others=False)

    def told(self, document: Document) -> tuple[Told, ...] | None:
        """What is found in a text as it stands; ``None`` while it is not checked yet."""
        kept = self._told.get(document.uri)
        return kept[1] if kept is not None and kept[0].page is document.page else None

    async def settled(self, document: Document) -> tuple[Told, ...]:
        """What is found in a text as it stands, once it is checked; nothing if it changed meanwhile."""
        if self.told(document) is None:
            self.soon(document, 0)
        task = self._tasks.get(document.uri)
        if task is not None:
            await asyncio.wait({task})
        return self.told(document) or ()

    async def mends(self, document: Document, told: list[Told], wait: float | None = None) -> list[Fix]:
        """The mends of findings. After ``wait`` seconds those known by then; the others are looked for on."""
        tasks = [self._mend_task(document, one) for one in told]
        if tasks:
            await asyncio.wait(tasks, timeout=wait)
        return [fix for task in tasks if task.done() and not task.cancelled() for fix in task.result()]

    def _mend_task(self, document: Document, told: Told) -> asyncio.Task[tuple[Fix, ...]]:
        kept = self._mends.get(document.uri)
        if kept is None or kept[0].page is not document.page:
            self._drop_mends(document.uri)
            kept = (document, {})
            self._mends[document.uri] = kept
        if told not in kept[1]:
            kept[1][told] = asyncio.ensure_future(self._mend(document, told))
        return kept[1][told]

    async def _mend(self, document: Document, told: Told) -> tuple[Fix, ...]:
        async with self._mending:
            project = self._desk.project(document)
            book = self.books.of(project).rules
            return await asyncio.to_thread(mended, document.laid, told, book, project.use, self.today)

    def _drop_mends(self, uri: str) -> None:
        """Mends that are still waited for are of no use once their text has changed."""
        for task in self._mends.pop(uri, (None, {}))[1].values():
            task.cancel()

    def _cancel(self, uri: str) -> None:
        task = self._tasks.pop(uri, None)
        if task is not None:
            task.cancel()

    async def _later(self, document: Document, pause: float, others: bool) -> None:
        await asyncio.sleep(pause)
        # What is open is looked at here: in the background it could change under the look.
        told = await asyncio.to_thread(self._check, document, self._desk.project(document))
        if self._desk.get(document.uri) is document:
            self._told[document.uri] = (document, told)
            self._publish(document, told)
        for other in self._desk.leaning_on(document) if others else ():
            self.soon(other, 0, others=False)

    def _check(self, document: Document, project: Project) -> tuple[Told, ...]:
        text, path = document.page.text, document.shown
        if document.too_large is not None:
            return (told_of_size(path, document.too_large, MOST_CHARACTERS),)
        book = self.books.of(project)
        if document.rules:
            return told_of_rules(text, path, book.rules)
        checked = check(text, path, book=book.rules, today=self.today, use=project.use)
        return told_of_plan(checked, text, book.faults)
