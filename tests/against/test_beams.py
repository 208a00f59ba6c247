"""Beams against published formulas and worked examples, and against a finite element program.

``data/beam_checks.csv`` names the source of each row; ``how`` says whether its text was read ("found"), recalled
("memory") or worked out from the formula rows ("computed").
"""

from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path
from types import MappingProxyType

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from stacklint.engineering import beam

Row = dict[str, str]

ROWS: tuple[Row, ...] = tuple(
    csv.DictReader((Path(__file__).parent / "data" / "beam_checks.csv").read_text(encoding="utf-8").splitlines())
)
LOOSE = MappingProxyType(
    {
        # The guide rounds the span to 12.5 ft; the typed copy itself accepts 5%.
        "rsdg_5_1_stiffness_span": 0.017,
        # The public test takes the metric section 38 x 235 mm for 1.5 x 9.25 in.
        "sp_joist_public_test": 0.0025,
    }
)


def number(text: str) -> float:
    return float(text) if text else 0.0


def solve_row(row: Row) -> beam.BeamResult:
    spans = [float(span) for span in row["spans_in"].split(";")]
    load, modulus = number(row["load_lb_per_in"]), number(row["moe_psi"])
    width, depth = row["width_in"], row["depth_in"]
    stiffness = modulus * float(width) * float(depth) ** 3 / 12 if width else modulus
    left, right = number(row["left_overhang_in"]), number(row["right_overhang_in"])
    places = [0.0]
    for span in spans:
        places.append(places[-1] + span)
    loads: list[float] = [load] * (len(spans) + 2)
    stiff: list[float] = [stiffness] * (len(spans) + 2)
    layout = row["layout"]
    if layout.startswith("cantilever"):
        # Built in: the end of an overhang behind which lies a span that carries nothing and does not bend.
        places, left, right = [-1.0, 0.0], 0.0, spans[0]
        loads, stiff = [0.0, 0.0, load], [stiffness, stiffness * 1e12, stiffness]
    elif "load on overhang only" in layout:
        loads[:-1] = [0.0] * (len(loads) - 1)
    result = beam.solve(places, places[0] - left, places[-1] + right, loads, stiff)
    assert result is not None
    return result


def bending_stress(row: Row, result: beam.BeamResult) -> float:
    return result.largest_moment / (float(row["width_in"]) * float(row["depth_in"]) ** 2 / 6)


def middle(result: beam.BeamResult) -> float:
    return result.deflection((result.supports[0] + result.supports[-1]) / 2)


def equal_moment_overhang() -> float:
    """Overhang over total length at which the moments over the supports and at midspan are alike, by bisection."""
    low, high = 0.0, 0.5
    for _ in range(60):
        ratio = (low + high) / 2
        result = beam.solve((ratio, 1 - ratio), 0, 1, 1, 1)
        assert result is not None
        if result.span_moments[0] > -result.moments[0]:
            low = ratio
        else:
            high = ratio
    return low


QUANTITIES: MappingProxyType[str, Callable[[Row, beam.BeamResult], float]] = MappingProxyType(
    {
        "max deflection coefficient of w L^4/(E I)": lambda _, result: result.largest_sag,
        "max moment coefficient of w L^2": lambda _, result: result.largest_moment,
        "moment over middle support / (w L^2)": lambda _, result: -result.moments[1],
        "moment over inner support / (w L^2)": lambda _, result: -result.moments[1],
        "moment over second support / (w L^2)": lambda _, result: -result.moments[1],
        "end reaction / (w L)": lambda _, result: result.reactions[0],
        "middle reaction / (w L)": lambda _, result: result.reactions[1],
        "inner reaction / (w L)": lambda _, result: result.reactions[1],
        "second reaction / (w L)": lambda _, result: result.reactions[1],
        "tip deflection coefficient of w L^4/(E I)": lambda _, result: result.droops[1],
        "tip deflection / (w/(E I))": lambda _, result: result.droops[1],
        "max upward deflection between supports / (w/(E I))": lambda _, result: min(
            result.deflection(i / 2000) for i in range(2001)
        ),
        "mid-span deflection / (w/(E I))": lambda _, result: middle(result),
        "overhang / total length at which support moment equals mid-span moment": lambda *_: equal_moment_overhang(),
        "mid-span deflection": lambda _, result: middle(result),
        "mid-span deflection / span": lambda _, result: middle(result) / result.spans[0],
        "final deflection with kdef 0.6 and psi2 0.4": lambda _, result: middle(result),
        "max deflection": lambda _, result: result.largest_sag,
        "tip deflection": lambda _, result: result.droops[1],
        "max bending stress": bending_stress,
    }
)


def last_digit(text: str) -> float:
    """Half of the last printed digit."""
    decimals = len(text.partition(".")[2])
    return float(0.5 * 10.0**-decimals)


@pytest.mark.parametrize("row", ROWS, ids=[row["case"] for row in ROWS])
def test_a_published_beam_comes_out_as_it_is_printed(row: Row) -> None:
    found = QUANTITIES[row["quantity"]](row, solve_row(row))
    if row["unit"] == "mm":
        found *= 25.4
    expected = float(row["expected"])
    tolerance = max(last_digit(row["expected"]), abs(expected) * LOOSE.get(row["case"], 2e-4))
    assert abs(found - expected) <= tolerance * 1.000001, row["source"]


@pytest.mark.parametrize("row", [row for row in ROWS if row["independent_solver_value"]], ids=lambda row: row["case"])
def test_a_published_beam_agrees_with_a_separate_finite_element_solution(row: Row) -> None:
    """The last column was computed apart from this package, with a finite element beam."""
    found = QUANTITIES[row["quantity"]](row, solve_row(row))
    if row["unit"] == "mm":
        found *= 25.4
    assert found == pytest.approx(float(row["independent_solver_value"]), rel=5e-5)


def test_every_row_of_the_beam_checks_has_a_source() -> None:
    assert len(ROWS) >= 34
    assert all(row["source"] and row["how"] in {"found", "memory", "computed"} for row in ROWS)


# --- a general-purpose finite element package -----------------------------------------------------------------

PIECES = 4
"""Elements a span. The nodes of a finite element beam lie on the exact curve, which under an even load is a
quartic: five nodes fix it."""

PART = st.tuples(st.floats(0.2, 2.0), st.floats(5.0, 2000.0), st.floats(100.0, 1e5))
OVERHANG = st.one_of(st.none(), st.tuples(st.floats(0.05, 0.8), st.floats(5.0, 2000.0), st.floats(100.0, 1e5)))
Part = tuple[float, float, float]


def deepest(nodes: list[float]) -> float:
    """The largest value of the quartic through five evenly spaced nodes, no less than 0."""
    numpy = pytest.importorskip("numpy")
    curve = numpy.polyfit(numpy.linspace(0, 1, PIECES + 1), nodes, PIECES)
    turns = numpy.roots(numpy.polyder(curve))
    inside = [float(turn.real) for turn in turns if abs(turn.imag) < 1e-6 and 0 < turn.real < 1]
    return max([0.0, *(float(numpy.polyval(curve, turn)) for turn in inside)])


def compare(spans: list[Part], left: Part | None, right: Part | None) -> None:
    anastruct = pytest.importorskip("anastruct")
    nothing = (0.0, 0.0, 1.0)
    parts = [left or nothing, *spans, right or nothing]
    places = [0.0]
    for length, _, _ in spans:
        places.append(places[-1] + length)
    start, end = -parts[0][0], places[-1] + parts[-1][0]
    result = beam.solve(places, start, end, [part[1] for part in parts], [part[2] for part in parts])
    assert result is not None

    frame = anastruct.SystemElements()
    x, nodes = start, [start]
    supports: list[int] = [] if left else [1]
    for i, (length, load, stiffness) in enumerate(parts):
        if not length:
            continue
        for piece in range(PIECES):
            reach = x + length * (piece + 1) / PIECES
            element = frame.add_element([[nodes[-1], 0.0], [reach, 0.0]], EI=stiffness, EA=1e9)
            frame.q_load(q=-load, element_id=element)
            nodes.append(reach)
        x = reach
        if i < len(parts) - 1:
            supports.append(len(nodes))
    frame.add_support_hinged(supports[0])
    for support in supports[1:]:
        frame.add_support_roll(support)
    frame.solve()
    answers = frame.get_node_results_system()
    sag = [float(answer["uy"]) for answer in answers]
    size = max(abs(y) for y in sag)

    for place, theirs in zip(nodes, sag, strict=True):
        assert result.deflection(place) == pytest.approx(theirs, rel=1e-3, abs=1e-6 * size)
    for support, ours in zip(supports, result.reactions, strict=True):
        theirs = abs(answers[support - 1]["Fy"])
        assert abs(ours) == pytest.approx(theirs, rel=1e-3, abs=1e-6 * sum(result.reactions))
    for begin, ours in zip(supports, result.sags, strict=False):
        theirs = deepest(sag[begin - 1 : begin + PIECES])
        assert ours == pytest.approx(theirs, rel=1e-3, abs=1e-6 * size)


@settings(max_examples=15, deadline=None, phases=(Phase.explicit, Phase.generate))
@given(st.lists(PART, min_size=1, max_size=6), OVERHANG, OVERHANG)
def test_random_boards_bend_as_a_finite_element_program_has_them(
    spans: list[Part], left: Part | None, right: Part | None
) -> None:
    compare(spans, left, right)


@pytest.mark.slow
@settings(max_examples=300, deadline=None, phases=(Phase.explicit, Phase.generate))
@given(st.lists(PART, min_size=1, max_size=9), OVERHANG, OVERHANG)
def test_many_random_boards_bend_as_a_finite_element_program_has_them(
    spans: list[Part], left: Part | None, right: Part | None
) -> None:
    compare(spans, left, right)
