"""Which texts an editor's questions are about: what it holds open, and files of the project that its plans use.

Nothing outside a project's root is read, and what is open counts in the place of its file.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from stacklint.files import HOUSE_RULES, Trouble, house_rules, lending, project_root, read
from stacklint.language import UsedText, UseRefused, UseText
from stacklint.rulebook import RuleBook, RuleFault, builtin, load
from stacklint.where import Where

RULES_SUFFIX = ".rules"
UNNAMED = "-"
"""The path of a text that has no file."""


class Project(NamedTuple):
    """What a text at ``path`` may see: the folder it counts names from, the root, and the texts that are open.

    ``open_texts`` are by resolved path. ``path`` is absolute, or :data:`UNNAMED`.
    """

    path: str
    root: Path | None
    open_texts: Mapping[Path, str]

    @property
    def use(self) -> UseText | None:
        """What opens the files that a plan uses; ``None`` for a text without a file."""
        if self.root is None:
            return None
        root, texts, from_disk = self.root, self.open_texts, lending(self.root)

        def lend(name: str, using: str) -> UsedText | UseRefused:
            path = Path(using).parent / name
            try:
                resolved = path.resolve()
            except (OSError, ValueError, RuntimeError):
                return from_disk(name, using)
            if resolved in texts and resolved.is_relative_to(root):
                return UsedText(os.path.normpath(path), texts[resolved])
            return from_disk(name, using)

        return lend


class Book(NamedTuple):
    """The rules that a text is judged by. ``faults`` of house rules, which are then set aside, with their path."""

    rules: RuleBook
    path: str | None = None
    faults: tuple[RuleFault, ...] = ()


def project(path: Path | None, folders: tuple[Path, ...], open_texts: Mapping[Path, str]) -> Project:
    """The project of a text. ``folders`` are those that the editor works in; the innermost around the text counts."""
    if path is None:
        return Project(UNNAMED, None, open_texts)
    try:
        folder = path.resolve().parent
        around = [each for each in (each.resolve() for each in folders) if folder.is_relative_to(each)]
        root = project_root(folder, max(around, key=lambda each: len(each.parts), default=None))
    except (OSError, ValueError, RuntimeError):
        return Project(UNNAMED, None, open_texts)
    return Project(str(path), root, open_texts)


def is_rules(path: str) -> bool:
    return path.lower().endswith(RULES_SUFFIX)


class Books:
    """The rule book of each project, loaded anew when its house rules change.

    House rules with any fault in them are set aside, as ``stacklint check`` does.
    """

    def __init__(self, house: Path | None = None) -> None:
        self._house = house
        self._loaded: dict[Path, tuple[str, Book]] = {}

    def of(self, project: Project) -> Book:
        """The rules for the text of a project."""
        path = self._house or _nearest_house_rules(project)
        if path is None:
            return Book(builtin())
        text = project.open_texts.get(path.resolve())
        if text is None:
            from_disk = read(path)
            if isinstance(from_disk, Trouble):
                return Book(builtin(), str(path), (_unread(path, from_disk),))
            text = from_disk
        kept = self._loaded.get(path)
        if kept is None or kept[0] != text:
            kept = (text, _book(path, text))
            self._loaded[path] = kept
        return kept[1]


def _nearest_house_rules(project: Project) -> Path | None:
    if project.root is None:
        return None
    folder = Path(project.path).resolve().parent
    for above in (folder, *folder.parents):
        if above / HOUSE_RULES in project.open_texts:
            return above / HOUSE_RULES
        found = house_rules(above, above)
        if found is not None:
            return found if found.resolve().is_relative_to(project.root) else None
        if above == project.root:
            return None
    return None


def _book(path: Path, text: str) -> Book:
    loaded = load([(str(path), text)], base=builtin(), house=True)
    return Book(builtin(), str(path), loaded.faults) if loaded.faults else Book(loaded.book, str(path))


def _unread(path: Path, trouble: Trouble) -> RuleFault:
    return RuleFault(Where(str(path), 1, 1, 1, 2), f"The house rules cannot be read: {trouble.message}.", "")
