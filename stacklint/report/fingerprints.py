"""What tells a finding from all others, so that the same one is known again after an unrelated change.

A fingerprint is made of the rule, the plan's path in its project, the stack, and the words at the finding's place. It
is not made of the line's number, which moves with every line above it, nor of the message, whose figures move with
every change of the stack. Of findings that are alike in all this the second and further ones are numbered.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from stacklint.findings import Finding
from stacklint.where import Where

Lines = Callable[[str], Sequence[str]]
"""The lines of a text, by its path; none where the text is not at hand."""


def fingerprints(findings: Iterable[Finding], home: Callable[[str], str], lines: Lines) -> Iterator[str]:
    """The fingerprint of each finding of one plan.

    Args:
        home: a text's path in its project, the same wherever the command is run.
        lines: the texts that the places of the findings are in.
    """
    seen: Counter[tuple[str, ...]] = Counter()
    for finding in findings:
        where = finding.where
        related = sorted({each.words for each in finding.related})
        said = (finding.rule, home(where.path), finding.stack or "", _words(where, lines(where.path)), *related)
        yield _digest((*said, str(seen[said])))
        seen[said] += 1


def lines_of(texts: Mapping[str, str]) -> Lines:
    """Looks up the lines of the texts, each split once."""
    split = {path: text.split("\n") for path, text in texts.items()}
    return lambda path: split.get(path, ())


def _words(where: Where, lines: Sequence[str]) -> str:
    """The words at a place, and the first word of its line; letter case and blanks do not count."""
    if not 0 < where.line <= len(lines):
        return ""
    last = min(where.end_line, len(lines))
    stretch = list(lines[where.line - 1 : last])
    keyword = stretch[0].split(maxsplit=1)[:1]
    if last == where.end_line:
        stretch[-1] = stretch[-1][: max(where.end_column - 1, 0)]
    stretch[0] = stretch[0][max(where.column - 1, 0) :]
    return " ".join((*keyword, *" ".join(stretch).split())).casefold()


def _digest(said: Sequence[str]) -> str:
    return hashlib.sha256("\0".join(said).encode("utf-8", "backslashreplace")).hexdigest()[:32]
