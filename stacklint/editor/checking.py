"""Checks what is open when typing pauses, in the background, and keeps what was found."""

from __future__ import annotations

import asyncio
import datetime
from collections.abc import Callable

from stacklint.checking import check
from stacklint.editor.desk import Desk, Document
from stacklint.editor.findings import Told, told_of_plan, told_of_rules
from stacklint.editor.fixes import Fix
from stacklint.editor.mended import mended
from stacklint.editor.texts import Books

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
        self._mended: dict[str, tuple[Document, dict[Told, tuple[Fix, ...]]]] = {}
        self._mending = asyncio.Lock()

    def soon(self, document: Document, pause: float = PAUSE, *, others: bool = True) -> None:
        """Checks a text after a pause, and the open ones that a change of it bears on, if ``others``."""
        self._cancel(document.uri)
        self._tasks[document.uri] = asyncio.ensure_future(self._later(document, pause, others))

    def forget(self, document: Document) -> None:
        """A text was closed: nothing is found in it any more."""
        self._cancel(document.uri)
        self._told.pop(document.uri, None)
        self._mended.pop(document.uri, None)
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

    def mended(self, document: Document, told: Told) -> tuple[Fix, ...] | None:
        """The mends of a finding, if they were looked for already."""
        kept = self._mended.get(document.uri)
        return kept[1].get(told) if kept is not None and kept[0].page is document.page else None

    async def mend(self, document: Document, told: Told) -> tuple[Fix, ...]:
        """The mends of a finding: the first time it takes a while."""
        async with self._mending:
            known = self.mended(document, told)
            if known is not None:
                return known
            project = self._desk.project(document)
            book = self.books.of(project).rules
            found = await asyncio.to_thread(mended, document.laid, told, book, project.use, self.today)
            kept = self._mended.get(document.uri)
            if kept is None or kept[0].page is not document.page:
                kept = (document, {})
                self._mended[document.uri] = kept
            kept[1][told] = found
            return found

    def _cancel(self, uri: str) -> None:
        task = self._tasks.pop(uri, None)
        if task is not None:
            task.cancel()

    async def _later(self, document: Document, pause: float, others: bool) -> None:
        await asyncio.sleep(pause)
        told = await asyncio.to_thread(self._check, document)
        if self._desk.get(document.uri) is document:
            self._told[document.uri] = (document, told)
            self._publish(document, told)
        for other in self._desk.leaning_on(document) if others else ():
            self.soon(other, 0, others=False)

    def _check(self, document: Document) -> tuple[Told, ...]:
        text, path = document.page.text, document.shown
        if document.rules:
            return told_of_rules(text, path)
        project = self._desk.project(document)
        book = self.books.of(project)
        checked = check(text, path, book=book.rules, today=self.today, use=project.use)
        return told_of_plan(checked, text, book.faults)
