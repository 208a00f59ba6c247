"""What can be written at a place of a rule file, and what is known of a name in it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from types import MappingProxyType

from stacklint.editor.hover import Page as HoverPage
from stacklint.editor.markdown import escaped
from stacklint.editor.offers import Offer, OfferKind
from stacklint.editor.positions import Page, Spot
from stacklint.editor.rule_cursor import BLOCK_WORDS, FILLED, RuleCursor, class_of, declared, rule_cursor
from stacklint.editor.rule_pages import rule_page, skipped_page
from stacklint.engineering.schema import Call, Declaration
from stacklint.rulebook import RuleBook
from stacklint.rulebook.grammar import QUANTIFIERS
from stacklint.rulebook.reader import CLAUSES, LEVELS
from stacklint.rulebook.scope import STACK_KINDS, Collection, calls_of, collections, facts_of, kind_in_words, noun
from stacklint.units import NUMBER, Dimension, Unit

_WRITTEN: Mapping[str, str] = MappingProxyType({"for": "for each", **{level: f"{level} when" for level in LEVELS}})
_AFTER_FIGURE = re.compile(r"\d\s*\Z")
_AFTER_AS = re.compile(r"\bas\s+\Z")
_WORD_AT = re.compile(r"[A-Za-z_][\w.-]*")


def rule_completion(page: Page, spot: Spot, book: RuleBook, path: str = "-") -> tuple[Offer, ...]:
    """What could be written at a place of a rule file: clauses, collections, facts, limits, rules, units."""
    at = rule_cursor(page, spot, book, path)
    return tuple(_offers(at, book)) if at is not None else ()


def rule_hover(page: Page, spot: Spot, book: RuleBook, path: str = "-") -> HoverPage | None:
    """What a fact means and is measured in, what a limit is set to, what a rule says."""
    word = next((match for match in _WORD_AT.finditer(page.lines[spot.line - 1]) if _covers(match, spot)), None)
    if word is None:
        return None
    # The part of a dotted name up to the one that the cursor stands in.
    cut = word.group().find(".", max(spot.column - 1 - word.start(), 0))
    name = word.group() if cut < 0 else word.group()[:cut]
    at = rule_cursor(page, Spot(spot.line, word.start() + len(name) + 1), book, path)
    if at is None:
        return None
    text = _page(at, name, book)
    where = at.where._replace(column=word.start() + 1, end_column=word.start() + len(name) + 1)
    return HoverPage(text, where) if text else None


def _covers(match: re.Match[str], spot: Spot) -> bool:
    return match.start() <= spot.column - 1 <= match.end()


def _offers(at: RuleCursor, book: RuleBook) -> Iterator[Offer]:
    match at.keyword:
        case "":
            for word in (*BLOCK_WORDS, *CLAUSES):
                yield Offer(word, _WRITTEN.get(word, word), OfferKind.KEYWORD, at.name_where)
        case "change" | "skip":
            for rule in book.rules:
                yield Offer(rule.name, rule.name, OfferKind.RULE, at.name_where, rule.title, rule.why)
        case "keep":
            for skipped in book.skipped:
                rule = skipped.rule
                yield Offer(rule.name, rule.name, OfferKind.RULE, at.name_where, rule.title, skipped.reason)
        case "never" | "fails" if '"' not in at.before:
            yield from (Offer(level, level, OfferKind.WORD, at.where) for level in LEVELS)
        case "for":
            yield from _collections(at)
        case _ if at.in_expression:
            yield from _expression(at)


def _collections(at: RuleCursor) -> Iterator[Offer]:
    if not at.before.strip().startswith("each"):
        yield Offer("each", "each", OfferKind.WORD, at.where)
        return
    for one in collections().values():
        yield Offer(one.name, one.name, OfferKind.COLLECTION, at.where, _of_collection(one))


def _expression(at: RuleCursor) -> Iterator[Offer]:
    owner, point, word = at.path.rpartition(".")
    if point:
        of = class_of(at, owner)
        where = at.where._replace(column=at.spot.column - len(word))
        for name, fact in facts_of(of).items() if of is not None else ():
            yield Offer(name, name, OfferKind.FACT, where, kind_in_words(fact.kind), fact.means)
        for name, call in calls_of(of).items() if of is not None else ():
            detail = f"{call.result.word}, asked with {call.argument.word}"
            yield Offer(f"{name}(...)", f"{name}(", OfferKind.FACT, where, detail, call.means)
        return
    before = at.before[: len(at.before) - len(at.path)]
    if _AFTER_FIGURE.search(before) or (at.keyword in FILLED and _AFTER_AS.search(before)):
        units = (unit for unit in Unit if unit is not Unit.QUARTER)
        yield from (Offer(unit.symbol, unit.symbol, OfferKind.UNIT, at.where, unit.dimension.word) for unit in units)
        return
    yield from (Offer(name, name, OfferKind.COLLECTION, at.where, f"a {noun(of)}") for name, of in at.classes.items())
    yield from (Offer(one.name, one.name, OfferKind.NAME, at.where, one.written) for one in at.figures)
    yield from (Offer(word, f"{word}(", OfferKind.WORD, at.where) for word in sorted(QUANTIFIERS))


def _page(at: RuleCursor, name: str, book: RuleBook) -> str:
    if at.keyword in BLOCK_WORDS:
        rule = book.rule(name)
        if rule is not None:
            return rule_page(rule)
        skipped = next((each for each in book.skipped if each.rule.name == name), None)
        return skipped_page(skipped) if skipped is not None else ""
    if at.keyword == "for":
        one = collections().get(name)
        return f"**{escaped(name)}**: {escaped(_of_collection(one))}" if one is not None else ""
    figure = next((one for one in at.figures if one.name == name), None)
    if at.keyword in ("limit", "let") and figure is not None:
        return f"**{escaped(name)}** = {escaped(figure.written)}"
    if not at.in_expression:
        return ""
    if figure is not None:
        return f"**{escaped(name)}** = {escaped(figure.written)}"
    found = declared(at, name)
    if isinstance(found, str):
        return f"**{escaped(name)}**: a {escaped(noun(found))}"
    if isinstance(found, Declaration):
        return f"**{escaped(name)}**: {escaped(_kind(found.kind))}\n\n{escaped(found.means)}"
    if isinstance(found, Call):
        kind = f"{_kind(found.result)}, asked with {_kind(found.argument)}"
        return f"**{escaped(name)}(...)**: {escaped(kind)}\n\n{escaped(found.means)}"
    return ""


def _kind(kind: object) -> str:
    """What a fact is, with the unit that it is kept in."""
    unit = f", kept in {kind.si}" if isinstance(kind, Dimension) and kind != NUMBER else ""
    return f"{kind_in_words(kind)}{unit}"


def _of_collection(one: Collection) -> str:
    if one.name in STACK_KINDS:
        return "every pile and charge" if one.name == "stack" else f"every {one.name}"
    owner = one.owner
    return facts_of(owner)[one.field].means
