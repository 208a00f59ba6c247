"""Which texts an editor's questions are about: what it holds open, and files of the project that its plans use.

Nothing outside a project's root is read, and what is open counts in the place of its file.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from stacklint.files import HOUSE_RULES, RULES_SUFFIX, Astray, Trouble, found_below, lending, project_root, read
from stacklint.language import UsedText, UseRefused, UseText
from stacklint.rulebook import HouseRules, RuleBook, RuleFault, chained
from stacklint.where import Where

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
                return UsedText(str(resolved), texts[resolved])
            return from_disk(name, using)

        return lend


class Book(NamedTuple):
    """The rules that a text is judged by, and the ``faults`` of house rules, which are then set aside."""

    rules: RuleBook
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
    """The rule book of each text, from its house rules as they stand.

    House rules with any fault in them are set aside, as ``stacklint check`` does.
    """

    def __init__(self, house: Path | None = None) -> None:
        self._house = house

    def of(self, project: Project) -> Book:
        """The rules for the text of a project. House rules themselves are read on top of those farther up."""
        paths = (self._house,) if self._house is not None else _house_rules(project)
        houses: list[HouseRules] = []
        faults: list[RuleFault] = []
        for path in paths:
            text = project.open_texts.get(path.resolve())
            found = text if text is not None else read(path)
            if isinstance(found, Trouble):
                faults.append(_unread(path, found))
            else:
                houses.append(HouseRules(str(path), found))
        chain = chained(houses)
        return Book(chain.book, (*faults, *chain.faults))


def _house_rules(project: Project) -> tuple[Path, ...]:
    """The house rules of a text, the farthest first; what is open counts though it is not written yet."""
    if project.root is None:
        return ()
    place = Path(project.path).resolve()
    within = [each for each in place.parents if each.is_relative_to(project.root)]
    found = (each / HOUSE_RULES for each in reversed(within))
    return tuple(
        path
        for path in found
        if path != place
        and (path in project.open_texts or (path.is_file() and _in_project(path, project.root)))
    )


def _in_project(path: Path, root: Path) -> bool:
    return not isinstance(found_below(path, root, RULES_SUFFIX), Astray)


def _unread(path: Path, trouble: Trouble) -> RuleFault:
    return RuleFault(Where(str(path), 1, 1, 1, 2), f"The house rules cannot be read: {trouble.message}.", "")
