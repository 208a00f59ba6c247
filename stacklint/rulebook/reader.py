"""Cuts a rule text into blocks and their clauses. Expressions stay text until their rule is built."""

from __future__ import annotations

import re
from collections.abc import Iterator
from enum import Enum
from typing import NamedTuple

from stacklint.rulebook.nearest import offer
from stacklint.rulebook.written import Piece, Refused, RuleFault, Written
from stacklint.where import Where

TEXT_CLAUSES = ("say", "instead", "why", "caution")
BARE_CLAUSES = ("title", "card")
LEVELS = ("error", "warning", "note")
EXAMPLE_CLAUSES = ("fails", "passes")
CLAUSES = (
    *BARE_CLAUSES,
    "for",
    "where",
    "let",
    "limit",
    *LEVELS,
    "measure",
    "at",
    *TEXT_CLAUSES,
    "never",
    *EXAMPLE_CLAUSES,
)

MOST_LINES = 20_000
"""Lines of a text of rules."""
MOST_BLOCKS = 1_000
"""Rules, changes and skips in a text: ten times what the book that comes with the package has."""
MOST_CLAUSES = 200
"""Clauses of a rule; the longest of the book has a tenth of it."""
LONGEST = 10_000
"""Characters of a clause with the lines that it goes on over."""
MOST_FAULTS = 200
"""So many faults of a text are listed."""
_UNQUOTED = frozenset({"rule", "change", "title", "card", "for", "never", "at"})
_FIRST_WORD = re.compile(r"[A-Za-z][\w-]*")
_GOES_ON = re.compile(r"""["'&]|(?:and|or|if|else|source|memory)\b""")
_BARE_COMMENT = re.compile(r"(?:^|\s)#")
# What stands between braces may hold texts in either kind of quotes.
_QUOTED = r""""((?:\{[^{}\n]*\}|\{(?![^{}\n]*\})|[^"{\n])*)"|\'([^'\n]*)\'"""
_BEFORE_COMMENT = re.compile(rf"""(?:[^#"']+|{_QUOTED}|["'])*""")
_STRING = re.compile(rf"\s*(?:{_QUOTED})")
_RULE_NAME = re.compile(r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*\Z")
_BECAUSE = re.compile(r"(\S+)(?:\s+because\b)?")


class BlockKind(Enum):
    RULE = "rule"
    CHANGE = "change"
    SKIP = "skip"
    KEEP = "keep"


_STARTS = tuple(kind.value for kind in BlockKind)
_REASONED = frozenset({BlockKind.SKIP, BlockKind.KEEP})
"""Blocks of one line, which must say why."""


class Clause(NamedTuple):
    """One clause: its keyword, what follows it, and the texts of a clause that is made of texts.

    ``house`` if it stands in house rules.
    """

    keyword: str
    where: Where
    body: Written
    texts: tuple[Written, ...] = ()
    house: bool = False


class Block(NamedTuple):
    """A rule, a change of one, a rule skipped or one kept. ``faulty`` if some of it could not be read."""

    kind: BlockKind
    name: str
    where: Where
    clauses: tuple[Clause, ...]
    faulty: bool = False

    @property
    def reason(self) -> str:
        """Why a rule is skipped or kept."""
        return " ".join(text.text for text in self.clauses[0].texts) if self.kind in _REASONED else ""


def read(path: str, text: str, *, house: bool = False) -> tuple[tuple[Block, ...], tuple[RuleFault, ...]]:
    """The blocks of a rule text, and what of it could not be read. Never raises."""
    blocks: list[Block] = []
    faults: list[RuleFault] = []
    for line in _logical_lines(path, text):
        beyond = _beyond(line, blocks, faults)
        try:
            if beyond is not None:
                raise Refused(beyond)
            _take(line, blocks, house)
        except Refused as refused:
            faults.append(refused.fault)
            if blocks:
                blocks[-1] = blocks[-1]._replace(faulty=True)
            if beyond is not None:
                break
    return tuple(blocks), tuple(faults)


def _beyond(line: Written, blocks: list[Block], faults: list[RuleFault]) -> RuleFault | None:
    """Why reading ends with this clause, if the text has more of anything than a text of rules has."""
    what = None
    if line.pieces[0].line > MOST_LINES:
        what = f"The text has more than {MOST_LINES:,} lines"
    elif len(blocks) >= MOST_BLOCKS and line.text.split()[0] in _STARTS:
        what = f"The text has more than {MOST_BLOCKS:,} rules, changes and skips"
    elif len(faults) >= MOST_FAULTS:
        return too_many(line.where(0, 1))
    return RuleFault(line.where(0, 1), f"{what}; the rest is not read.", "Part it into several.") if what else None


def too_many(where: Where) -> RuleFault:
    """What stands in place of the faults beyond :data:`MOST_FAULTS`."""
    message = f"There are more faults than the {MOST_FAULTS} listed here; the rest is not listed."
    return RuleFault(where, message, "Mend these first, and check again.")


def read_texts(body: Written) -> tuple[Written, ...]:
    """The texts in quotes that make up ``body``.

    Raises:
        Refused: if something else stands there, or a quote is not closed.
    """
    texts = []
    at = 0
    while body.text[at:].strip():
        match = _STRING.match(body.text, at)
        if match is None:
            raise _no_text(body, at)
        group = 1 if match.group(1) is not None else 2
        start, end = match.span(group)
        texts.append(Written(body.path, body.text[start:end], body.pieces, body.start + start))
        at = match.end()
    if not texts:
        raise body.refuse("A text in quotes is missing.", 'Write it between quotes: "...".')
    return tuple(texts)


def _no_text(body: Written, at: int) -> Refused:
    start = at + len(body.text[at:]) - len(body.text[at:].lstrip())
    end = body.text.find("\n", start)
    stop = len(body.text) if end < 0 else end
    if body.text[start] in "\"'":
        return body.refuse("A text is not closed.", f"End it with {body.text[start]} on its own line.", start, stop)
    return body.refuse(f"{body.text[start:stop]} stands where a text belongs.", "Write it in quotes.", start, stop)


def _logical_lines(path: str, text: str) -> Iterator[Written]:
    """Lines with their continuation lines; blank ones and comments are left out."""
    texts: list[str] = []
    pieces: list[Piece] = []
    length = 0
    for number, raw in enumerate(text.split("\n"), 1):
        line = _without_comment(raw)
        content = line.strip()
        if not content:
            continue
        if texts and not _GOES_ON.match(content):
            yield Written(path, "\n".join(texts), tuple(pieces))
            texts, pieces, length = [], [], 0
        pieces.append(Piece(length, number, len(line) - len(line.lstrip()) + 1))
        texts.append(content)
        length += len(content) + 1
    if texts:
        yield Written(path, "\n".join(texts), tuple(pieces))


def _without_comment(line: str) -> str:
    if "#" not in line:
        return line
    first = _FIRST_WORD.match(line.lstrip())
    if first is not None and first.group() in _UNQUOTED and '"' not in line.split("#", 1)[0]:
        comment = _BARE_COMMENT.search(line)
        return line[: comment.start()] if comment else line
    found = _BEFORE_COMMENT.match(line)
    return found.group() if found else line


def _take(line: Written, blocks: list[Block], house: bool) -> None:
    if len(line.text) > LONGEST:
        message = f"The clause has {len(line.text):,} characters; a clause has at most {LONGEST:,}."
        raise line.refuse(message, "Say it in fewer words, or name a part of it with a let.", 0, 1)
    word = _FIRST_WORD.match(line.text)
    if word is None:
        raise line.refuse(f"{line.text.split()[0]} cannot start a clause.", "Start the line with a clause's keyword.")
    keyword = word.group()
    rest = line.part(word.end())
    if keyword in _STARTS:
        kind = BlockKind(keyword)
        blocks.append(_opened(kind, line, rest))
        if kind not in _REASONED:
            _check_name(rest)
        return
    if keyword not in CLAUSES:
        instead = offer(keyword, (*CLAUSES, *_STARTS), "clauses")
        raise line.refuse(f"There is no clause {keyword}.", instead, 0, word.end())
    if not blocks or blocks[-1].kind in _REASONED:
        raise line.refuse(f"This {keyword} belongs to no rule.", "Start a rule above it: rule NAME.", 0, word.end())
    if keyword in EXAMPLE_CLAUSES and rest.text.startswith(":"):
        rest = rest.part(1)
    if not rest.text:
        raise line.refuse(f"Nothing follows {keyword}.", f"Write what {keyword} says on the same line.")
    if len(blocks[-1].clauses) >= MOST_CLAUSES:
        message = f"{blocks[-1].name} has more than {MOST_CLAUSES} clauses."
        raise line.refuse(message, "Part it into several rules.", 0, word.end())
    clause = Clause(keyword, line.where(0, word.end()), rest, _texts_of(keyword, rest), house)
    blocks[-1] = blocks[-1]._replace(clauses=(*blocks[-1].clauses, clause))


def _texts_of(keyword: str, rest: Written) -> tuple[Written, ...]:
    if keyword in BARE_CLAUSES and rest.text[0] not in "\"'":
        return (rest,)
    if keyword in BARE_CLAUSES or keyword in TEXT_CLAUSES:
        return read_texts(rest)
    return ()


def _opened(kind: BlockKind, line: Written, rest: Written) -> Block:
    """The block that a line opens; one that must say why is whole, its reason stands in its only clause."""
    if kind not in _REASONED:
        name = rest.text.split()[0] if rest.text else ""
        return Block(kind, name, line.where(), ())
    match = _BECAUSE.match(rest.text)
    if match is None:
        raise line.refuse(f"{kind.value} names no rule.", f'Write {kind.value} RULE because "...".')
    name = match.group(1)
    reason = rest.part(match.end())
    done = "skipped" if kind is BlockKind.SKIP else "kept"
    if not match.group().endswith("because") or not reason.text:
        raise line.refuse(f"{name} is {done} without a reason.", f'Write {kind.value} {name} because "...".')
    clause = Clause(kind.value, rest.where(0, match.end(1)), reason, read_texts(reason))
    if not " ".join(text.text for text in clause.texts).strip():
        raise line.refuse(f"The reason why {name} is {done} is empty.", f"Say why the rule is {done}.")
    return Block(kind, name, line.where(), (clause,))


def _check_name(rest: Written) -> None:
    if not rest.text:
        raise rest.refuse("The rule has no name.", "Name it in small letters with hyphens: rule ends-too-long.")
    if not _RULE_NAME.match(rest.text):
        raise rest.refuse(f"{rest.text} cannot name a rule.", "Use small letters, digits and hyphens: ends-too-long.")
