"""One finding a line, in the format that the GNU Coding Standards give for messages of compilers.

GNU Coding Standards, section 4.4 *Formatting Error Messages*: ``sourcefile:lineno:column: message``.
What to do follows the message on the same line, so that one finding stays one line.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from stacklint.findings import Finding
from stacklint.report.plain import plain


def lines(path: str, findings: Iterable[Finding]) -> Iterator[str]:
    """``path:line:column: level: message [rule]`` for each finding of the plan at ``path``, without line ends."""
    for finding in findings:
        yield line(finding, path)


def line(finding: Finding, path: str) -> str:
    """One finding, as :func:`lines` has them."""
    where = finding.where
    sentences = [finding.message, finding.instead, also(finding), finding.caution or "", _elsewhere(finding, path)]
    said = " ".join(sentence for sentence in sentences if sentence)
    place = f"{where.path or path}:{max(where.line, 1)}:{max(where.column, 1)}"
    return plain(f"{place}: {finding.level.value}: {said} [{finding.rule}]")


def _elsewhere(finding: Finding, path: str) -> str:
    """Of which stack the finding speaks, where it stands in another text: at a line that several stacks may use."""
    if not finding.stack or finding.where.path in ("", path):
        return ""
    return f"(found for {finding.stack} of {path})"


def also(finding: Finding) -> str:
    """How many other places the finding speaks for: *(and 11 more like it)*, or nothing."""
    return f"(and {finding.more} more like it)" if finding.more else ""
