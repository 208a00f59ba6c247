"""Finds and reads rule files that are named to be tested, and the example plans that they name."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

from stacklint.files import (
    HOUSE_RULES,
    PLAN_SUFFIX,
    RULES_SUFFIX,
    Astray,
    PlanFile,
    Trouble,
    found_below,
    found_in,
    is_folder,
    project_root,
    read,
    shown,
)


class RuleFile(NamedTuple):
    """A rule file that was read. ``path`` is shown to people; ``folder`` and ``root`` are resolved."""

    path: str
    text: str
    folder: Path
    root: Path

    @property
    def is_house_rules(self) -> bool:
        """It holds for the plans of its folder. Another holds where a command is given it as ``--house``."""
        return Path(self.path).name == HOUSE_RULES


def rule_files(names: Sequence[str]) -> Iterator[RuleFile | Trouble]:
    """Each rule file that is named, once; those of a folder sorted by path, and searched for as plans are."""
    seen: set[Path] = set()
    for name in names:
        if is_folder(name):
            found = found_in(name)
            yield from found.troubles
            if not found.rules and not found.troubles:
                yield Trouble(name, f"holds no rules: no file in it or below it ends in {RULES_SUFFIX}")
            paths, given = found.rules, Path(name).resolve()
        else:
            paths, given = (Path(name),), None
        for path in paths:
            file = _rule_file(path, given)
            if isinstance(file, RuleFile):
                place = path.resolve()
                if place in seen:
                    continue
                seen.add(place)
            yield file


def example_plan(name: str, file: RuleFile) -> PlanFile | str:
    """The plan that a rule file names as an example, or why it cannot be read, in whole sentences."""
    found = found_below(file.folder / name, file.root, PLAN_SUFFIX)
    if isinstance(found, Astray):
        return f"The plan {name} {found.value}. Write the path of a plan in this project, from this file."
    text = read(found, by_link=False)
    if isinstance(text, Trouble):
        return f"The plan {name}: {text.message}. Write its path from this file."
    return PlanFile(shown(found), text, found.parent, file.root)


def _rule_file(path: Path, given: Path | None) -> RuleFile | Trouble:
    if not path.name.lower().endswith(RULES_SUFFIX):
        return Trouble(str(path), f"is no rule file by its name; rule files end in {RULES_SUFFIX}")
    if given is not None:
        root = project_root(path.parent.resolve(), given)
        if isinstance(found_below(path, root, RULES_SUFFIX), Astray):
            return Trouble(str(path), "is a link that leads out of the project or to no file of rules")
    text = read(path)
    if isinstance(text, Trouble):
        return text
    folder = path.parent.resolve()
    return RuleFile(shown(folder / path.name), text, folder, project_root(folder, given))
