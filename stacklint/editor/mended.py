"""What ``stacklint mend`` finds for one finding, as a change that an editor offers."""

from __future__ import annotations

import datetime

from stacklint.editor.alone import alone
from stacklint.editor.findings import Told
from stacklint.editor.fixes import Fix
from stacklint.editor.names import Laid
from stacklint.language import UseText
from stacklint.rulebook import RuleBook


def mended(
    own: Laid, told: Told, book: RuleBook, use: UseText | None, today: datetime.date | None = None
) -> tuple[Fix, ...]:
    """The checked changes that clear a finding. It may take some seconds: the stack is checked again for each try."""
    from stacklint.mending import mends

    section = own.outline.section_at(told.where.line)
    if told.elsewhere is not None or section is None:
        return ()
    text = alone(own, section)
    found = mends(text, own.path, book=book, today=today, use=use, only=frozenset({told.rule}))
    return tuple(
        Fix(mend.reason, mend.changes, told, surest=True)
        for mend in found
        if mend.finding.where.line == told.where.line and mend.finding.where.column == told.where.column
    )
