"""What is changed in a plan, and what is not."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from stacklint.changes import changed
from stacklint.checking import check
from stacklint.files import lending
from stacklint.findings import Level
from stacklint.mending import Mended, mended, mends, unmended

TODAY = datetime.date(2026, 6, 1)
EXAMPLES = Path(__file__).parent.parent.parent / "examples"

PILE = """\
# Our best ash.
pile "Ash 1"
  place open yard   # behind the saw
  boards a: 64 of white ash 4/4 x 6 in x 8 ft, green
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in, dry   # from the shed
  bearers 4 in x 6 in of white oak, every 24 in, on 8 in x 16 in pads
  clearance 14 in
  ground gravel, flat
  cover sheet metal, overhang 14 in, gap 4 in, slope 1 in 12, tied
"""


def with_change(*changes: tuple[str, str]) -> str:
    text = PILE
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return text


def made(text: str, rule: str | None = None) -> Mended:
    return mended(text, today=TODAY, only=None if rule is None else frozenset({rule}))


def lines_changed(before: str, after: str) -> list[str]:
    old = before.splitlines()
    return [line.strip() for line in after.splitlines() if line not in old]


def test_a_sound_plan_has_nothing_to_mend() -> None:
    assert made(PILE) == Mended(PILE, (), ())


@pytest.mark.parametrize(
    "faulty, mended_line",
    [
        (("every 24 in, dry", "every 28 in, dry"), "every 24 in, dry   # from the shed"),
        (("every 24 in, dry", "every 2 1/2 ft, dry"), "every 2 ft, dry   # from the shed"),
        (("every 24 in, dry", "every 750 mm, dry"), "every 600 mm, dry   # from the shed"),
        (("every 24 in, dry", "every 0.75 m, dry"), "every 0.6 m, dry   # from the shed"),
        (("every 24 in, dry", "6 a course, dry"), "9 a course, dry   # from the shed"),
    ],
)
def test_stickers_come_to_the_next_usual_spacing_in_the_writers_units(faulty, mended_line) -> None:
    text = with_change(faulty)
    after = made(text, "sticker-spacing-too-wide").text
    assert any(line.endswith(mended_line) for line in lines_changed(text, after)), lines_changed(text, after)


def test_stickers_out_to_the_next_spacing_take_the_bearers_with_them() -> None:
    text = with_change(("every 24 in, dry", "every 28 in, dry"), ("oak, every 24 in", "oak, every 48 in"))
    after = made(text).text
    assert "of white oak, every 24 in" in after
    assert not check(after, today=TODAY).findings


def test_bearers_come_under_stickers_that_stand_where_the_plan_says() -> None:
    places = "at 1 in, 2 ft, 4 ft, 6 ft, 8 ft, 10 ft, 12 ft, 14 ft, 191 in"
    text = with_change(("every 24 in, dry", f"{places}, dry"), ("oak, every 24 in", "oak, 3 of them"))
    text = text.replace("boards a: 64 of white ash 4/4", "boards a: 64 of white ash 6/4")
    after = made(text, "sticker-off-bearer").text
    assert f"of white oak, {places}, on" in after


def test_a_cover_stands_out_only_where_it_must() -> None:
    text = with_change(("overhang 14 in", "overhang 16 in ends, 2 in sides"))
    (step,) = made(text).steps
    assert "overhang 16 in ends, " in step.after


def test_a_cover_that_says_nothing_of_its_slope_or_its_ties_is_told_both() -> None:
    text = with_change((", slope 1 in 12, tied", ", slope 1 in 40, untied"))
    assert lines_changed(text, made(text).text) == [
        "cover sheet metal, overhang 14 in, gap 4 in, slope 1 in 24, tied",
    ]


def test_the_last_detail_of_a_list_over_several_lines_goes_without_its_neighbours_comment() -> None:
    text = with_change(
        (
            "every 24 in, dry   # from the shed",
            "every 24 in,   # two feet\n    dry,  # from the shed\n    out of line # oh",
        )
    )
    after = made(text).text
    assert "# two feet" in after and "# from the shed" in after and "# oh" in after
    assert "out of line" not in after
    assert not check(after, today=TODAY).findings


def test_a_first_detail_goes_and_the_second_takes_its_place() -> None:
    text = with_change(("every 24 in, dry", "every 24 in, out of line,\n    dry"))
    after = made(text).text
    assert "every 24 in, dry" in " ".join(after.split())
    assert not check(after, today=TODAY).findings


def test_a_statement_is_put_where_the_standard_order_has_it() -> None:
    text = with_change(("white ash 4/4", "white oak 8/4"))
    after = made(text, "ends-bare").text
    assert "tied\n  ends coated\n" in after
    oak_with_want = text + "  want 12%\n"
    assert "  ends coated\n  want 12%\n" in made(oak_with_want, "ends-bare").text


def test_line_ends_and_a_byte_order_mark_are_left_to_the_writer() -> None:
    text = with_change(("clearance 14 in", "clearance 8 in"))
    (mend,) = mends(text, today=TODAY)
    windows = "\ufeff" + text.replace("\n", "\r\n")
    assert changed(windows, mend.changes) == "\ufeff" + changed(text, mend.changes).replace("\n", "\r\n")
    assert made(text.replace("\n", "\r\n")).text == changed(text, mend.changes).replace("\n", "\r\n")


def test_ends_of_boards_that_are_sawn_already_are_not_said_to_be_coated_fresh() -> None:
    text = with_change(("white ash 4/4", "white oak 8/4"), ("  boards a", "  sawn 2026-05-01\n  boards a"))
    assert made(text, "ends-bare").text == text
    assert made(text, "ends-bare").left[0].sentence == "Ends that were not coated fresh stay so."


def test_a_faulty_word_is_mended_though_it_hid_what_is_mended_next() -> None:
    text = with_change(("  stickers 3/4 in x 1 1/2 in, every 24 in", "  stikers 3/4 in x 1 1/2 in, every 36 in"))
    found = made(text)
    assert found.steps[0].mend.rule == "plan-text"
    assert not check(found.text, today=TODAY).findings


@pytest.mark.parametrize(
    "slip, meant",
    [
        (("green", "grean"), ", green"),
        (("ground gravel", "ground gravle"), "ground gravel"),
        (("white ash", "wite ash"), "of white ash"),
        (("white ash", "whiet ash"), "of white ash"),
        (("place open yard", "place open yrad"), "place open yard"),
        (("  clearance", "  clearence"), "clearance 14 in"),
        (("tied\n", "tyed\n"), "1 in 12, tied"),
        (("clearance 14 in", "clearance 14 inn"), "clearance 14 in"),
        (("flat\n", "flat,\n"), "ground gravel, flat"),
        (("every 24 in, dry", "every 24 in dry"), "every 24 in, dry"),
    ],
)
def test_a_slip_of_the_pen_is_mended_where_one_word_is_plainly_meant(slip, meant) -> None:
    text = with_change(slip)
    after = made(text).text
    assert meant in after
    assert not check(after, today=TODAY).findings


@pytest.mark.parametrize(
    "slip",
    [
        ("clearance 14 in", "clearance 14"),
        ("white ash", "oak"),
        ("green", "400%"),
        ("every 24 in, dry", "every 24 to 30 in, dry"),
        ("8 ft, green", "2,5 m, green"),
        ("ground gravel", "ground xyzzy"),
    ],
)
def test_what_could_be_meant_in_several_ways_is_not_guessed(slip) -> None:
    text = with_change(slip)
    assert made(text).text == text
    assert made(text).left


@pytest.mark.parametrize(
    "slip, meant",
    [
        (("stack 16 ft x 4 ft", "stack 16 ft x 48 ft"), "stack 16 ft x 48 in"),
        (("clearance 14 in", "clearance 20 ft"), "clearance 20 in"),
        (("4/4 x 6 in x 8 ft", "4/4 x 9 ft x 8 ft"), "4/4 x 9 in x 8 ft"),
    ],
)
def test_a_length_that_can_be_in_one_other_unit_alone_is_given_that_unit(slip, meant) -> None:
    assert meant in made(with_change(slip), "value-out-of-range").text


def test_a_length_that_could_be_in_two_other_units_is_left_to_the_writer() -> None:
    text = with_change(("clearance 14 in", "clearance 300 m"))
    assert made(text, "value-out-of-range").text == text


def test_a_statement_said_twice_in_the_same_words_is_said_once() -> None:
    assert made(with_change(("  clearance 14 in\n", "  clearance 14 in\n" * 2))).text == PILE
    other = with_change(("  clearance 14 in\n", "  clearance 14 in\n  clearance 15 in\n"))
    assert made(other).text == other


def test_a_reading_below_a_later_one_moves_above_it() -> None:
    text = (
        'site "Larch Bottom"\n  near "Burlington, VT"\n\n'
        + with_change(("place open yard", 'place open yard, site "Larch Bottom"'), ("green", "45%"))
        + "  stacked 2026-04-02\n  reading 2026-05-20 29%\n  reading 2026-05-10 35%   # the meter of Joe\n"
    )
    after = made(text, "reading-implausible").text
    assert after.index("2026-05-10 35%") < after.index("2026-05-20 29%")
    assert "# the meter of Joe" in after


def test_a_charge_is_parted_by_its_woods_thickness_and_moisture_with_what_goes_with_the_boards() -> None:
    text = """\
kiln "Box"
  inside 18 ft x 7 ft x 6 ft
  holds 900 bf

charge "Ash 1" "for stairs" in kiln "Box"
  starts 2026-07-01
  boards a: 32 of white ash 4/4 x 6 in x 8 ft, 30%   # the thin ones
  boards b: 32 of white ash 8/4 x 6 in x 8 ft, 30%
  wanted 1 3/4 in thick, of b
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in, dry
  top load 30 psf
"""
    found = made(text, "mixed-thickness-in-stack")
    first, second = found.text.split('charge "Ash 2"')
    assert "boards b" in first and "boards a" not in first and "wanted" in first
    assert second.startswith(' "for stairs" in kiln "Box"\n  boards a: 32')
    assert "boards b" not in second and "wanted" not in second and "starts" not in second
    assert "# the thin ones" in found.text


def test_a_pile_that_a_charge_takes_its_boards_from_is_not_parted() -> None:
    text = with_change(("  stack 16", "  boards b: 32 of white ash 8/4 x 6 in x 8 ft, green\n  stack 16"))
    assert "Ash 2" in made(text, "mixed-thickness-in-stack").text
    lent = text + '\nkiln "Box"\n  heats to 120 F\n\ncharge "C" in kiln "Box"\n  from pile "Ash 1"\n'
    assert "Ash 2" not in made(lent, "mixed-thickness-in-stack").text


def test_a_pile_in_a_long_plan_is_mended_as_it_would_be_alone() -> None:
    faulty = with_change(("every 24 in, dry", "every 28 in, dry")).replace("Ash 1", "Pile 5")
    others = [PILE.replace("Ash 1", f"Pile {number}") for number in (1, 2, 3, 4)]
    after = made("\n".join([*others, faulty])).text
    assert after == "\n".join([*others, made(faulty).text])


def test_a_pile_of_a_used_plan_is_left_to_its_own_plan() -> None:
    text = 'use "../yard.stackplan"\n' + with_change(("clearance 14 in", "clearance 8 in"))
    path = str(EXAMPLES / "drying" / "mine.stackplan")
    for mend in mends(text, path, today=TODAY, use=lending(EXAMPLES.resolve())):
        assert {change.where.path for change in mend.changes} == {path}


def test_house_rules_are_mended_for_by_their_own_limits() -> None:
    from stacklint.rulebook import builtin, load

    house = 'change clearance-too-low\n  limit    least = 18 in  source "our wet yard"\n'
    loaded = load([("house.rules", house)], base=builtin(), house=True)
    assert not loaded.faults, loaded.faults
    (mend,) = mends(PILE, today=TODAY, book=loaded.book)
    assert mend.reason == "Raise the lowest boards to 18 in above the ground."


def test_the_same_change_may_clear_several_findings_and_the_count_is_told() -> None:
    text = (EXAMPLES / "families" / "sag-wrong.stackplan").read_text(encoding="utf-8")
    (step,) = made(text).steps
    assert step.more == 2


@pytest.mark.parametrize(
    "name, left",
    [
        ("families/end-stickers-wrong", set()),
        ("families/mixed-thickness-wrong", set()),
        ("families/overloads-wrong", {"kiln-overweight", "airflow-too-fast"}),
        ("families/rain-wrong", set()),
        ("families/sag-wrong", set()),
        ("families/unpaired-lengths-wrong", set()),
        ("drying/promised-wrong", {"season-for-stain"}),
        ("first-plan", {"lengths-unpaired"}),
    ],
)
def test_the_faulty_examples_are_mended_but_for_what_people_decide(name: str, left: set[str]) -> None:
    path = EXAMPLES / f"{name}.stackplan"
    use = lending(EXAMPLES.resolve())
    found = mended(path.read_text(encoding="utf-8"), str(path), today=TODAY, use=use)
    after = check(found.text, str(path), today=TODAY, use=use)
    assert {finding.rule for finding in after.findings if finding.level is not Level.NOTE} == left
    assert {each.finding for each in found.left} == set(after.findings)


def test_each_step_is_made_on_what_the_one_before_left() -> None:
    path = EXAMPLES / "first-plan.stackplan"
    text = path.read_text(encoding="utf-8")
    found = mended(text, str(path), today=TODAY)
    now = text
    for step in found.steps:
        assert step.before == now
        now = changed(now, step.mend.changes)
        assert step.after == now
    assert now == found.text


def test_what_is_mended_and_what_is_not_are_all_the_findings_there_are() -> None:
    path = EXAMPLES / "first-plan.stackplan"
    text = path.read_text(encoding="utf-8")
    told = [mend.finding for mend in mends(text, str(path), today=TODAY)]
    told += [each.finding for each in unmended(text, str(path), today=TODAY)]
    assert sorted(told, key=lambda each: each.where[1:3]) == sorted(
        check(text, str(path), today=TODAY).findings, key=lambda each: each.where[1:3]
    )
