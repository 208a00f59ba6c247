"""The rule book of each plan: the built-in rules, and what the house rules above the plan make of them."""

from __future__ import annotations

from pathlib import Path

from stacklint.files import PlanFile, Trouble, house_rules, read, shown
from stacklint.rulebook import RuleBook, builtin, load


class Books:
    """Finds and loads house rules, each file once.

    House rules that have any fault are set aside as a whole: the built-in rules judge in their place, so
    that a slip in them never hides what they would have let through. ``troubles`` tells of the faults.
    """

    def __init__(self, house: str | None) -> None:
        self._house = Path(house) if house is not None else None
        self._loaded: dict[Path, RuleBook] = {}
        self.troubles: list[Trouble] = []

    def of_plan(self, plan: PlanFile) -> RuleBook:
        return self.of_folder(plan.folder, plan.root)

    def of_folder(self, folder: Path, root: Path) -> RuleBook:
        """The rules for what lies in ``folder`` of the project at ``root``."""
        path = self._house or house_rules(folder, root)
        if path is None:
            return builtin()
        if path not in self._loaded:
            self._loaded[path] = self._load(path, root)
        return self._loaded[path]

    def _load(self, path: Path, root: Path) -> RuleBook:
        name = str(path) if path == self._house else shown(path)
        if path != self._house and not path.resolve().is_relative_to(root):
            self.troubles.append(Trouble(name, "leads out of the project; house rules must lie in it"))
            return builtin()
        text = read(path)
        if isinstance(text, Trouble):
            self.troubles.append(Trouble(name, text.message))
            return builtin()
        loaded = load([(name, text)], base=builtin(), house=True)
        if not loaded.faults:
            return loaded.book
        for fault in loaded.faults:
            place = f"{fault.where.path}:{fault.where.line}:{fault.where.column}"
            self.troubles.append(Trouble(place, f"error: {fault.message} {fault.instead}"))
        self.troubles.append(
            Trouble(name, "these house rules were set aside; the built-in rules judged in their place")
        )
        return builtin()
