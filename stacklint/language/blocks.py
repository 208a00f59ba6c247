"""Puts statements together into blocks."""

from __future__ import annotations

import datetime
import re

from stacklint.language.complaints import complain, quote
from stacklint.language.line import Line, Log, tokens_of, words_of
from stacklint.language.nearest import listed, nearest
from stacklint.language.parse import Branch, Part, Refusal, keywords, parse, parse_part, parse_parts
from stacklint.language.scan import BAD, Token, scan
from stacklint.language.statements import BLOCKS, LISTS, STATEMENTS, BlockKind, Statement
from stacklint.plan.node import Name, Node
from stacklint.plan.stack import Stack, StackKind
from stacklint.plan.yard import Kiln, Site, WoodStatement
from stacklint.where import Where

MOST_BLOCKS = 2000
"""Sites, kilns, woods, piles and charges in a text: the yard of a large co-op has a few hundred."""
MOST_STATEMENTS = 6000
"""Statements in a block: one for each board of a stack that is tallied board by board, and some to spare."""
_USE = "USE"
_UNMARKED = re.compile(r"[\"“”]")
_POSITION = frozenset({"COMMA", "LENGTH", "FIGURE"})
"""What a further position after ``at`` is written with; it means nothing if the first cannot be read."""


class Block:
    """A block while its statements are read."""

    __slots__ = ("faulty", "kind", "name", "said", "values", "where")

    def __init__(self, kind: BlockKind, name: Name, where: Where, values: dict[str, object]) -> None:
        self.kind = kind
        self.name = name
        self.where = where
        self.values = values
        self.said: set[str] = set()
        self.faulty: set[str] = set()

    @property
    def stack(self) -> str | None:
        """The stack's name, if the block is one."""
        return self.name.text if self.kind in (BlockKind.PILE, BlockKind.CHARGE) else None

    def add(self, values: dict[str, object]) -> None:
        for field, value in values.items():
            if value is None:
                continue
            if field not in LISTS:
                self.values[field] = value
                continue
            items = self.values.setdefault(field, [])
            assert isinstance(items, list)
            items.extend(value if isinstance(value, tuple) else (value,))

    def build(self, line: Line) -> Node | None:
        """The finished block. ``line`` is only what faults would be reported through."""
        values: dict[str, object] = {
            field: tuple(value) if isinstance(value, list) else value for field, value in self.values.items()
        }
        values |= {"name": self.name, "faulty": frozenset(self.faulty)}
        if self.kind is BlockKind.SITE:
            return line.build(Site, self.where, values)
        if self.kind is BlockKind.KILN:
            return line.build(Kiln, self.where, values)
        if self.kind is BlockKind.WOOD:
            return line.build(WoodStatement, self.where, values)
        return line.build(Stack, self.where, values | {"kind": StackKind(self.kind.value)})


class Blocks:
    """Reads the lines of one text into blocks and ``use`` statements."""

    def __init__(self, path: str, log: Log, today: datetime.date) -> None:
        self.path = path
        self.log = log
        self.today = today
        self.uses: list[Name] = []
        self.blocks: list[Block] = []
        self.full = False
        self._statements = 0
        self._keywords = keywords()

    def take(self, line: Line) -> None:
        """Reads one logical line; nothing any more once ``full``, when more was said than a text may say."""
        rest: Line | None = line
        while rest is not None and not self.log.full and not self.full:
            line, tokens = rest, scan(rest.text, self._keywords)
            rest = None
            if not tokens:
                return
            if line.breaks:
                line.stack = self.blocks[-1].stack if self.blocks else None
                tokens, rest = first_statement(line, tokens)
            if tokens:
                self._read(line, tokens)

    def _read(self, line: Line, tokens: list[Token]) -> None:
        line.start, line.end = tokens[0].start_pos, tokens[-1].end_pos
        block = self.blocks[-1] if self.blocks else None
        line.stack = block.stack if block else None
        lead = self._lead(line, tokens, block)
        if lead == _USE:
            self._use(line, tokens)
        elif lead is None:
            return
        elif lead in BLOCKS:
            self._open(line, tokens, BLOCKS[lead])
        else:
            self._statement(line, tokens, STATEMENTS[lead], block)

    def _lead(self, line: Line, tokens: list[Token], block: Block | None) -> str | None:
        """The terminal that says what statement a line is; if it is none that is known, that is reported."""
        token = tokens[0]
        known = leading(token)
        if known is not None:
            return known
        if token.type == BAD:
            stray = Refusal(token, frozenset(), None, None)
            complain(line, Part(tuple(tokens), stray), stray)
            return None
        guess = self._guess(token, block)
        said = quote(token.text)
        instead = f"Write {guess[0]}." if guess else _what_belongs(block)
        line.fault(line.at(token), f"{said} does not begin any statement.", instead)
        if guess is None or (block is None and guess[1] not in BLOCKS):
            return None
        if guess[1] in BLOCKS and any(other.type == "STRING" for other in tokens):
            self._open_as(line, tokens, BLOCKS[guess[1]])
        elif block is not None and guess[1] in STATEMENTS:
            block.faulty.add(STATEMENTS[guess[1]].keyword)
            if not STATEMENTS[guess[1]].many:
                block.said.add(STATEMENTS[guess[1]].keyword)
        return None

    def _guess(self, token: Token, block: Block | None) -> tuple[str, str] | None:
        """The keyword that was meant, as it is written and as a terminal."""
        spelled: dict[str, str] = {}
        for word, names in self._keywords.items():
            for name in names:
                if name in BLOCKS or name == _USE or (name in STATEMENTS and _belongs(STATEMENTS[name], block)):
                    spelled[word] = name
        close = nearest(token.text, spelled) if token.type == "WORD" else ()
        if not close:
            return None
        name = spelled[close[0]]
        return (STATEMENTS[name].keyword if name in STATEMENTS and close[0] in name.lower() else close[0]), name

    def _use(self, line: Line, tokens: list[Token]) -> None:
        line.stack = None
        head, details = self._branches(line, tokens)
        if details:
            line.fault(line.over(details[0]), "A use statement names one file.", "Write a use statement for each.")
        if head is not None:
            self.uses.append(line.name(tokens_of(head, "STRING")[0]))

    def _open(self, line: Line, tokens: list[Token], kind: BlockKind) -> None:
        line.stack = None
        if len(self.blocks) >= MOST_BLOCKS:
            most = f"more than {MOST_BLOCKS:,} sites, kilns, woods, piles and charges"
            self._stop(line, f"The text has {most}", "Part it into several plans.")
            return
        self._statements = 0
        head, details = self._branches(line, tokens)
        for detail in details:
            line.fault(
                line.over(detail),
                f"Nothing goes after the name of a {kind.value}.",
                "Write it as a statement on a line of its own.",
            )
        if head is None:
            self._open_as(line, tokens, kind)
            return
        self.blocks.append(_block(line, head, kind))
        if line.spoiled:
            self.blocks[-1].faulty.add(kind.value)

    def _stop(self, line: Line, too_much: str, instead: str) -> None:
        self.full = True
        line.fault(line.whole(), f"{too_much}; the rest is not read.", instead)

    def _open_as(self, line: Line, tokens: list[Token], kind: BlockKind) -> None:
        """Opens a block whose own line is faulty, so that its statements are read all the same."""
        named = [token for token in tokens[1:] if token.type == "STRING"] or tokens[1:2]
        where = line.at(named[0]) if named else line.whole()
        said = _UNMARKED.sub("", words_of(named[0])) if named else ""
        name = Name(where=where, text=said or kind.value)
        block = Block(kind, name, line.whole(), {})
        block.faulty.add(kind.value)
        self.blocks.append(block)

    def _statement(self, line: Line, tokens: list[Token], statement: Statement, block: Block | None) -> None:
        if block is None:
            line.fault(
                line.whole(),
                f"The statement {statement.keyword} stands outside any block.",
                f"Put it below the line that begins its {_kinds(statement)}.",
            )
            return
        self._statements += 1
        if self._statements > MOST_STATEMENTS:
            most = f"The {block.kind.value} has more than {MOST_STATEMENTS:,} statements"
            self._stop(line, most, "Part it into several, each of fewer boards, courses or readings.")
            return
        if block.kind not in statement.blocks:
            line.fault(
                line.whole(),
                f"The statement {statement.keyword} belongs in a {_kinds(statement)}, not in a {block.kind.value}.",
                f"Move it below the line that begins its {_kinds(statement)}, or take it out.",
            )
            return
        if statement.keyword in block.said or (statement.keyword in _KINDS_OF_WOOD and "kind" in block.values):
            line.fault(
                line.whole(),
                f"The {block.kind.value} says {statement.keyword} twice.",
                "Keep one of the two; the first is taken here.",
            )
            return
        if not statement.many:
            block.said.add(statement.keyword)
        head, details = self._branches(line, tokens, statement.takes)
        wrong_fans = head is not None and statement.keyword == "fans" and not _fans_fit(head, block)
        if wrong_fans:
            line.fault(line.whole(), *_FANS_TROUBLE[block.kind])
        else:
            block.add(statement.read(line, head, details, self.today))
        if line.spoiled:
            block.faulty.add(statement.keyword)

    def _branches(
        self, line: Line, tokens: list[Token], takes: tuple[str, ...] = ()
    ) -> tuple[Branch | None, list[Branch]]:
        """The head and the details of a line; what cannot be read is reported and left out."""
        branches = parse(tokens)
        if branches is not None:
            return branches[0], branches[1:]
        head: Branch | None = None
        details: list[Branch] = []
        lost_list = False
        for index, part in enumerate(parse_parts(tokens)):
            if lost_list and all(token.type in _POSITION for token in part.tokens):
                continue
            lost_list = False
            if isinstance(part.said, Refusal):
                lost_list = any("AT" in token.could_be for token in part.tokens[:2])
                if not self.log.full:
                    complain(line, part, part.said, takes)
            elif index == 0:
                head = part.said
            else:
                details.append(part.said)
        line.spoiled = True
        return head, details


def _block(line: Line, head: Branch, kind: BlockKind) -> Block:
    if kind is BlockKind.WOOD:
        wood = head.children[1]
        return Block(kind, Name(where=line.over(wood), text=words_of(wood)), line.whole(), {})
    strings = tokens_of(head, "STRING")
    values: dict[str, object] = {}
    if kind is BlockKind.CHARGE and tokens_of(head, "KILN"):
        values["kiln"] = line.name(strings.pop())
    if len(strings) > 1:
        values["title"] = words_of(strings[1])
    name = line.name(strings[0])
    if not name.text:
        line.fault(name.where, f"The {kind.value} has no name.", "Write a name between the quotation marks.")
    return Block(kind, name, line.whole(), values)


def first_statement(line: Line, tokens: list[Token]) -> tuple[list[Token], Line | None]:
    """The tokens of a line's first statement, and what remains where a stray comma, which is a fault, joins more."""
    cut = _next_statement(tokens, line)
    if cut is None:
        return tokens, None
    return tokens[: cut - 1], _cut(line, tokens[cut - 1], tokens[cut])


def _cut(line: Line, comma: Token, lead: Token) -> Line:
    """What remains of a line that ends in a comma though a new statement, led by ``lead``, follows."""
    reporter = Line(line.path, line.number, line.text, line.log)
    reporter.stack = line.stack
    reporter.fault(
        reporter.at(comma),
        f"The line ends in a comma, but {quote(lead.text)} begins a new statement.",
        "Take the comma out.",
    )
    number = line.at(lead).line
    return Line(line.path, number, line.text[line.text.rindex("\n", 0, lead.start_pos) + 1 :], line.log)


def _next_statement(tokens: list[Token], line: Line) -> int | None:
    """The first token of a part that begins its line and can be read as a statement but not as a detail."""
    for index, token in enumerate(tokens[1:], 1):
        if tokens[index - 1].type != "COMMA" or not leading(token):
            continue
        if "\n" not in line.text[tokens[index - 1].end_pos : token.start_pos]:
            continue
        end = next((place for place in range(index, len(tokens)) if tokens[place].type == "COMMA"), len(tokens))
        if _statement_not_detail(tuple(tokens[index - 1 : end])):
            return index
    return None


def _statement_not_detail(tokens: tuple[Token, ...]) -> bool:
    """Whether a comma and what follows it can be read as a statement but not as a detail that says anything."""
    if isinstance(parse_part(tokens[1:]).said, Refusal):
        return False
    detail = parse_part(tokens).said
    return isinstance(detail, Refusal) or str(detail.data) in ("words", "named_section", "named_section_of")


def leading(token: Token) -> str | None:
    """The terminal that begins a statement or a block, if the token is such a word."""
    return next((name for name in token.could_be if name in STATEMENTS or name in BLOCKS or name == _USE), None)


def _belongs(statement: Statement, block: Block | None) -> bool:
    return block is None or block.kind in statement.blocks


def _what_belongs(block: Block | None) -> str:
    if block is None:
        return f"Begin a block: {listed(kind.value for kind in BlockKind)}."
    taken = [statement.keyword for statement in STATEMENTS.values() if block.kind in statement.blocks]
    return f"A {block.kind.value} takes {listed(taken)}."


def _kinds(statement: Statement) -> str:
    return listed(kind.value for kind in statement.blocks)


def _fans_fit(head: Branch, block: Block) -> bool:
    return (head.data == "fan_hours") == (block.kind is BlockKind.CHARGE)


_KINDS_OF_WOOD = ("hardwood", "softwood")
_FANS_TROUBLE = {
    BlockKind.KILN: ("A kiln says how many fans it has.", "Write fans 4 of 2400 cfm; the hours belong in a charge."),
    BlockKind.CHARGE: ("A charge says how long the fans run.", "Write fans 12 h/day; the kiln says how many."),
}
