"""What can be written at a place of a plan: keywords, details, units, species, places, rules and names."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from itertools import takewhile
from types import MappingProxyType

from stacklint.editor.cursor import Cursor, cursor, room_for
from stacklint.editor.details import FIRST, details, measured
from stacklint.editor.names import Laid, given, with_used
from stacklint.editor.offers import Offer, OfferKind
from stacklint.editor.outline import NameKind, Section, text_of
from stacklint.editor.positions import Page, Spot
from stacklint.language import UseText
from stacklint.language.nearest import listed
from stacklint.language.parse import keywords
from stacklint.language.scan import Token
from stacklint.language.spellings import LONGER_UNITS, UNITS
from stacklint.language.statements import STATEMENTS, BlockKind
from stacklint.language.yard_statements import MONTHS
from stacklint.rulebook import RuleBook
from stacklint.tables import places, woods
from stacklint.where import Where

_SIGNS = frozenset({"COMMA", "COLON", "PLUS", "SLASH", "TIMES"})
_STANDARD: Mapping[str, str] = MappingProxyType({"PER": "a", "IN": "in kiln", "FROM": "from ends"})
"""What is written for a terminal where that is not its own name."""
_OF_WOOD = frozenset({"boards", "stickers", "bearers"})
_OF_GROUP = frozenset({"course", "reading", "wanted"})
_LEADS_OF_BLOCKS = tuple(kind.value for kind in BlockKind)


def completion(page: Page, own: Laid, spot: Spot, book: RuleBook, use: UseText | None) -> tuple[Offer, ...]:
    """What could be written at a place of a plan, given the names of the texts that it uses."""
    at = cursor(page, own.outline, spot, own.path)
    if at is None:
        return ()
    if at.quoted:
        return tuple(_names(at, own, use))
    if at.parts == ((),):
        return tuple(_leads(at))
    return tuple(_within(at, own, book, use))


def _leads(at: Cursor) -> Iterator[Offer]:
    """The first words of statements that the block takes and has not said, and those of blocks."""
    for statement in STATEMENTS.values():
        if at.kind in statement.blocks and (statement.many or statement.keyword not in at.said):
            detail = listed(details(statement.keyword)[:4])
            yield _offer(statement.keyword, OfferKind.KEYWORD, at.word, detail)
    for word in _LEADS_OF_BLOCKS:
        yield _offer(word, OfferKind.KEYWORD, at.word, "a block")
    yield _offer("use", OfferKind.KEYWORD, at.word, "a file of blocks that plans share")


def _within(at: Cursor, own: Laid, book: RuleBook, use: UseText | None) -> Iterator[Offer]:
    part = at.part
    if part[-1].type in ("FIGURE", "QUARTERS"):
        yield from _units(at)
    room = room_for(part)
    yield from _vocabulary(at, own, book, use)
    if "STRING" in room:
        yield from _names(at, own, use)
    begins = _detail_begins(at)
    for terminal in sorted(room - _SIGNS if not begins else ()):
        word = _word(terminal)
        if word is not None:
            yield _offer(word, OfferKind.WORD, at.word)


def _vocabulary(at: Cursor, own: Laid, book: RuleBook, use: UseText | None) -> Iterator[Offer]:
    """Words that the grammar takes for plain ones, by the statement that they stand in."""
    statement = at.statement
    wood = _wood_since(at)
    if wood is not None:
        yield from _woods(at, own, at.since(wood[0] if wood else None))
        return
    if statement is None:
        return
    part = at.part
    keyword = statement.keyword
    if keyword == "waive" and len(part) == 1:
        for rule in book.rules:
            yield _offer(rule.name, OfferKind.RULE, at.word, rule.title, rule.why)
    elif keyword == "month" and len(part) == 1:
        yield from (_offer(month, OfferKind.WORD, at.word) for month in MONTHS)
    elif keyword in _OF_GROUP and _is(part[-1], "OF", "PLUS"):
        section = own.outline.section_at(at.spot.line)
        yield from (_offer(label, OfferKind.NAME, at.word) for label in _labels(section))
    elif keyword == "from pile" and _is(part[-1], "OF"):
        yield from (_offer(label, OfferKind.NAME, at.word) for label in _labels(_pile_before(at, own, use)))
    elif _detail_begins(at):
        yield from _details(at, keyword)


def _details(at: Cursor, keyword: str) -> Iterator[Offer]:
    words = _words_of_part(at)
    where = at.since(words[0] if words else None)
    first = FIRST.get(keyword, ())
    if len(at.parts) == 1 and first:
        yield from (_offer(way, OfferKind.DETAIL, where, keyword) for way in first)
        return
    yield from (_offer(way, OfferKind.DETAIL, where, keyword) for way in details(keyword))


def _pile_before(at: Cursor, own: Laid, use: UseText | None) -> Section | None:
    """The pile that a ``from pile`` names last before the cursor: what follows says how much is taken of it."""
    names = [text_of(token).casefold() for part in at.parts for token in part if token.type == "STRING"]
    sections = (section for text in with_used(own, use) for section in text.outline.sections)
    piles = (section for section in sections if section.kind is BlockKind.PILE)
    return next((pile for pile in piles if names and pile.name.casefold() == names[-1]), None)


def _detail_begins(at: Cursor) -> bool:
    """Nothing but words stands where a detail of the statement does."""
    statement = at.statement
    if statement is None or (len(at.parts) == 1 and not (statement.takes or statement.keyword in (*FIRST, "want"))):
        return False
    if len(at.parts) > 1 and not details(statement.keyword):
        return False
    rest = _rest(at)
    return len(_words_of_part(at)) == len(rest) and not any(_is(token, "OF", "SITE") for token in rest)


def _rest(at: Cursor) -> tuple[Token, ...]:
    """The tokens of a part without the keyword or the comma before them."""
    if len(at.parts) > 1:
        return at.part[1:]
    statement = at.statement
    return at.part[len(statement.keyword.split()) if statement is not None else 1 :]


def _words_of_part(at: Cursor) -> tuple[Token, ...]:
    return tuple(takewhile(lambda token: token.type == "WORD", _rest(at)))


def _wood_since(at: Cursor) -> tuple[Token, ...] | None:
    """The words of a species so far, where a species is being written; ``None`` elsewhere."""
    words = tuple(reversed(tuple(takewhile(_is_plain, reversed(at.part)))))
    before = at.part[: len(at.part) - len(words)]
    statement = at.statement
    keyword = statement.keyword if statement is not None else ""
    if not before:
        return None
    last = before[-1]
    if keyword in _OF_WOOD and _is(last, "OF"):
        return words
    if keyword == "boards" and len(at.parts) == 1 and last.type == "VOLUME":
        return words
    if (keyword == "like" or "WOOD" in at.leads) and len(before) == 1:
        return words
    return None


def _is_plain(token: Token) -> bool:
    """A word that may be one of a species' name."""
    return token.type == "WORD" and not _is(token, "OF", "LIKE", "WOOD", "BOARDS")


def _woods(at: Cursor, own: Laid, where: Where) -> Iterator[Offer]:
    described = (section.name for section in own.outline.sections if section.kind is BlockKind.WOOD and section.name)
    if "WOOD" not in at.leads:
        yield from (_offer(name, OfferKind.WOOD, where, "described in this plan") for name in dict.fromkeys(described))
    yield from (_offer(name, OfferKind.WOOD, where) for name in woods.names())
    if at.statement is not None and at.statement.keyword == "stickers":
        yield _offer("plywood", OfferKind.WOOD, where)


def _units(at: Cursor) -> Iterator[Offer]:
    """The units that the figure before the cursor can have there."""
    before = at.part[:-1]
    room = room_for(before)
    if _is_first_of_detail(at) and at.statement is not None:
        room &= measured(at.statement.keyword)
    for terminal, symbols in _symbols().items():
        if terminal in room:
            yield from (_offer(symbol, OfferKind.UNIT, at.word, _in_words(terminal)) for symbol in symbols)


def _is_first_of_detail(at: Cursor) -> bool:
    """The figure before the cursor begins a detail, where the grammar alone would take one of any kind."""
    return len(_rest(at)) == 1 and at.statement is not None and bool(len(at.parts) > 1 or at.statement.takes)


@cache
def _symbols() -> Mapping[str, tuple[str, ...]]:
    """The standard symbols of the units of each terminal."""
    spelled = [*UNITS.values(), *(unit for longer in LONGER_UNITS.values() for _, unit in longer)]
    found: dict[str, dict[str, None]] = {}
    for unit in spelled:
        symbol = "h/day" if unit.terminal == "HOURS_A_DAY" else unit.unit.symbol
        found.setdefault(unit.terminal, {})[symbol] = None
    return MappingProxyType({terminal: tuple(symbols) for terminal, symbols in found.items()})


def _in_words(terminal: str) -> str:
    return terminal.lower().replace("_", " ")


def _names(at: Cursor, own: Laid, use: UseText | None) -> Iterator[Offer]:
    """Names in quotation marks: of sites, kilns, piles and places of the climate table."""
    last = at.part[-1] if at.part else None
    if last is None:
        return
    if _is(last, "NEAR") and len(at.part) == 1:
        yield from (_quoted(at, name, OfferKind.PLACE) for name in places.names())
        return
    kind = _named(at, last)
    if kind is not None:
        yield from (_quoted(at, name, OfferKind.NAME, kind.value) for name in given(own, kind, use))


def _named(at: Cursor, last: Token) -> NameKind | None:
    """What kind of block is named after a token, where one that is defined elsewhere is."""
    if "FROM" in at.leads and (_is(last, "PILE") or last.type == "COMMA"):
        return NameKind.PILE
    if "CHARGE" in at.leads and _is(last, "KILN"):
        return NameKind.KILN
    return NameKind.SITE if _is(last, "SITE") and "SITE" not in at.leads else None


def _quoted(at: Cursor, name: str, kind: OfferKind, detail: str = "") -> Offer:
    if at.quoted:
        return Offer(name, name if at.closed else f'{name}"', kind, at.word, detail)
    return Offer(name, f'"{name}"', kind, at.word, detail)


def _labels(section: Section | None) -> Iterable[str]:
    """The labels of the groups of boards of a block."""
    for said in section.statements if section is not None else ():
        if said.statement is not None and said.statement.keyword == "boards" and len(said.tokens) > 1:
            yield said.tokens[1].text


def _word(terminal: str) -> str | None:
    """The standard word of a terminal; ``None`` for one that is no word."""
    if terminal in _STANDARD:
        return _STANDARD[terminal]
    return terminal.lower() if any(terminal in names for names in keywords().values()) else None


def _is(token: Token, *terminals: str) -> bool:
    return token.type in terminals or any(name in terminals for name in token.could_be)


def _offer(word: str, kind: OfferKind, where: Where, detail: str = "", means: str = "") -> Offer:
    return Offer(word, word, kind, where, detail, means)
