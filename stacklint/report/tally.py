"""The tally of a plan: volume, pieces, weight, stickers to cut and loads, as text and as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pydantic import Field

from stacklint import __version__
from stacklint.checked import CheckedPlan, CheckedStack
from stacklint.engineering.facts import Bearer, Group, KilnFacts, Pad, StackFacts
from stacklint.plan.stack import StackKind
from stacklint.report.figures import figures
from stacklint.report.json_output import written
from stacklint.report.plain import plain
from stacklint.report.stack_figures import Model, StackFigures, finite
from stacklint.show import percent, rounded, show
from stacklint.units import MASS, PRESSURE, VOLUME, Dimension, System


class BoardsTally(Model):
    label: str | None
    boards: str | None = Field(description="the group in words")
    wood: str | None
    pieces: float | None
    volume_m3: float | None
    mass_now_kg: float | None
    moisture: float | None = Field(description="a share of the oven-dry mass")

    @classmethod
    def of(cls, group: Group) -> BoardsTally:
        return cls(
            label=group.label,
            boards=group.boards,
            wood=group.wood,
            pieces=finite(group.pieces),
            volume_m3=finite(group.volume),
            mass_now_kg=finite(_mass(group)),
            moisture=finite(group.moisture),
        )


class BearerTally(Model):
    name: str | None
    section: str | None
    load_kg: float | None
    use: float | None = Field(description="largest stress as a share of the design value")

    @classmethod
    def of(cls, bearer: Bearer) -> BearerTally:
        return cls(name=bearer.name, section=bearer.section, load_kg=finite(bearer.load), use=finite(bearer.worst))


class FootingTally(Model):
    name: str | None
    load_kg: float | None
    pressure_pa: float | None
    bears_pa: float | None = Field(description="what the ground is taken to bear")

    @classmethod
    def of(cls, pad: Pad) -> FootingTally:
        return cls(
            name=pad.name,
            load_kg=finite(pad.load),
            pressure_pa=finite(pad.pressure),
            bears_pa=finite(pad.bears),
        )


class KilnTally(Model):
    name: str | None = Field(description="in words")
    share_of_volume: float | None = Field(description="of the wood that it is rated to hold")
    share_of_mass: float | None = Field(description="of the weight that it is rated to carry")

    @classmethod
    def of(cls, kiln: KilnFacts, facts: StackFacts) -> KilnTally:
        return cls(
            name=kiln.name,
            share_of_volume=_share(facts.kiln_measure, kiln.holds),
            share_of_mass=_share(facts.load, kiln.carries),
        )


class StackTally(Model):
    name: str
    kind: StackKind
    facts: StackFigures | None
    boards: tuple[BoardsTally, ...]
    bearers: tuple[BearerTally, ...]
    footings: tuple[FootingTally, ...]
    kiln: KilnTally | None

    @classmethod
    def of(cls, checked: CheckedStack) -> StackTally:
        facts = checked.facts
        kiln = facts.kiln if facts else None
        return cls(
            name=checked.stack.name.text,
            kind=checked.stack.kind,
            facts=StackFigures.of(facts, checked.forecast) if facts else None,
            boards=tuple(map(BoardsTally.of, facts.groups)) if facts else (),
            bearers=tuple(map(BearerTally.of, facts.bearers)) if facts else (),
            footings=tuple(map(FootingTally.of, facts.pads)) if facts else (),
            kiln=KilnTally.of(kiln, facts) if facts and kiln else None,
        )


class TallyOutput(Model):
    """What ``stacklint tally --as json`` prints."""

    stacklint: str
    path: str
    stacks: tuple[StackTally, ...]


def tally_json(checked: CheckedPlan) -> str:
    stacks = tuple(map(StackTally.of, checked.stacks))
    return written(TallyOutput(stacklint=__version__, path=checked.path, stacks=stacks))


def tally_text(checked: CheckedPlan) -> Iterator[str]:
    """The lines of a tally, without line ends."""
    for stack in checked.stacks:
        title = f", {stack.stack.title}" if stack.stack.title else ""
        yield plain(f"{stack.stack.kind.value.capitalize()} {stack.stack.name.text}{title}")
        if stack.facts is None:
            yield "  Not reckoned: what is wrong in its text comes first; stacklint check tells it."
        else:
            yield from (plain(f"  {figure.label:<9} {figure.text}") for figure in figures(stack))
            yield from _tables(stack.facts)
        yield ""
    if not checked.stacks:
        yield "This text holds no pile and no charge."


def _tables(facts: StackFacts) -> Iterator[str]:
    system = facts.system
    boards = [
        (
            _text(group.pieces),
            _amount(group.volume, VOLUME, system),
            _amount(_mass(group), MASS, system),
            _percent(group.moisture),
            _said(group.label, group.boards, between=": "),
        )
        for group in facts.groups
    ]
    yield from _table(("pieces", "wood", "weight now", "moisture", "boards"), boards)
    bearers = [(_amount(b.load, MASS, system), _percent(b.worst), _said(b.name, b.section)) for b in facts.bearers]
    yield from _table(("load", "use", "bearers"), bearers)
    pads = [
        (
            _amount(pad.load, MASS, system),
            _amount(pad.pressure, PRESSURE, system),
            _amount(pad.bears, PRESSURE, system),
            _said(pad.name),
        )
        for pad in facts.pads
    ]
    yield from _table(("load", "on the ground", "it bears", "footings"), pads)
    if facts.kiln:
        share = KilnTally.of(facts.kiln, facts)
        row = (_percent(share.share_of_volume), _percent(share.share_of_mass), _said(share.name))
        yield from _table(("of the wood it holds", "of the weight it carries", "kiln"), [row])


def _table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> Iterator[str]:
    """Columns set flush right, but the last; nothing where there are no rows."""
    if not rows:
        return
    widths = [max(len(row[i]) for row in (heads, *rows)) for i in range(len(heads) - 1)]
    yield ""
    for row in (heads, *rows):
        figures_part = "  ".join(text.rjust(width) for text, width in zip(row, widths, strict=False))
        yield plain(f"  {figures_part}  {row[-1]}")


def _mass(group: Group) -> float | None:
    return None if group.volume is None or group.density is None else group.volume * group.density


def _share(part: float | None, whole: float | None) -> float | None:
    return None if part is None or not whole else finite(part / whole)


def _said(*words: str | None, between: str = ", ") -> str:
    return between.join(word for word in words if word) or "?"


def _text(number: float | None) -> str:
    return "?" if number is None else rounded(number)


def _amount(value: float | None, dimension: Dimension, system: System) -> str:
    return "?" if value is None else show(value, dimension, system)


def _percent(share: float | None) -> str:
    return "?" if share is None else percent(share)
