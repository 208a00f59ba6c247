"""A place in a rule file: the clause that it stands in, and what an expression there may name."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from stacklint.editor.positions import Page, Spot
from stacklint.engineering.schema import Call, Declaration, Many, One
from stacklint.rulebook import RuleBook, reader
from stacklint.rulebook.scope import Collection, calls_of, collections, facts_of
from stacklint.where import Where

BLOCK_WORDS = tuple(kind.value for kind in reader.BlockKind)
EXPRESSIONS = frozenset({"where", "let", "limit", "measure", "at", *reader.LEVELS})
"""Clauses that hold an expression."""
FILLED = frozenset({"say", "instead"})
"""Clauses whose texts hold expressions between braces."""

_FIRST = re.compile(r"\s*([A-Za-z][\w-]*)?")
_GOES_ON = re.compile(r"""\s*(?:["'&]|(?:and|or|if|else|source|memory)\b)""")
_PATH = re.compile(r"[A-Za-z_][\w.]*\Z")
_BEFORE_NAME = re.compile(r"[\w-]+\Z")
_BOUND = re.compile(r"\b([A-Za-z_]\w*)\s+in\s+([A-Za-z_][\w.]*)\s*:")
_NAMED = re.compile(r"\s*(?:limit|let)\s+([A-Za-z_]\w*)\s*=\s*(.*)")
_EACH = re.compile(r"\s*for\s+each\s+(\w+)")
_BLOCK = re.compile(rf"\s*({'|'.join(BLOCK_WORDS)})\b\s*(\S*)")


class Figure(NamedTuple):
    """A limit or a let of the rule, and what it is set to, as written."""

    name: str
    written: str


class RuleCursor(NamedTuple):
    """A place in a rule file.

    ``keyword`` is that of the clause, nothing where one is begun; ``before`` what stands between it and the place.
    ``classes`` are the classes of facts that names stand for. ``path`` is the dotted word at the place, up to it, and
    ``where`` its stretch; ``name_where`` is that of a word with hyphens.
    """

    spot: Spot
    keyword: str
    before: str
    each: Collection | None
    classes: Mapping[str, str]
    figures: tuple[Figure, ...]
    path: str
    where: Where
    name_where: Where

    @property
    def in_expression(self) -> bool:
        """An expression stands here, not a text."""
        if self.keyword in FILLED:
            return self.before.rfind("{") > self.before.rfind("}")
        return self.keyword in EXPRESSIONS and self.before.count('"') % 2 == 0


def rule_cursor(page: Page, spot: Spot, book: RuleBook, path: str = "-") -> RuleCursor | None:
    """What stands at a place of a rule file; ``None`` in a line of comment."""
    line = page.lines[spot.line - 1]
    before = line[: spot.column - 1]
    if line.lstrip().startswith("#"):
        return None
    first = _clause_line(page.lines, spot.line - 1)
    start = _FIRST.match(page.lines[first])
    keyword = start.group(1) or "" if start else ""
    if first == spot.line - 1 and start is not None and spot.column - 1 <= start.end():
        keyword = ""  # the cursor stands in the keyword itself
    clause = "\n".join([*page.lines[first : spot.line - 1], before])
    rest = clause[start.end() :] if start is not None else clause
    match = _PATH.search(before)
    word = match.group() if match else ""
    top, end = _block_lines(page.lines, spot.line - 1)
    block = page.lines[top:end]
    each = _each(block, book)
    return RuleCursor(
        spot=spot,
        keyword=keyword,
        before=rest,
        each=each,
        classes=_classes(each, clause),
        figures=_figures(block, book),
        path=word,
        where=Where(path, spot.line, spot.column - len(word), spot.line, spot.column),
        name_where=Where(path, spot.line, len(_BEFORE_NAME.sub("", before)) + 1, spot.line, spot.column),
    )


def declared(at: RuleCursor, path: str) -> Declaration | Call | str | None:
    """What a dotted name stands for: a fact, one that takes an argument, or the class that a variable holds."""
    first, *facts = path.split(".")
    of = at.classes.get(first)
    if of is None or not facts:
        return of
    for fact in facts[:-1]:
        found = facts_of(of).get(fact)
        if found is None or not isinstance(found.kind, One):
            return None
        of = found.kind.of
    return facts_of(of).get(facts[-1]) or calls_of(of).get(facts[-1])


def class_of(at: RuleCursor, path: str) -> str | None:
    """The class of facts that may follow a dotted name and its point."""
    found = declared(at, path)
    if isinstance(found, str):
        return found
    return found.kind.of if isinstance(found, Declaration) and isinstance(found.kind, One) else None


def _clause_line(lines: list[str], index: int) -> int:
    """The line on which the clause of a line begins."""
    while index > 0 and (_GOES_ON.match(lines[index]) or not lines[index].strip()):
        if not lines[index].strip():
            return index
        index -= 1
    return index


def _block_lines(lines: list[str], index: int) -> tuple[int, int]:
    top = index
    while top > 0 and not _BLOCK.match(lines[top]):
        top -= 1
    end = index + 1
    while end < len(lines) and not _BLOCK.match(lines[end]):
        end += 1
    return top, end


def _each(block: list[str], book: RuleBook) -> Collection | None:
    for line in block:
        match = _EACH.match(line)
        if match is not None:
            return collections().get(match.group(1))
    head = _BLOCK.match(block[0]) if block else None
    rule = book.rule(head.group(2)) if head is not None else None
    return rule.each if rule is not None else None


def _classes(each: Collection | None, clause: str) -> Mapping[str, str]:
    """The classes of the variables: the rule's own, and those that quantifiers before the place bind."""
    found: dict[str, str] = {}
    if each is not None:
        found[each.name] = each.of
        if not each.of_plan:
            found["stack"] = "StackFacts"
    for name, collection in _BOUND.findall(clause):
        of = _members(found, collection)
        if of is not None:
            found[name] = of
    return found


def _members(classes: Mapping[str, str], path: str) -> str | None:
    """The class of the members of a collection such as ``stack.groups``."""
    first, *facts = path.split(".")
    of = classes.get(first)
    for index, fact in enumerate(facts):
        declared = facts_of(of).get(fact) if of is not None else None
        kind = declared.kind if declared is not None else None
        if index == len(facts) - 1:
            return kind.of if isinstance(kind, Many) else None
        of = kind.of if isinstance(kind, One) else None
    return None


def _figures(block: list[str], book: RuleBook) -> tuple[Figure, ...]:
    """The limits and lets of a rule; those of the rule that a change changes come last."""
    found = {match.group(1): match.group(2).strip() for line in block if (match := _NAMED.match(line))}
    head = _BLOCK.match(block[0]) if block else None
    rule = book.rule(head.group(2)) if head is not None and head.group(1) == "change" else None
    for clause in rule.clauses if rule is not None else ():
        match = _NAMED.match(f"{clause.keyword} {clause.body.text}")
        if match is not None:
            found.setdefault(match.group(1), match.group(2).strip())
    return tuple(Figure(name, written) for name, written in found.items())
