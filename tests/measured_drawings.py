"""Drawings measured for the tests, and checked plans to be drawn."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from typing import NamedTuple
from xml.etree.ElementTree import Element

from stacklint.checked import CheckedStack
from stacklint.checking import check
from stacklint.report.numbered import Numbered, numbered

TODAY = datetime.date(2026, 6, 10)


class Box(NamedTuple):
    """A rectangle of a drawing: its left and right ends, its low and high ones, mm from the left end and the ground."""

    left: float
    right: float
    low: float
    high: float

    @property
    def middle(self) -> float:
        return (self.left + self.right) / 2

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.high - self.low


class Drawn:
    """A drawing, measured by the coordinates of its parts alone: what they say of themselves is not asked."""

    def __init__(self, drawing: Element) -> None:
        self.svg = drawing
        self.group = next(each for each in drawing if each.get("class") == "to-scale")
        self.origin = _numbers(self.group.get("transform", ""))

    def parts(self, class_: str) -> list[Element]:
        """Parts of a class, in the order in which they are drawn."""
        return [each for each in self.group.iter() if class_ in (each.get("class") or "").split()]

    def boxes(self, class_: str) -> list[Box]:
        return [box_of(each) for each in self.parts(class_) if each.tag == "rect"]

    def points(self, class_: str) -> list[list[tuple[float, float]]]:
        """Of the lines of a class."""
        return [points_of(each) for each in self.parts(class_) if each.tag == "path"]

    @property
    def words(self) -> list[str]:
        return ["".join(each.itertext()) for each in self.group.iter("text")]

    def words_of(self, kind: str) -> list[str]:
        return [each.text or "" for each in self.group.iter("text") if each.get("data-kind") == kind]

    def numbers(self) -> dict[int, list[tuple[float, float]]]:
        """The rings of the findings, by number: where they stand."""
        found: dict[int, list[tuple[float, float]]] = {}
        for ring in self.parts("finding"):
            circle = next(each for each in ring if each.tag == "circle")
            place = float(circle.get("cx", "nan")), -float(circle.get("cy", "nan"))
            found.setdefault(int(ring.get("data-number", "0")), []).append(place)
        return found


def box_of(rect: Element) -> Box:
    x, y, width, height = (float(rect.get(name, "nan")) for name in ("x", "y", "width", "height"))
    return Box(x, x + width, -(y + height), -y)


def points_of(path: Element) -> list[tuple[float, float]]:
    values = _numbers(path.get("d", ""))
    return [(x, -y) for x, y in zip(values[::2], values[1::2], strict=True)]


def _numbers(text: str) -> list[float]:
    return [float(each) for each in re.findall(r"-?\d+(?:\.\d+)?", text)]


class Plan(NamedTuple):
    """One stack of a plan, checked, and its findings with their numbers."""

    stack: CheckedStack
    findings: tuple[Numbered, ...]


def plan_of(text: str) -> Plan:
    checked = check(text, "b2.stackplan", today=TODAY)
    stack = checked.stacks[0]
    assert stack.arrangement is not None, [finding.message for finding in checked.findings]
    mine = [finding for finding in checked.findings if finding.stack == stack.stack.name.text]
    return Plan(stack, numbered(mine))


SOUND = """
pile "B2" "Ash for flooring"
  place open yard
  boards a: 96 of white ash 4/4 x 6 in x 8 ft, green
  boards b: 16 of white ash 4/4 x 6 in x 12 ft, green
  boards c: 16 of white ash 4/4 x 6 in x 4 ft, green
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in, dry
  bearers 4 in x 6 in of white oak, every 24 in, on 8 in x 16 in pads
  clearance 14 in
  ground gravel, flat
  cover sheet metal, overhang 18 in ends, 12 in sides, gap 4 in, slope 1 in 12, tied
"""


def _changed(lines: list[str], statements: dict[str, str | None]) -> Iterator[str]:
    left = {name.replace("_", " "): said for name, said in statements.items()}
    for line in lines:
        keyword = line.split()[0] if line.startswith("  ") else ""
        if keyword not in left:
            yield line
            continue
        said = left.pop(keyword) if keyword != "boards" else left[keyword]
        if said is not None:
            yield f"  {keyword} {said}"
            if keyword == "boards":
                left["boards"] = None
    for keyword, said in left.items():
        if said is not None:
            yield f"  {keyword} {said}"


def pile_with(**statements: str | None) -> Plan:
    """A sound pile with some of its statements changed: ``pile_with(stickers="none")``; ``None`` leaves one out."""
    return plan_of("\n".join(_changed(SOUND.splitlines(), statements)))
