"""What is known of the thing under the cursor of a plan: the figures of a stack or of boards, a rule, a climate."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import NamedTuple

from stacklint.checked import CheckedPlan, CheckedStack
from stacklint.checking import check
from stacklint.drying.climate import outdoor
from stacklint.drying.equilibrium import equilibrium
from stacklint.editor.alone import alone
from stacklint.editor.markdown import escaped, listed_items, table
from stacklint.editor.names import Laid, holds
from stacklint.editor.outline import Outline, Said, Section, text_of
from stacklint.editor.positions import Spot
from stacklint.editor.rule_pages import rule_page, skipped_page
from stacklint.engineering.facts import Group
from stacklint.findings import Level
from stacklint.language import UseText
from stacklint.language.statements import BlockKind
from stacklint.plan.node import Name
from stacklint.plan.yard import Site
from stacklint.report.figures import figures
from stacklint.rulebook import RuleBook
from stacklint.show import percent, rounded, show, show_range
from stacklint.tables import places
from stacklint.units import DENSITY, LENGTH, MASS, TEMPERATURE, TIME, VOLUME, Dimension, System
from stacklint.where import Where

_STACKS = (BlockKind.PILE, BlockKind.CHARGE)


class Page(NamedTuple):
    """A page in Markdown (CommonMark) about what stands at ``where``."""

    text: str
    where: Where


def hover(
    own: Laid, spot: Spot, book: RuleBook, use: UseText | None, today: datetime.date | None = None
) -> Page | None:
    """What there is to say of a place of a plan; ``None`` where nothing is.

    ``today`` is the day that forecasts and waivers are judged by.
    """
    said = own.outline.said_at(spot)
    section = own.outline.section_at(spot.line)
    if said is None or section is None or not holds(said.where, spot):
        return None
    if said is section.lead:
        return _stack_page(own, section, book, use, today) if section.kind in _STACKS else None
    match said.statement.keyword if said.statement is not None else "":
        case "boards":
            return _boards_page(own, section, said, book, use, today)
        case "waive":
            return _waived_page(said, spot, book)
        case "near":
            return _climate_page(own, section, said, use, today)
    return None


def _checked(
    own: Laid, section: Section, book: RuleBook, use: UseText | None, today: datetime.date | None
) -> tuple[CheckedPlan, CheckedStack | None]:
    """The stack of a block, checked without the plan's other stacks."""
    plan = check(alone(own, section), own.path, book=book, today=today, use=use)
    found = (one for one in plan.stacks if one.stack.name.where.line == section.lead.where.line)
    return plan, next(found, None)


def _stack_page(
    own: Laid, section: Section, book: RuleBook, use: UseText | None, today: datetime.date | None
) -> Page | None:
    plan, stack = _checked(own, section, book, use, today)
    if stack is None:
        return None
    title = f"**{escaped(section.kind.value.capitalize())} {escaped(stack.stack.name.text)}**"
    if stack.stack.title:
        title += f", {escaped(stack.stack.title)}"
    lines = listed_items((figure.label, figure.text) for figure in figures(stack))
    if not lines:
        lines = "Faults of the text stand in the way of its figures."
    levels = [finding.level for finding in plan.findings if finding.stack == stack.stack.name.text]
    told = ", ".join(_counted(levels.count(level), level.value) for level in Level if level in levels)
    return Page(f"{title}\n\n{lines}" + (f"\n\n{told}" if told else ""), section.lead.where)


def _counted(number: int, word: str) -> str:
    return f"1 {word}" if number == 1 else f"{number} {word}s"


def _boards_page(
    own: Laid, section: Section, said: Said, book: RuleBook, use: UseText | None, today: datetime.date | None
) -> Page | None:
    plan, stack = _checked(own, section, book, use, today)
    groups = stack.facts.groups if stack is not None and stack.facts is not None else ()
    group = next((each for each in groups if each.where.line == said.where.line and each.where.path == own.path), None)
    if group is None:
        return None
    title = f"**{escaped(group.label or '')}**: {escaped(group.boards or '')}"
    return Page(f"{title}\n\n{listed_items(_of_group(group, plan.system))}", said.where)


def _of_group(group: Group, system: System) -> Iterator[tuple[str, str]]:
    def amount(value: float | None, dimension: Dimension, after: str = "") -> str:
        return "" if value is None else f"{show(value, dimension, system)}{after}"

    def joined(*parts: str) -> str:
        return ", ".join(part for part in parts if part)

    pieces = "" if group.pieces is None else f"{rounded(group.pieces)} boards"
    yield "amount", joined(pieces, amount(group.volume, VOLUME))
    yield (
        "weight",
        joined(
            amount(group.board_mass, MASS, after=" the heaviest board" if group.sizes_vary else " a board"),
            amount(group.density, DENSITY),
        ),
    )
    if group.moisture is not None:
        assumed = "" if group.moisture_stated else ", assumed: the plan does not say"
        yield "moisture content", f"{percent(group.moisture)}{assumed}"
    yield "stickers", amount(group.spacing, LENGTH, after=" apart at the widest under these boards")
    thick, wide = amount(group.thickness_dry, LENGTH, after=" thick"), amount(group.width_dry, LENGTH, after=" wide")
    yield "dry", joined(thick, wide)
    if group.drying_days_low is not None and group.drying_days_high is not None:
        days = show_range(group.drying_days_low, group.drying_days_high, TIME, system)
        yield "published drying time", days
    if group.safe_loss is not None:
        recalled = ", recalled from memory" if group.safe_memory else ""
        yield "safe loss", f"{percent(group.safe_loss)} a day at the most{recalled}"
    prone = ("warp", group.warp_prone), ("stain", group.stain_prone), ("check", group.check_prone)
    yield "prone to", joined(*(word for word, known in prone if known))
    yield "without a match", f"{rounded(group.unpaired)} boards" if group.unpaired else ""
    yield "in no course", f"{rounded(group.left_over)} boards" if group.left_over else ""


def _waived_page(said: Said, spot: Spot, book: RuleBook) -> Page | None:
    if len(said.tokens) < 2 or not holds(said.at(said.tokens[1]), spot):
        return None
    where = said.at(said.tokens[1])
    name = said.tokens[1].text
    rule = book.rule(name)
    if rule is not None:
        return Page(rule_page(rule), where)
    skipped = next((one for one in book.skipped if one.rule.name == name), None)
    return Page(skipped_page(skipped), where) if skipped is not None else None


def _climate_page(
    own: Laid, section: Section, said: Said, use: UseText | None, today: datetime.date | None
) -> Page | None:
    """The months of a site's air: its own, the others those of the place that it is near."""
    if len(said.tokens) < 2 or said.tokens[1].type != "STRING":
        return None
    from stacklint import language

    near = text_of(said.tokens[1])
    read = language.read(alone(own, section), own.path, use, today)
    system = system_of(own.outline)
    site = next((one for one in read.plan.sites if one.name.where.line == section.lead.where.line), None)
    climate = outdoor(site or Site(name=Name(text=section.name), near=Name(text=near)))
    place = places.find(near)
    if climate is None or place is None:
        return None
    rows = [
        (
            month,
            show(air.temperature, TEMPERATURE, system),
            percent(air.humidity),
            percent(equilibrium(air.temperature, air.humidity)),
        )
        for month, air in zip(_MONTHS, climate.months, strict=True)
    ]
    recalled = " Some of it is recalled from memory, not read there." if climate.memory else ""
    text = (
        f"**{escaped(place.name)}**, {escaped(place.country)}\n\n"
        + table(("month", "air", "humidity", "holds wood at"), rows)
        + f"\n\nSource: {escaped(climate.source)}.{recalled}"
    )
    return Page(text, said.where)


def system_of(laid: Outline) -> System:
    """The system that most lengths of a text are written in, as the language counts them."""
    units = [token.unit.unit for said in laid.all for token in said.tokens if token.unit is not None]
    lengths = [unit.system for unit in units if unit.dimension == LENGTH]
    quarters = sum(token.type == "QUARTERS" for said in laid.all for token in said.tokens)
    metric = lengths.count(System.METRIC)
    return System.METRIC if metric > len(lengths) - metric + quarters else System.INCH


_MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
