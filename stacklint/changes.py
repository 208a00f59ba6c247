"""Changes of a text at named places, and the difference of two texts as a unified diff.

Places count as :class:`stacklint.where.Where` does. Lines end at ``\\n``, ``\\r\\n`` or ``\\r``, whichever the text
has; a byte order mark before the first line is no character of it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from stacklint.where import Where

if TYPE_CHECKING:
    from difflib import SequenceMatcher

MOST_COMPARED = 10_000
"""Lines. A plan of a thousand stacks has as many; the work of comparing grows with their square."""
BYTE_ORDER_MARK = "\ufeff"
_LINE_END = re.compile(r"\r\n|\n|\r")
_IN_NO_TEXT = "\n\n"
"""Is like no line."""
_NO_LINE_END = "\\ No newline at end of file"
"""As POSIX.1-2024 (diff, "Diff -u Output Format") wants it where a last line has no end."""


class Change(NamedTuple):
    """``text`` in place of what stands at ``where``; an empty ``where`` (it ends where it begins) inserts."""

    where: Where
    text: str


def changed(text: str, changes: Iterable[Change]) -> str:
    """``text`` with every change made. Each place is one of ``text`` itself, whatever the other changes do.

    The line ends in what is put in become those of ``text``. Two insertions at one place come in the order given.

    Raises:
        ValueError: if two changes overlap or a place lies outside of ``text``.
    """
    starts = _line_starts(text)
    ending = line_end(text)
    cuts = [(*_span(starts, text, change.where), change.text) for change in changes]
    cuts.sort(key=lambda cut: cut[:2])
    for (_, end, _), (start, _, _) in pairwise(cuts):
        if start < end:
            raise ValueError("two changes of a text overlap")
    parts: list[str] = []
    done = 0
    for start, end, put in cuts:
        parts += text[done:start], with_line_ends(put, ending)
        done = end
    return "".join([*parts, text[done:]])


def line_end(text: str) -> str:
    """How the lines of ``text`` end: as most of them do, and as Unix has it where there is only one line."""
    ends = _LINE_END.findall(text)
    return max(("\n", "\r\n", "\r"), key=ends.count)


def with_line_ends(text: str, ending: str) -> str:
    """``text`` with every line ended by ``ending``."""
    return _LINE_END.sub(ending, text)


def diff(before: str, after: str, path: str) -> str:
    """What changed, as a unified diff with three lines around each change; nothing if nothing did.

    Line ends are compared too, but shown as ``\\n`` all: a diff is a text of its own.
    """
    old, new = _lines(before), _lines(after)
    shown: list[str] = []
    for group in _compared(old, new).get_grouped_opcodes():
        if not shown:
            shown += [f"--- {path}\n", f"+++ {path}\n"]
        first, last = group[0], group[-1]
        shown.append(f"@@ -{_stretch(first[1], last[2])} +{_stretch(first[3], last[4])} @@\n")
        for tag, start, end, new_start, new_end in group:
            if tag == "equal":
                shown += _marked(" ", old[start:end])
                continue
            shown += [*_marked("-", old[start:end]), *_marked("+", new[new_start:new_end])]
    return "".join(shown)


def _stretch(start: int, end: int) -> str:
    """Lines as a unified diff counts them: from the line before where there are none."""
    count = end - start
    if count == 1:
        return str(start + 1)
    return f"{start + 1 if count else start},{count}"


def _marked(mark: str, lines: Iterable[str]) -> Iterator[str]:
    for line in lines:
        end = "\n" if line.endswith("\n") else f"\n{_NO_LINE_END}\n"
        said = line.removesuffix("\n").removesuffix("\r")
        yield f"{mark}{said}{end}"


def _compared(old: Sequence[str], new: Sequence[str]) -> SequenceMatcher[str]:
    """What differs between lines, as few of them as is found in reasonable time.

    Lines that stand all over a long text are not what it is compared by; and of more lines than
    :data:`MOST_COMPARED` between the first that differs and the last, all count as changed.
    """
    from difflib import SequenceMatcher

    head = _alike(old, new)
    tail = _alike(old[head:][::-1], new[head:][::-1])
    if max(len(old), len(new)) - head - tail > MOST_COMPARED:
        new = [*new[:head], *[_IN_NO_TEXT] * (len(new) - head - tail), *new[len(new) - tail :]]
    return SequenceMatcher(None, old, new)


def _alike(old: Sequence[str], new: Sequence[str]) -> int:
    """How many lines are the same from the first on."""
    pairs = zip(old, new, strict=False)
    return next((at for at, (one, other) in enumerate(pairs) if one != other), min(len(old), len(new)))


def _lines(text: str) -> list[str]:
    """The lines of a text with their ends; a lone ``\\r`` counts as ``\\n``."""
    starts = [0, *(match.end() for match in _LINE_END.finditer(text))]
    lines = [text[start:end] for start, end in pairwise([*starts, len(text)])]
    return [f"{line[:-1]}\n" if line.endswith("\r") else line for line in lines if line]


def _line_starts(text: str) -> list[int]:
    first = len(BYTE_ORDER_MARK) if text.startswith(BYTE_ORDER_MARK) else 0
    return [first, *(match.end() for match in _LINE_END.finditer(text))]


def _span(starts: list[int], text: str, where: Where) -> tuple[int, int]:
    start = _offset(starts, text, where.line, where.column)
    end = _offset(starts, text, where.end_line, where.end_column)
    if end < start:
        raise ValueError(f"a place ends before it begins: {where}")
    return start, end


def _offset(starts: list[int], text: str, line: int, column: int) -> int:
    if not 1 <= line <= len(starts) or column < 1:
        raise ValueError(f"line {line}, column {column} is no place of the text")
    offset = starts[line - 1] + column - 1
    end = starts[line] if line < len(starts) else len(text)
    if offset > end:
        raise ValueError(f"line {line} has no column {column}")
    return offset


def line_changes(before: str, after: str, path: str = "-") -> tuple[Change, ...]:
    """The lines that differ, as changes of ``before``."""
    old, new = before.split("\n"), after.split("\n")
    return tuple(
        _lines_put(old, new[start:end], first, last, path)
        for tag, first, last, start, end in _compared(old, new).get_opcodes()
        if tag != "equal"
    )


def _lines_put(old: list[str], put: list[str], first: int, last: int, path: str) -> Change:
    """``put`` in place of the lines ``first`` up to ``last``, counted from 0."""
    if last < len(old):
        return Change(Where(path, first + 1, 1, last + 1, 1), "".join(f"{line}\n" for line in put))
    # The last line has no end: the one before it lends its own.
    end = Where(path, len(old), len(old[-1]) + 1, len(old), len(old[-1]) + 1)
    if first == 0:
        return Change(end._replace(line=1, column=1), "\n".join(put))
    start = end._replace(line=first, column=len(old[first - 1]) + 1)
    return Change(start, "".join(f"\n{line}" for line in put))
