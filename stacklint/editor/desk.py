"""The texts that an editor holds open, and what each of them may see."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from stacklint.editor.names import Laid, laid, with_used
from stacklint.editor.positions import Encoding, Page
from stacklint.editor.texts import UNNAMED, Project, is_rules, project
from stacklint.files import Trouble, read

MOST_CHARACTERS = 2_000_000
"""Characters of a text that an editor holds open. Reading it takes seconds, and it is read again as one types."""


@dataclass(frozen=True, eq=False)
class Document:
    """A text that is open. ``path`` is resolved; ``None`` for a text without a file.

    ``too_large`` is its length where that is beyond all measure; its page is then empty.
    """

    uri: str
    path: Path | None
    shown: str
    version: int | None
    page: Page
    rules: bool
    too_large: int | None = None

    @cached_property
    def laid(self) -> Laid:
        return laid(self.page.text, self.shown)


class Desk:
    """What is open, by URI. ``path_of`` gives the file of a URI; ``None`` if it is of no file."""

    def __init__(self, path_of: Callable[[str], str | None]) -> None:
        self._path_of = path_of
        self._open: dict[str, Document] = {}
        self.folders: tuple[Path, ...] = ()
        self.encoding = Encoding.UTF_16

    def put(self, uri: str, text: str, version: int | None, language: str = "") -> Document:
        """Takes a text that was opened or changed. ``language`` is what the editor calls it."""
        named = self._path_of(uri)
        before = self._open.get(uri)
        rules = before.rules if before is not None else is_rules(uri) or language.endswith("rules")
        path = _resolved(named)
        shown = UNNAMED if path is None else str(path)
        too_large = len(text) if len(text) > MOST_CHARACTERS else None
        page = Page(text if too_large is None else "", self.encoding)
        document = Document(uri, path, shown, version, page, rules, too_large)
        self._open[uri] = document
        return document

    def close(self, uri: str) -> Document | None:
        return self._open.pop(uri, None)

    def get(self, uri: str) -> Document | None:
        return self._open.get(uri)

    def __iter__(self) -> Iterator[Document]:
        return iter(tuple(self._open.values()))

    @property
    def texts(self) -> Mapping[Path, str]:
        """What is open in place of files."""
        return {each.path: each.page.text for each in self._open.values() if each.path is not None}

    def project(self, document: Document) -> Project:
        return project(document.path, self.folders, self.texts)

    def page_of(self, path: str, seen_from: Document) -> tuple[str, Page] | None:
        """The URI and the text of a path in findings or of a used file; ``None`` if it may not be read."""
        if path == seen_from.shown:
            return seen_from.uri, seen_from.page
        resolved = _resolved(path)
        found = next((each for each in self._open.values() if each.path is not None and each.path == resolved), None)
        if found is not None:
            return found.uri, found.page
        root = self.project(seen_from).root
        if resolved is None or root is None or not resolved.is_relative_to(root):
            return None
        text = read(resolved, by_link=False)
        return None if isinstance(text, Trouble) else (resolved.as_uri(), Page(text, self.encoding))

    def leaning_on(self, document: Document) -> tuple[Document, ...]:
        """The other open texts that a change of a text bears on: plans that use it, or all for one of rules."""
        others = (each for each in self if each.uri != document.uri)
        if document.rules:
            return tuple(others)
        plans = (each for each in others if not each.rules)
        return tuple(each for each in plans if any(one.path == document.shown for one in self._brought(each)))

    def others(self, document: Document) -> tuple[Laid, ...]:
        """The outlines of the other open plans with a file."""
        return tuple(
            each.laid for each in self if each.uri != document.uri and not each.rules and each.path is not None
        )

    def _brought(self, document: Document) -> Iterator[Laid]:
        return with_used(document.laid, self.project(document).use)


def _resolved(path: str | None) -> Path | None:
    try:
        return None if not path else Path(path).resolve()
    except (OSError, ValueError, RuntimeError):
        return None
