"""``stacklint arrange --charges``: which boards of the piles make a good charge for each kiln."""

from __future__ import annotations

import argparse
import datetime
import sys

from stacklint import language
from stacklint.arranging.charges import Yard, kilns_of, lots, proposals, taken_kilns
from stacklint.checked import CheckedStack
from stacklint.checking import check
from stacklint.command.books import Books
from stacklint.command.output import complain
from stacklint.files import Trouble, lending, plans
from stacklint.report.charges_text import charges_lines
from stacklint.report.plain import plain
from stacklint.rulebook import RuleBook, builtin
from stacklint.units import System


def propose(options: argparse.Namespace, today: datetime.date) -> int:
    """Prints the proposals. 1 where there is no charge to propose."""
    day = options.on or today
    books = Books(options.house)
    found: list[Yard] = []
    stacks: list[CheckedStack] = []
    systems: list[System] = []
    book: RuleBook | None = None
    troubles: list[Trouble] = []
    for plan in plans(options.plans):
        if isinstance(plan, Trouble):
            troubles.append(plan)
            continue
        book = book or books.of_plan(plan)
        read = language.read(plan.text, plan.path, lending(plan.root), today)
        found.append(Yard(plan.path, read.plan))
        systems.append(read.system)
        stacks.extend(check(plan.text, plan.path, today=today, use=lending(plan.root)).stacks)
    troubles += books.troubles
    for trouble in troubles:
        complain(trouble)
    if not found:
        return 2
    proposed = _print(found, stacks, day, today, book or builtin(), max(systems, key=systems.count))
    return 2 if troubles else int(not proposed)


def _print(
    yards: list[Yard],
    stacks: list[CheckedStack],
    day: datetime.date,
    today: datetime.date,
    book: RuleBook,
    system: System,
) -> bool:
    boards, kilns, taken = lots(yards, day, today), kilns_of(yards), taken_kilns(stacks, day)
    if not boards:
        complain(Trouble(yards[0].path, f"no pile stands on {day} with boards that no charge takes"))
        return False
    if not kilns:
        complain(Trouble(yards[0].path, "no kiln says what it holds, carries or is inside"))
        return False
    for kiln in kilns:
        held = taken.get(kiln.name.text.casefold())
        if held is not None:
            print(plain(f"Kiln {kiln.name.text} still holds charge {held[0]}, by forecast until {held[1]}.\n"))
    free = [kiln for kiln in kilns if kiln.name.text.casefold() not in taken]
    found = proposals(boards, free, yards, day, book)
    lines = charges_lines(found, system, several=len({lot.path for lot in boards}) > 1)
    sys.stdout.writelines(f"{line}\n" for line in lines)
    return bool(found.charges)
