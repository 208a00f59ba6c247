"""The rule book of each plan: the built-in rules, and what the house rules from the project's root to the plan make
of them."""

from __future__ import annotations

from pathlib import Path

from stacklint.files import RULES_SUFFIX, Astray, PlanFile, Trouble, found_below, house_rules, read, shown
from stacklint.rulebook import Chain, HouseRules, RuleBook, RuleFault, chained


class Books:
    """Finds and loads house rules, each file and each chain of them once.

    House rules that have any fault are set aside as a whole, and the other rules judge without them. ``troubles``
    tells of the faults, of each once.
    """

    def __init__(self, house: str | None) -> None:
        self._house = Path(house) if house is not None else None
        self._texts: dict[Path, HouseRules | None] = {}
        self._chains: dict[tuple[Path, Path], Chain] = {}
        self._told: set[RuleFault] = set()
        self.troubles: list[Trouble] = []

    def of_plan(self, plan: PlanFile) -> RuleBook:
        return self.of_folder(plan.folder, plan.root)

    def of_folder(self, folder: Path, root: Path) -> RuleBook:
        """The rules for what lies in ``folder`` of the project at ``root``."""
        return self._chain(folder, root).book

    def sources(self, folder: Path, root: Path) -> tuple[HouseRules, ...]:
        """The house rules that the book of ``folder`` is made of; ``book_of`` makes the same book of them."""
        return self._chain(folder, root).accepted

    def _chain(self, folder: Path, root: Path) -> Chain:
        if (folder, root) not in self._chains:
            self._chains[folder, root] = self._chained(folder, root)
        return self._chains[folder, root]

    def _chained(self, folder: Path, root: Path) -> Chain:
        paths = (self._house,) if self._house is not None else house_rules(folder, root)
        chain = chained(house for path in paths if (house := self._text(path, root)) is not None)
        told = [fault for fault in chain.faults if fault not in self._told]
        self._told.update(told)
        for name in dict.fromkeys(fault.where.path for fault in told):
            self.troubles.extend(_trouble(fault) for fault in told if fault.where.path == name)
            self.troubles.append(Trouble(name, "these house rules were set aside; the other rules judged without them"))
        return chain

    def _text(self, path: Path, root: Path) -> HouseRules | None:
        if path not in self._texts:
            self._texts[path] = self._read(path, root)
        return self._texts[path]

    def _read(self, path: Path, root: Path) -> HouseRules | None:
        name = str(path) if path == self._house else shown(path)
        if path == self._house:
            text = read(path)
        else:
            found = found_below(path, root, RULES_SUFFIX)
            if isinstance(found, Astray):
                self.troubles.append(Trouble(name, "leads out of the project or to no file of rules"))
                return None
            text = read(found, by_link=False)
        if isinstance(text, Trouble):
            self.troubles.append(Trouble(name, text.message))
            return None
        return HouseRules(name, text)


def _trouble(fault: RuleFault) -> Trouble:
    return Trouble(fault.where.path, f"{fault.message} {fault.instead}".rstrip(), fault.where)
