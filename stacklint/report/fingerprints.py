"""What tells a finding from all others, so that the same one is known again after an unrelated change.

A fingerprint is made of the rule, the plan's path in its project, the stack, and what stands at the finding's place: of
a whole statement its keyword and what it is of (*boards a*, *reading 2026-05-10*), of a part of one the words of that
part. It is not made of the line's number, which moves with every line above it; nor of the message, whose figures move
with every change of the stack; nor of blanks, comments, spellings, or the order of details. Of findings that are alike
in all this the second and further ones are numbered: when the first of them goes, the last number is no more found.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import cache

from stacklint.findings import Finding
from stacklint.language.lines import goes_on
from stacklint.language.parse import keywords
from stacklint.language.scan import Token, scan
from stacklint.where import Where


class Lined:
    """A text line by line, which knows where its statements begin."""

    def __init__(self, text: str) -> None:
        self.lines = text.split("\n")
        self._begins: dict[int, int] = {}

    def begin(self, number: int) -> int:
        """The number of the line on which the statement of a line begins; both count from 1."""
        if number not in self._begins:
            self._begins[number] = self._begin(number)
        return self._begins[number]

    def _begin(self, number: int) -> int:
        begin = number
        for above in range(number - 1, 0, -1):
            if goes_on(self.lines[above - 1], going_on=False):
                begin = above
            elif not goes_on(self.lines[above - 1], going_on=True):
                break
        return begin


Texts = Callable[[str], Lined | None]
"""A text by its path; none where it is not at hand."""


def fingerprints(findings: Iterable[Finding], home: Callable[[str], str], texts: Texts) -> Iterator[str]:
    """The fingerprint of each finding of one plan.

    Args:
        home: a text's path in its project, the same wherever the command is run.
        texts: those that the places of the findings are in.
    """
    seen: Counter[tuple[str, ...]] = Counter()
    for finding in findings:
        where = finding.where
        # The first of the related places is the other party; who else has a share changes with every stack that comes.
        other = (each.words for each in finding.related[:1])
        said = (finding.rule, home(where.path), finding.stack or "", *_words(where, texts(where.path)), *other)
        yield _digest((*said, str(seen[said])))
        seen[said] += 1


def texts_of(texts: Mapping[str, str]) -> Texts:
    """Looks up the texts, each cut into lines once."""

    @cache
    def lined(path: str) -> Lined | None:
        return Lined(texts[path]) if path in texts else None

    return lined


def _words(where: Where, text: Lined | None) -> tuple[str, ...]:
    """The keyword of the statement, and what tells the place from others of that keyword."""
    if text is None or not 0 < where.line <= len(text.lines):
        return ()
    begin = text.begin(where.line)
    stretch = text.lines[where.line - 1 : where.end_line]
    before, after = stretch[0][: max(where.column - 1, 0)], stretch[-1][max(where.end_column - 1, 0) :]
    stretch[-1] = stretch[-1][: max(where.end_column - 1, 0)]
    stretch[0] = stretch[0][len(before) :]
    tokens = scan("\n".join(stretch), keywords())
    if begin == where.line and not before.strip() and not after.partition("#")[0].strip():
        return tuple(map(_spelt, tokens[: _opening(tokens)]))
    statement = before if begin == where.line else text.lines[begin - 1]
    return (*map(_spelt, scan(statement, keywords())[:1]), *map(_spelt, tokens))


def _opening(tokens: Sequence[Token]) -> int:
    """How many tokens of a statement say what it is of: *boards a*, *course 1 to 6*, *pile "B2"*, or the keyword."""
    types = [token.type for token in tokens]
    if "COLON" in types:
        return types.index("COLON")
    return 2 if types[1:2] in (["STRING"], ["DATE"]) else 1


def _spelt(token: Token) -> str:
    """The same for two spellings of one figure, word or name."""
    if token.unit is not None:
        return f"{token.unit.unit.to_si(token.number):.9g} {token.unit.unit.dimension.si}"
    if token.type == "STRING":
        return " ".join(token.text[1:-1].split()).casefold()
    return " ".join(token.could_be) or token.text.casefold()


def _digest(said: Sequence[str]) -> str:
    return hashlib.sha256("\0".join(said).encode("utf-8", "backslashreplace")).hexdigest()[:32]
