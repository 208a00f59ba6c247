"""Makes a rule of its block: which clauses it must have, which it may have only once, and how house rules change it."""

from __future__ import annotations

import re
from collections.abc import Iterable

from stacklint.rulebook.build import Builder, faults_of, read_named
from stacklint.rulebook.examples import faults_of_examples, without_examples
from stacklint.rulebook.nearest import offer
from stacklint.rulebook.reader import EXAMPLE_CLAUSES, LEVELS, Block, Clause
from stacklint.rulebook.rule import Amendment, Rule
from stacklint.rulebook.scope import Collection, collections, kind_in_words
from stacklint.rulebook.written import Refused, RuleFault

_EACH = re.compile(r"each\b\s*(.*)", re.DOTALL)
_NAMED = frozenset({"limit", "let"})
_MANY_TIMES = _NAMED.union(EXAMPLE_CLAUSES)
_MUST_SAY = (
    ("title", "Add title and a few words."),
    ("for", "Add for each and what it goes through."),
    ("say", 'Add say "...".'),
    ("why", 'Add why "...".'),
)


def assembled(block: Block, *, house: bool) -> tuple[Rule | None, tuple[RuleFault, ...]]:
    """The rule that a block holds, or ``None`` and what is wrong with its clauses. Expressions are left for later."""
    faults = [*_repeated(block.clauses), *_missing(block), *faults_of_examples(block)]
    faults.extend(_out_of_place(block, house))
    block = without_examples(block)
    each = None
    for clause in block.clauses:
        if clause.keyword == "for":
            try:
                each = _collection(clause)
            except Refused as refused:
                faults.append(refused.fault)
    if faults or each is None or block.faulty:
        return None, tuple(faults)
    return _rule(block, each, house), ()


def changed(rule: Rule, block: Block) -> tuple[Rule | None, tuple[RuleFault, ...]]:
    """``rule`` with the clauses of a `change`, or ``None`` and what is wrong with them."""
    faults = [*_repeated(block.clauses), *faults_of_examples(block)]
    block = without_examples(block)
    clauses = list(rule.clauses)
    for clause in block.clauses:
        try:
            _put(clauses, clause, rule)
        except Refused as refused:
            faults.append(refused.fault)
    if not block.clauses and not block.faulty:
        instead = "Write the clauses that change below it."
        faults.append(RuleFault(block.where, f"Nothing of {rule.name} is changed.", instead))
    if not faults and not any(clause.keyword in LEVELS for clause in clauses):
        instead = f'Write skip {rule.name} because "...".'
        faults.append(RuleFault(block.where, f"{rule.name} has no level left.", instead))
    if faults or block.faulty:
        return None, tuple(faults)
    new = _rule(block._replace(clauses=tuple(clauses)), rule.each, rule.house, rule)
    wrong = _other_dimensions(rule, new) or faults_of(new)
    return (None, wrong) if wrong else (new, ())


def _rule(block: Block, each: Collection, house: bool, base: Rule | None = None) -> Rule:
    def said(keyword: str) -> str | None:
        texts = next((clause.texts for clause in block.clauses if clause.keyword == keyword), ())
        return " ".join(text.text for text in texts) or None

    return Rule(
        name=block.name,
        title=said("title") or "",
        card=said("card"),
        each=each,
        why=said("why") or "",
        caution=said("caution"),
        where=block.where if base is None else base.where,
        clauses=block.clauses,
        history=() if base is None else (*base.history, Amendment(block.kind, block.where)),
        house=house,
    )


def _out_of_place(block: Block, house: bool) -> Iterable[RuleFault]:
    """Clauses that only a change may have, or only house rules."""
    for clause in block.clauses:
        if clause.keyword == "never":
            yield RuleFault(clause.where, "never belongs to house rules.", "Leave the level out of the rule.")
        elif clause.keyword in EXAMPLE_CLAUSES and not house:
            yield RuleFault(clause.where, f"{clause.keyword} belongs to house rules.", "Leave it out.")


def _repeated(clauses: Iterable[Clause]) -> Iterable[RuleFault]:
    seen: set[str] = set()
    for clause in clauses:
        mark = f"never {clause.body.text}" if clause.keyword == "never" else clause.keyword
        if mark in seen and mark not in _MANY_TIMES:
            instead = "Join the two conditions with or." if clause.keyword in LEVELS else "Leave one of the two out."
            yield RuleFault(clause.where, f"This rule has {mark} twice.", instead)
        seen.add(mark)


def _missing(block: Block) -> Iterable[RuleFault]:
    if block.faulty:
        return
    keywords = {clause.keyword for clause in block.clauses}
    for keyword, instead in _MUST_SAY:
        if keyword not in keywords:
            shown = "for each" if keyword == "for" else keyword
            yield RuleFault(block.where, f"The rule {block.name} has no {shown}.", instead)
    if not keywords.intersection(LEVELS):
        instead = "Add error when, warning when or note when."
        yield RuleFault(block.where, f"The rule {block.name} has no level.", instead)


def _collection(clause: Clause) -> Collection:
    match = _EACH.match(clause.body.text)
    if match is None:
        raise clause.body.refuse("for is not followed by each.", "Write for each and what the rule goes through.")
    name = match.group(1)
    found = collections().get(name)
    if found is None:
        message = f"There is no collection {name}." if name else "The rule does not say what it goes through."
        raise clause.body.refuse(message, offer(name, collections(), "collections"), match.start(1))
    return found


def _put(clauses: list[Clause], clause: Clause, rule: Rule) -> None:
    """Puts a changed clause in the place of the one that it replaces."""
    keyword = clause.keyword
    if keyword == "for":
        message = f"What {rule.name} goes through cannot be changed."
        raise clause.body.refuse(message, "Skip the rule and write another.")
    if keyword == "never":
        _take_out(clauses, clause, rule)
        return
    if keyword in _NAMED:
        name = read_named(clause.body).name
        same = [
            index for index, old in enumerate(clauses) if old.keyword == keyword and read_named(old.body).name == name
        ]
    else:
        same = [index for index, old in enumerate(clauses) if old.keyword == keyword]
    if same:
        clauses[same[0]] = clause
    else:
        clauses.append(clause)


def _take_out(clauses: list[Clause], clause: Clause, rule: Rule) -> None:
    level = clause.body.text
    if level not in LEVELS:
        raise clause.body.refuse(f"{level} is no level.", f"Write never {', never '.join(LEVELS)}.")
    kept = [old for old in clauses if old.keyword != level]
    if len(kept) == len(clauses):
        raise clause.body.refuse(f"{rule.name} gives no {level}.", "Leave this out.")
    clauses[:] = kept


def _other_dimensions(old: Rule, new: Rule) -> tuple[RuleFault, ...]:
    """Limits that a change gives another kind of quantity: said at the change, not at the rule that leans on them."""
    before = {limit.name: limit.value.dimension for limit in old.limits}
    return tuple(
        RuleFault(
            limit.where,
            f"{limit.name} is {kind_in_words(before[limit.name])}; {limit.written} is "
            f"{kind_in_words(limit.value.dimension)}.",
            f"Write {kind_in_words(before[limit.name])}.",
        )
        for limit in Builder(new).program().limits
        if limit.name in before and limit.value.dimension != before[limit.name]
    )
