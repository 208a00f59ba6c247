"""The rule book: the built-in rules, and what house rules make of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache, cached_property
from types import MappingProxyType
from typing import NamedTuple

from stacklint.data import folder
from stacklint.rulebook.assemble import assembled, changed
from stacklint.rulebook.build import faults_of
from stacklint.rulebook.nearest import nearest, offer
from stacklint.rulebook.reader import MOST_FAULTS, Block, BlockKind, read, too_many
from stacklint.rulebook.rule import Amendment, FaultyRules, Rule
from stacklint.rulebook.written import RuleFault
from stacklint.where import Where


class Skipped(NamedTuple):
    """A rule that house rules leave out, and why."""

    rule: Rule
    reason: str
    where: Where


@dataclass(frozen=True, eq=False)
class RuleBook:
    """Rules in the order they were written."""

    rules: tuple[Rule, ...] = field(repr=False)
    skipped: tuple[Skipped, ...] = ()

    @cached_property
    def _by_name(self) -> Mapping[str, Rule]:
        return MappingProxyType({rule.name: rule for rule in self.rules})

    @cached_property
    def by_collection(self) -> Mapping[str, tuple[Rule, ...]]:
        """The rules of each collection."""
        found: dict[str, tuple[Rule, ...]] = {}
        for rule in self.rules:
            found[rule.each.name] = (*found.get(rule.each.name, ()), rule)
        return MappingProxyType(found)

    @property
    def names(self) -> tuple[str, ...]:
        """The names of its rules, those that are skipped left out."""
        return tuple(self._by_name)

    def rule(self, name: str) -> Rule | None:
        """The rule of that name."""
        return self._by_name.get(name)

    def knows(self, name: str) -> bool:
        """There is such a rule, be it one that is skipped."""
        return name in self._by_name or any(one.rule.name == name for one in self.skipped)

    def nearest(self, name: str) -> str | None:
        """The name most like ``name``, if one comes near."""
        return next(iter(nearest(name, self.names, 1)), None)


class Loaded(NamedTuple):
    """A rule book, and what could not be taken of the texts that it was loaded from."""

    book: RuleBook
    faults: tuple[RuleFault, ...]


def load(
    texts: Iterable[tuple[str, str]],
    *,
    base: RuleBook | None = None,
    house: bool = False,
    aside: frozenset[str] = frozenset(),
) -> Loaded:
    """A rule book of ``texts``, each a path and its content, on top of ``base``.

    House rules may change and skip rules of the base; their limits need no source. A faulty rule is
    left out (a faulty change leaves its rule as it was), and all faults of all texts are returned.
    ``aside`` are rules of which it is known why they may not be there: a change of one that lacks is no fault.
    """
    loader = _Loader(base, house=house, strict=True, aside=aside)
    for path, text in texts:
        loader.take(path, text)
    return loader.loaded()


@cache
def builtin() -> RuleBook:
    """The rule book that comes with the package.

    The expressions of a rule are read when it is first needed.

    Raises:
        FaultyRules: if a rule is not written as it must be.
    """
    loader = _Loader(None, house=False, strict=False)
    for path, text in builtin_texts():
        loader.take(path, text)
    loaded = loader.loaded()
    if loaded.faults:
        raise FaultyRules(loaded.faults)
    return loaded.book


def builtin_texts() -> tuple[tuple[str, str], ...]:
    """The rule files that come with the package: name and content."""
    files = sorted(folder("rules").iterdir(), key=lambda file: file.name)
    return tuple(
        (f"rules/{file.name}", file.read_text(encoding="utf-8")) for file in files if file.name.endswith(".rules")
    )


class _Loader:
    """Takes rule texts one by one. ``strict``: expressions are checked at once."""

    def __init__(
        self, base: RuleBook | None, *, house: bool, strict: bool, aside: frozenset[str] = frozenset()
    ) -> None:
        self._rules = {rule.name: rule for rule in base.rules} if base else {}
        self._skipped = {one.rule.name: one for one in base.skipped} if base else {}
        self._house = house
        self._strict = strict
        self._faults: list[RuleFault] = []
        self._faulty_names = set(aside)

    def take(self, path: str, text: str) -> None:
        blocks, faults = read(path, text, house=self._house)
        start = len(self._faults)
        self._faults.extend(faults)
        for block in blocks:
            if len(self._faults) - start > MOST_FAULTS:
                break
            if block.kind is BlockKind.RULE:
                self._add(block)
            elif not self._house:
                message = f"{block.kind.value} belongs to house rules."
                self._faults.append(RuleFault(block.where, message, "Move it to a file house.rules."))
            elif block.kind is BlockKind.CHANGE:
                self._change(block)
            elif block.kind is BlockKind.SKIP:
                self._skip(block)
            else:
                self._keep(block)
        found = sorted(self._faults[start:], key=lambda fault: fault.where)
        if len(found) > MOST_FAULTS:
            found[MOST_FAULTS:] = [too_many(found[MOST_FAULTS].where)]
        self._faults[start:] = found

    def loaded(self) -> Loaded:
        return Loaded(RuleBook(tuple(self._rules.values()), tuple(self._skipped.values())), tuple(self._faults))

    def _add(self, block: Block) -> None:
        same = self._rules.get(block.name)
        if same is not None or block.name in self._skipped:
            place = "" if same is None else f" in {same.where.path}, line {same.where.line}"
            instead = f"Write change {block.name}, or choose another name." if self._house else "Choose another name."
            self._faults.append(RuleFault(block.where, f"There is a rule {block.name} already{place}.", instead))
            return
        rule, faults = assembled(block, house=self._house)
        if rule is not None and self._strict:
            faults = faults_of(rule)
        self._faults.extend(faults)
        if rule is not None and not faults and not block.faulty:
            self._rules[rule.name] = rule
        else:
            self._faulty_names.add(block.name)

    def _change(self, block: Block) -> None:
        rule = self._rules.get(block.name)
        if rule is None:
            self._refuse_name(block)
            return
        new, faults = changed(rule, block)
        self._faults.extend(faults)
        if new is not None:
            self._rules[new.name] = new

    def _skip(self, block: Block) -> None:
        """A rule that house rules farther up skip may be skipped again, and then for the nearer reason."""
        skipped = self._skipped.get(block.name)
        rule = self._rules.get(block.name) or (skipped.rule if skipped is not None else None)
        if rule is None:
            self._refuse_name(block)
            return
        if skipped is not None:
            if _together(skipped, block):
                self._refuse_both(block, "skipped already")
                return
            rule = _amended(rule, BlockKind.SKIP, skipped.where, skipped.reason)
        kept = next((said for said in rule.history if said.kind is BlockKind.KEEP and _together(said, block)), None)
        if kept is not None:
            self._refuse_both(block, f"kept in this file too, in line {kept.where.line}")
            return
        self._rules.pop(block.name, None)
        self._skipped[block.name] = Skipped(rule, block.reason, block.where)

    def _keep(self, block: Block) -> None:
        """Takes back that house rules farther up skip a rule. Where none does, it says that the rule is to stay."""
        skipped = self._skipped.get(block.name)
        if skipped is not None and _together(skipped, block):
            self._refuse_both(block, f"skipped in this file too, in line {skipped.where.line}")
            return
        rule = self._rules.get(block.name)
        if skipped is not None:
            rule = _amended(skipped.rule, BlockKind.SKIP, skipped.where, skipped.reason)
        if rule is None:
            self._refuse_name(block)
            return
        kept = _amended(rule, BlockKind.KEEP, block.where, block.reason)
        if skipped is None:
            self._rules[block.name] = kept
            return
        del self._skipped[block.name]
        self._put_back(kept)

    def _put_back(self, rule: Rule) -> None:
        """Puts a rule where it stood: among those of its file, by its line."""
        names = list(self._rules)
        same = [name for name in names if self._rules[name].where.path == rule.where.path]
        after = next((name for name in same if self._rules[name].where.line > rule.where.line), None)
        last = names.index(same[-1]) + 1 if same else len(names)
        names.insert(last if after is None else names.index(after), rule.name)
        self._rules = {name: rule if name == rule.name else self._rules[name] for name in names}

    def _refuse_both(self, block: Block, contrary: str) -> None:
        self._faults.append(RuleFault(block.where, f"{block.name} is {contrary}.", "Leave one of the two out."))

    def _refuse_name(self, block: Block) -> None:
        if block.name in self._faulty_names or not block.name:
            return
        skipped = self._skipped.get(block.name)
        if skipped is not None:
            message = f"{block.name} is skipped in {skipped.where.path}, line {skipped.where.line}."
            instead = f'Write keep {block.name} because "..." above this change.'
        else:
            message, instead = f"There is no rule {block.name}.", offer(block.name, self._rules, "rules")
        self._faults.append(RuleFault(block.where, message, instead))


def _together(said: Amendment | Skipped, block: Block) -> bool:
    """Both stand in one file."""
    return said.where.path == block.where.path


def _amended(rule: Rule, kind: BlockKind, where: Where, reason: str) -> Rule:
    """The rule with what house rules said of it; what it judges by is the same."""
    return replace(rule, history=(*rule.history, Amendment(kind, where, reason)))
