"""What the steps of a build list are told from."""

from __future__ import annotations

from typing import NamedTuple

from stacklint.engineering.facts import StackFacts
from stacklint.engineering.foundation_facts import stands_on_soil
from stacklint.layout.arrangement import Arrangement
from stacklint.plan.stack import Stack
from stacklint.plan.supports import BearerKind, Soil
from stacklint.report.tape import tape
from stacklint.units import System


class Built(NamedTuple):
    stack: Stack
    laid: Arrangement
    facts: StackFacts

    @property
    def system(self) -> System:
        return self.facts.system

    @property
    def flat(self) -> str:
        """Within which supports lie in one plane: as the rule ground-not-flat has it."""
        return "1/4 in" if self.system is System.INCH else "6 mm"

    @property
    def surface(self) -> str:
        """What it stands on: the ground, a slab or a floor."""
        if not stands_on_soil(self.stack):
            return "floor"
        ground = self.stack.ground
        return "slab" if ground is not None and ground.soil is Soil.CONCRETE else "ground"

    @property
    def on_pallets(self) -> bool:
        return self.stack.bearers is not None and self.stack.bearers.kind is BearerKind.PALLETS

    @property
    def on_bearers(self) -> bool:
        return bool(self.laid.bearers) and not self.laid.whole_floor

    def length(self, metres: float) -> str:
        return tape(metres, self.system)


def counted(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
