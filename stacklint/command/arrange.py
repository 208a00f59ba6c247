"""``stacklint arrange``: courses for the boards of a plan, another place for them, and boards for a charge."""

from __future__ import annotations

import argparse
import datetime
import sys
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from stacklint.command.output import complain
from stacklint.command.usage import Parser, day, did_you_mean
from stacklint.files import PlanFile, Trouble, lending, plans

if TYPE_CHECKING:
    from stacklint.language import ReadPlan
    from stacklint.plan.stack import Stack, StackSize
    from stacklint.plan.yard import Kiln

SUMMARY = "courses that leave the fewest boards over, and boards for a charge"


def parser() -> Parser:
    parser = Parser(
        "arrange",
        "Lays the boards that a plan lists in courses that leave the fewest over, exactly,\n"
        "as course statements, and tells which boards would fill the rest. With --size or\n"
        "--kiln it tries another place. With --write the courses go into the plan, in place\n"
        "of those that it has; all else stays as it is.\n\n"
        "With --charges it looks at all piles and kilns of the plans and proposes for each\n"
        "kiln boards that dry alike, as dry as they are forecast to be on --on.\n\n"
        "exit code: 0 done, 1 a stack has faults that stand in the way or there is no charge\n"
        "to propose, 2 something could not be done",
        "  stacklint arrange b2.stackplan --write\n"
        '  stacklint arrange b2.stackplan --kiln "North box"\n'
        "  stacklint arrange yard/ --charges --on 2026-09-01",
    )
    parser.add_argument("plans", nargs="*", metavar="PLAN", help="a plan, a folder of plans, or - for standard input")
    parser.add_argument("--stack", metavar="NAME", help="the pile or charge to arrange; all of a plan if not given")
    parser.add_argument("--size", metavar="SIZE", help='try a stack of this size, as "16 ft x 4 ft"')
    parser.add_argument("--kiln", metavar="NAME", help="try a kiln of the plan")
    parser.add_argument("--write", action="store_true", help="put the courses into the plan")
    parser.add_argument("--charges", action="store_true", help="propose which boards make a good charge")
    parser.add_argument("--on", type=day, metavar="DATE", help="the day a charge would start, as 2026-09-01")
    parser.add_argument("--house", metavar="FILE", help="house rules to use in place of any house.rules")
    parser.add_argument("--today", type=day, metavar="DATE", help="the day that counts as today, as 2026-04-02")
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:
    if not options.plans:
        usage.error("name a plan, a folder or - for standard input")
    _refuse_pairs(options, usage)
    today = options.today or datetime.date.today()
    if options.charges:
        from stacklint.command.charges import propose

        return propose(options, today)
    size = _size(options, usage)
    code = 0
    for plan in plans(options.plans):
        if isinstance(plan, Trouble):
            complain(plan)
            code = 2
            continue
        code = max(code, _arrange(_Asked(plan, options, today, size)))
    return code


def _refuse_pairs(options: argparse.Namespace, usage: Parser) -> None:
    """Options that do not go together."""
    for one, other, why in (
        (options.size, options.kiln, "--size and --kiln each try a place; give one of them"),
        (options.charges, options.write, "--write goes with the courses of a stack, not with --charges"),
        (options.charges, options.stack, "--charges looks at all piles; --stack names one"),
        (options.charges, options.size, "--charges takes the sizes of the kilns; leave --size out"),
        (options.write, options.size, "--write goes with the stack's own size; change the plan's stack line first"),
        (options.write, options.kiln, "--write goes with the stack's own place; --kiln only tries another"),
        (options.on is not None and not options.charges, True, "--on goes with --charges"),
    ):
        if one and other:
            usage.error(why)


def _size(options: argparse.Namespace, usage: Parser) -> StackSize | None:
    if options.size is None:
        return None
    from stacklint import language

    read = language.read(f'pile "here"\n stack {" ".join(options.size.split())}\n')
    size = read.plan.stacks[0].size
    if read.faults or size is None or len(read.plan.stacks) > 1:
        told = f"{read.faults[0].message} {read.faults[0].instead}" if read.faults else "say it as 16 ft x 4 ft"
        usage.error(f"--size: {told}")
    return size


class _Asked(NamedTuple):
    """One plan, and what is asked of it."""

    plan: PlanFile
    options: argparse.Namespace
    today: datetime.date
    size: StackSize | None


def _arrange(asked: _Asked) -> int:
    from stacklint import language

    plan = asked.plan
    read = language.read(plan.text, plan.path, lending(plan.root), asked.today)
    stacks = _stacks(read, asked)
    kiln = _kiln(read, asked) if asked.options.kiln is not None else None
    for trouble in (stacks, kiln):
        if isinstance(trouble, Trouble):
            complain(trouble)
            return 2
    assert not isinstance(stacks, Trouble)
    assert not isinstance(kiln, Trouble)
    if asked.options.write:
        from stacklint.command.write_courses import write_courses

        return write_courses(plan, read, stacks, asked.today)
    return max([_show(stack, read, asked, kiln) for stack in stacks])


def _stacks(read: ReadPlan, asked: _Asked) -> tuple[Stack, ...] | Trouble:
    stacks, name = read.plan.stacks, asked.options.stack
    if not stacks:
        return Trouble(asked.plan.path, "holds no pile and no charge")
    if name is None:
        return stacks
    found = tuple(stack for stack in stacks if stack.name.text.casefold() == name.casefold())
    near = did_you_mean(name, [stack.name.text for stack in stacks])
    return found or Trouble(asked.plan.path, f"holds no pile and no charge {name}{near}")


def _kiln(read: ReadPlan, asked: _Asked) -> Kiln | Trouble:
    name = asked.options.kiln
    for kiln in read.plan.kilns:
        if kiln.name.text.casefold() == name.casefold():
            return kiln
    near = did_you_mean(name, names) if (names := [kiln.name.text for kiln in read.plan.kilns]) else ""
    return Trouble(asked.plan.path, f"describes no kiln {name}{near}")


def _show(stack: Stack, read: ReadPlan, asked: _Asked, kiln: Kiln | None) -> int:
    from stacklint.arranging.arranged import arranged, cannot_be_laid
    from stacklint.report.arranged_text import arranged_lines

    if cannot_be_laid(stack):
        complain(Trouble(asked.plan.path, stands_in_the_way(stack)))
        return 1
    if kiln is not None:
        return _show_in_kiln(stack, read, asked, kiln)
    if asked.size is not None:
        own = {name: getattr(stack.size, name, None) for name in ("boards_apart", "next_pile", "flue")}
        said = {name: value for name, value in own.items() if getattr(asked.size, name) is None}
        stack = stack.model_copy(update={"size": asked.size.model_copy(update=said), "courses": ()})
    _print(arranged_lines(arranged(stack, _own_kiln(stack, read)), read.system))
    return 0


def _show_in_kiln(stack: Stack, read: ReadPlan, asked: _Asked, kiln: Kiln) -> int:
    from stacklint.arranging.kilns import TooLong, load_kiln
    from stacklint.checking import woods_of
    from stacklint.drying.lending import with_dried_boards
    from stacklint.report.arranged_text import kiln_lines, too_long_lines

    woods = woods_of(stack, read.plan)
    if woods is None:
        complain(Trouble(asked.plan.path, stands_in_the_way(stack)))
        return 1
    dried, _ = with_dried_boards(stack, read.plan, woods, asked.today)
    load = load_kiln(dried, kiln, woods)
    if isinstance(load, TooLong):
        _print(too_long_lines(stack, load, kiln.name.text, read.system))
    else:
        _print(kiln_lines(stack, load, read.system))
    return 0


def _own_kiln(stack: Stack, read: ReadPlan) -> Kiln | None:
    name = stack.kiln.text.casefold() if stack.kiln is not None else None
    return next((kiln for kiln in read.plan.kilns if kiln.name.text.casefold() == name), None)


def stands_in_the_way(stack: Stack) -> str:
    kind, name = stack.kind.value, stack.name.text
    return f"the {kind} {name} cannot be laid: faults of the text stand in the way; stacklint check tells of them"


def _print(lines: Iterator[str]) -> None:
    sys.stdout.writelines(f"{line}\n" for line in lines)
