"""Writes a plan as text, in the standard layout: one statement a line, two spaces in, always in the same order."""

from __future__ import annotations

from collections.abc import Iterator

from stacklint.language.write_stack import stack_lines
from stacklint.language.written import amount, factor, figure, quoted, wood_name
from stacklint.plan.node import Node
from stacklint.plan.stack import Stack
from stacklint.plan.yard import Kiln, Month, Plan, Site, WoodStatement

_INDENT = "  "
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


def write(plan: Plan) -> str:
    """``plan`` as text that reads back as an equal plan.

    Every figure keeps its number and its unit. What a text cannot hold is not written: blocks that a
    ``use`` brought in (known by the path in their ``where``), lent stacks, and what a charge has from
    the piles named in its ``from pile``, all of which come back when the text is read; and the
    ``faulty`` marks of statements that could not be read.

    Raises:
        ValueError: if a name or a text in the plan holds a quotation mark or a line's end.
    """
    uses = [f"use {quoted(used.text)}" for used in plan.uses]
    blocks = ["\n".join(uses)] if uses else []
    own: tuple[Site | Kiln | WoodStatement, ...] = (*plan.sites, *plan.kilns, *plan.woods)
    blocks += [_block(block_lines(block)) for block in own if not _borrowed(block, plan)]
    blocks += [_block(stack_lines(stack, plan.stacks + plan.lent)) for stack in plan.stacks]
    return "\n\n".join(blocks) + "\n" if blocks else ""


def block_lines(block: Site | Kiln | WoodStatement | Stack) -> Iterator[str]:
    """The block's own line, then its statements in the standard order, none of them indented."""
    if isinstance(block, Site):
        return _site(block)
    if isinstance(block, Kiln):
        return _kiln(block)
    if isinstance(block, WoodStatement):
        return _wood(block)
    return stack_lines(block)


def _borrowed(block: Node, plan: Plan) -> bool:
    return bool(plan.uses) and block.where.path != plan.where.path


def _block(lines: Iterator[str]) -> str:
    header = next(lines)
    return "\n".join([header, *(_INDENT + line for line in lines)])


def _site(site: Site) -> Iterator[str]:
    yield f"site {quoted(site.name.text)}"
    if site.near:
        yield f"near {quoted(site.near.text)}"
    for month in site.months:
        yield _month(month)
    if site.spots:
        yield f"spots {figure(site.spots.count)}"
    if site.holds:
        yield f"holds {amount(site.holds)}"
    for stock in site.stock:
        length = f" of {amount(stock.length)}" if stock.length else ""
        yield f"stock {figure(stock.count)} {stock.kind.value}{length}"


def _month(month: Month) -> str:
    return f"month {MONTHS[month.number - 1]} {amount(month.temperature)} {amount(month.humidity)}"


def _kiln(kiln: Kiln) -> Iterator[str]:
    yield f"kiln {quoted(kiln.name.text)}"
    if kiln.type:
        yield f"type {kiln.type.value}"
    if kiln.inside:
        yield f"inside {factor(kiln.inside.length, kiln.inside.width, kiln.inside.height)}"
    for keyword, value in (
        ("holds", kiln.holds),
        ("carries", kiln.carries),
        ("heats to", kiln.heats_to),
        ("removes", kiln.removes),
    ):
        if value:
            yield f"{keyword} {amount(value)}"
    if kiln.fan_count is not None:
        yield f"fans {kiln.fan_count} of {amount(kiln.fan_each)}" if kiln.fan_each else f"fans {kiln.fan_count}"
    if kiln.plenum:
        yield f"plenum {amount(kiln.plenum)}"
    if kiln.collector:
        yield f"collector {amount(kiln.collector)}"


def _wood(wood: WoodStatement) -> Iterator[str]:
    yield f"wood {quoted(wood.name.text)}"
    if wood.like:
        yield f"like {wood_name(wood.like.text)}"
    if wood.kind:
        yield wood.kind.value
    if wood.specific_gravity is not None:
        yield f"specific gravity {figure(wood.specific_gravity)}"
    stiffness = [
        f"{amount(value)} {state}"
        for value, state in ((wood.stiffness_green, "green"), (wood.stiffness_dry, "dry"))
        if value
    ]
    if stiffness:
        yield f"stiffness {', '.join(stiffness)}"
    if wood.crushing_green:
        yield f"crushing {amount(wood.crushing_green)}"
    if wood.green_moisture:
        yield f"green moisture {amount(wood.green_moisture)}"
    shrinkage = [
        f"{amount(share)} {direction}"
        for share, direction in (
            (wood.shrinkage_radial, "radial"),
            (wood.shrinkage_tangential, "tangential"),
            (wood.shrinkage_volumetric, "volumetric"),
        )
        if share
    ]
    if shrinkage:
        yield f"shrinks {', '.join(shrinkage)}"
    if wood.source is not None:
        yield f"source {quoted(wood.source)}"
