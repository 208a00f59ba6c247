"""The build sheet says what the facts say, complete, in order, and with every text of a plan as text."""

from __future__ import annotations

import dataclasses
import datetime
import re

import pytest
import random_plans
import sheet_plans as plans
from hypothesis import given, settings
from hypothesis import strategies as st
from read_page import ReadPage, rows

from stacklint.checked import CheckedPlan
from stacklint.findings import Level
from stacklint.language import write
from stacklint.plan.yard import Plan
from stacklint.report.numbered import numbered
from stacklint.report.sheet_page import sheet_html
from stacklint.show import show
from stacklint.units import MASS, ONE_BOARD_FOOT, VOLUME

SOUND = ("sound-pile", "first-plan", "sound-charge", "drying/oak-in-april", "families/unpaired-lengths-wrong")
ONE_STACK = [*SOUND, plans.TALL, plans.METRIC]
NAMED = [*SOUND, "tall", "metric"]


def checked(plan: str) -> CheckedPlan:
    return plans.plan(plan) if "\n" in plan else plans.example(plan)


def number(cell: str) -> int:
    return int(cell.removeprefix("about "))


def page(plan: CheckedPlan, today: datetime.date = plans.TODAY) -> ReadPage:
    return ReadPage(sheet_html(plan, today))


@pytest.mark.parametrize("plan", ONE_STACK, ids=NAMED)
def test_the_stickers_to_cut_are_those_of_the_facts(plan: str) -> None:
    found = checked(plan)
    (stack,) = found.stacks
    assert stack.facts is not None
    (stickers,) = [row for row in rows(page(found), "To cut and to bring") if row["Part"] == "stickers"]
    assert int(stickers["Number"]) == stack.facts.sticker_count


@pytest.mark.parametrize("plan", ONE_STACK, ids=NAMED)
def test_stickers_and_bearers_stand_where_the_arrangement_has_them(plan: str) -> None:
    found = checked(plan)
    laid = found.stacks[0].arrangement
    assert laid is not None
    places = page(found).places
    stickers = places["Middles of the stickers from the left end"]
    assert stickers == pytest.approx([line.x for line in laid.sticker_lines], abs=1e-5)
    if not laid.whole_floor:
        assert places["Middles of the bearers from the left end"] == pytest.approx(laid.bearers, abs=1e-5)


@pytest.mark.parametrize("plan", ONE_STACK, ids=NAMED)
def test_the_tally_adds_up_to_the_boards_and_the_volume_of_the_facts(plan: str) -> None:
    found = checked(plan)
    facts = found.stacks[0].facts
    assert facts is not None
    read = page(found)
    *boards, total = rows(read, "Boards in the stack")
    pieces = [number(row["Pieces"]) for row in boards]
    assert sum(pieces) == facts.pieces
    assert number(total["Species"]) == facts.pieces
    *volumes, in_all = read.figures["Boards in the stack"]
    wanted = facts.volume if plan == plans.METRIC else facts.board_feet
    assert sum(volumes) == pytest.approx(wanted, rel=1e-5)
    assert in_all == pytest.approx(wanted, rel=1e-5)


@pytest.mark.parametrize("plan", ONE_STACK, ids=NAMED)
def test_the_courses_hold_all_the_boards(plan: str) -> None:
    found = checked(plan)
    facts = found.stacks[0].facts
    assert facts is not None
    heads, *laid = page(found).tables["Courses, from the ground up"]
    whole = [row for row in laid if len(row) == len(heads)]
    assert sum(number(row[5]) for row in whole) == facts.pieces
    assert whole[-1][0].split(" to ")[-1] == f"{facts.courses_high:.0f}"


@pytest.mark.parametrize("plan", ONE_STACK, ids=NAMED)
def test_the_head_tells_volume_pieces_and_weights(plan: str) -> None:
    found = checked(plan)
    facts = found.stacks[0].facts
    assert facts is not None and facts.mass_now is not None
    terms = page(found).terms
    volume = facts.volume if plan == plans.METRIC else facts.board_feet
    assert volume is not None
    about = "about " if plan in (plans.TALL, plans.METRIC) else ""
    assert terms["Volume"] == about + show(volume, VOLUME, facts.system)
    assert terms["Pieces"] == f"{facts.pieces:.0f} boards"
    assert terms["Weight as stacked"].startswith(f"{show(facts.mass_now, MASS, facts.system)} (")
    if facts.mass_target is not None:
        assert terms["Weight dry"].startswith(show(facts.mass_target, MASS, facts.system))


ASH = """\
site "Larch Bottom"
  near "Burlington, VT"
pile "Ash"
  place open yard, site "Larch Bottom"
  stacked 2026-04-02
  boards a: 64 of white ash 4/4 x 6 in x 8 ft, 60%
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in
  bearers 4 in x 6 in of white oak, every 24 in
"""


def test_the_weight_as_stacked_as_last_read_and_dry_follow_from_the_moisture_content() -> None:
    """What a board weighs is its oven-dry mass and one part of it more for each per cent of moisture: from 60% to 40%
    it goes as 1.6 to 1.4, to 12% as 1.6 to 1.12, to the 15% that is wanted as 1.6 to 1.15."""
    read = page(plans.plan(ASH + "  reading 2026-05-10 42%, of a, core\n  reading 2026-05-10 38%, outer boards\n"))
    stacked, last, dry = (read.terms[f"Weight {when}"] for when in ("as stacked", "as last read", "dry"))
    pounds = [float(text.split(" lb")[0].replace(",", "")) for text in (stacked, last, dry)]
    assert pounds[1] / pounds[0] == pytest.approx(1.4 / 1.6, abs=0.001)
    assert pounds[2] / pounds[0] == pytest.approx(1.12 / 1.6, abs=0.001)
    assert stacked.endswith("(60%)")
    assert last.endswith("(40% on 2026-05-10)")
    assert dry.endswith("(at 12%; no moisture content is wanted)")
    wanted = page(plans.plan(ASH + "  want 15%\n")).terms
    assert wanted["Weight dry"].endswith("(at 15%)")
    assert "Weight as last read" not in wanted


def test_a_charge_that_wants_no_moisture_content_is_weighed_at_8_per_cent() -> None:
    (charge,) = plans.example("sound-charge").stacks
    bare = charge.stack.model_copy(update={"want": None})
    plan = plans.example("sound-charge")._replace(stacks=(charge._replace(stack=bare),))
    assert page(plan).terms["Weight dry"].endswith("(at 8%; no moisture content is wanted)")


def test_boards_that_are_dry_when_they_are_stacked_have_one_weight() -> None:
    terms = page(plans.plan(ASH.replace("60%", "kiln dried"))).terms
    assert "Weight as stacked" in terms
    assert "Weight dry" not in terms


def test_where_nothing_is_wanted_no_day_is_told_in_the_head() -> None:
    assert "Ready" not in page(plans.plan(ASH)).terms
    assert "Ready" in page(plans.plan(ASH + "  want 15%\n")).terms


def test_boards_that_the_plan_leaves_open_are_told_as_about_so_many() -> None:
    read = page(
        plans.plan(
            'pile "P"\n  boards a: 12 of white ash 4/4 x 6 in x 8 ft, green\n'
            "  boards b: 9 of white ash 4/4 x random width x 8 ft, green\n"
            "  boards c: 12 of white ash 4/4 x 6 in x 6 to 8 ft, green\n"
            "  boards d: 100 bf of white ash 4/4 x 6 in x 8 ft, green\n  stack 8 ft x 4 ft\n"
        )
    )
    told = {row["Boards"]: row for row in rows(read, "Boards in the stack") if row["Boards"] in "abd"}
    assert [told[label]["Pieces"] for label in "abd"] == ["12", "9", "about 25"]
    assert told["b"]["Width"] == "random width, about 7 in"
    assert told["b"]["Volume"] == "about 42 bf"
    lengths = {row["Length"]: row["Pieces"] for row in rows(read, "Boards in the stack") if row["Boards"] == "c"}
    assert lengths == {"about 6 ft": "about 4", "about 7 ft": "about 4", "about 8 ft": "about 4"}
    assert read.terms["Pieces"].startswith("about ")
    courses = " ".join(" ".join(row) for row in read.tables["Courses, from the ground up"])
    assert "about 6 ft c" in courses
    exact = page(plans.plan(ASH))
    assert not any("about" in cell for table in exact.tables.values() for row in table for cell in row)


def test_each_course_has_its_own_box_to_tick() -> None:
    plan = plans.plan(plans.TALL)
    read = page(plan)
    facts = plan.stacks[0].facts
    assert facts is not None
    assert len(read.texts_of("span", "box")) == facts.courses_high


def test_findings_that_stand_in_no_drawing_are_told_so() -> None:
    found = plans.plan(plans.METRIC)
    html = sheet_html(found, plans.TODAY)
    read = ReadPage(html)
    drawn = {each["data-number"] for tag, each in read.elements if tag == "g" and "finding" in each.get("class", "")}
    items = re.findall(r'<span class="number">(\d+)</span>.*?</li>', html, re.DOTALL)
    told = re.findall(r'<span class="number">(\d+)</span>(?:(?!</li>).)*; not on the drawing', html, re.DOTALL)
    assert told
    assert set(told) == set(items) - drawn


def test_open_errors_are_told_above_the_build_list() -> None:
    read = page(plans.example("first-plan"))
    errors = sum(each.level is Level.ERROR for each in plans.example("first-plan").findings)
    assert f"{errors} error{'s' if errors > 1 else ''} open, from the first page of Pile Ash 1 on" in read.text
    assert "open, from the first page" not in page(plans.example("sound-pile")).text


def test_the_courses_that_are_drawn_are_named() -> None:
    assert "All courses are drawn from above, alike ones once." in page(plans.example("sound-pile")).text
    tall = page(plans.plan(plans.TALL))
    assert re.search(
        r"Drawn from above: courses [\d to,]+ and [\d to]+\. The others are laid as the build list has them", tall.text
    )


def test_pages_bear_the_name_of_their_stack_whatever_is_in_it() -> None:
    html = sheet_html(plans.plan(plans.HOSTILE), plans.TODAY)
    (foot,) = re.findall(r'@bottom-left \{ content: "([^"]*)"', html)
    assert re.fullmatch(r"(?:[A-Za-z0-9]|\\[0-9a-f]{6})+", foot)
    plain = re.sub(r"\\([0-9a-f]{6})", lambda found: chr(int(found[1], 16)), foot)
    assert plain == "Pile <script>alert(2)</script>"


def test_an_overdue_reading_comes_first_and_the_target_is_not_expected_twice() -> None:
    html = sheet_html(plans.plan(ASH + "  want 15%\n"), datetime.date(2026, 5, 31))
    found = [row for row in rows(ReadPage(html), "Moisture content, to be filled in") if row["Due"]]
    assert found[0]["Due"] == "overdue since 2026-04-09"
    assert all(re.fullmatch(r"\d{4}-\d\d-\d\d", row["Due"]) for row in found[1:])
    expected = [row["Expected"] for row in found[1:]]
    assert sum(text.startswith("15.0%") for text in expected) <= 1
    assert expected[-1].startswith("dry")


def test_the_head_tells_name_place_species_and_dates() -> None:
    read = page(plans.example("sound-pile"))
    assert read.headings[0] == (1, "Pile Ash 1")
    assert "Ash for flooring" in read.text
    assert read.terms["Place"] == "open yard, site Larch Bottom, in the shade, spot north row 3"
    assert read.terms["Species"] == "white ash"
    assert (read.terms["Sawn"], read.terms["Stacked"]) == ("2026-03-30", "2026-04-02")
    assert read.terms["Wanted"] == "14% by 2027-05-01"


def test_a_pile_of_96_boards_of_8_feet_is_384_board_feet_in_the_tally() -> None:
    """1 in x 6 in x 8 ft is 4 board feet by definition (144 cubic inches each)."""
    (found,) = [row for row in rows(page(plans.example("sound-pile")), "Boards in the stack") if row["Boards"] == "a"]
    assert (found["Species"], found["Thickness"], found["Width"], found["Length"]) == (
        "white ash",
        "4/4",
        "6 in",
        "8 ft",
    )
    assert (found["Pieces"], found["Volume"]) == ("96", "384 bf")


def test_boards_thinner_than_an_inch_count_as_an_inch_in_board_feet() -> None:
    (charge, *_) = [stack for stack in plans.plan(plans.SEVERAL).stacks if stack.stack.name.text == "A"]
    assert charge.facts is not None
    read = page(plans.plan(plans.SEVERAL)._replace(stacks=(charge,)))
    (thin,) = [row for row in rows(read, "Boards in the stack") if row["Thickness"] == "3/4 in"]
    # 13 boards of 6 in x 5 ft as if 1 in thick: 13 x 2.5 = 32.5 board feet, of which some may lie in no course.
    assert float(thin["Volume"].removesuffix(" bf")) == pytest.approx(2.5 * int(thin["Pieces"]))


def test_findings_are_numbered_as_in_the_drawings_the_gravest_first() -> None:
    found = plans.example("first-plan")
    html = sheet_html(found, plans.TODAY)
    listed = re.findall(
        r'<span class="number">(\d+)</span> <span class="level (\w+)">\2</span> ([^<]*)', html[html.index("Findings") :]
    )
    wanted = numbered(found.findings)
    assert [(int(number), level) for number, level, _ in listed] == [
        (each.number, each.finding.level.value) for each in wanted
    ]
    assert wanted[0].finding.level is Level.ERROR
    read = ReadPage(html)
    for each in wanted:
        assert each.finding.message in read.text
        assert f"Do: {each.finding.instead}" in read.text
    marked = {each["data-number"] for tag, each in read.elements if tag == "g" and "finding" in each.get("class", "")}
    assert marked <= {number for number, _, _ in listed}
    assert "1" in marked


def test_what_is_waived_is_told_in_plain_words_with_its_reason() -> None:
    read = page(plans.plan(plans.SEVERAL))
    assert "Known and accepted" in [text for _, text in read.headings]
    assert "Accepted because: only till Friday, until 2026-09-01 (no-stickers)." in read.text


def test_a_sound_plan_has_nothing_to_settle() -> None:
    read = page(plans.example("sound-pile"))
    assert "Nothing to change was found in the plan." in read.text
    assert "Settle these" not in read.text


def test_a_stack_that_cannot_be_laid_out_is_not_to_be_built() -> None:
    read = page(plans.plan(plans.BROKEN))
    assert "There is nothing to build from yet." in read.text
    assert read.tables == {}
    assert [text for _, text in read.headings] == ["Pile B2", "Findings"]


def test_what_has_been_read_is_listed_before_the_days_that_are_due() -> None:
    found = rows(page(plans.plan(plans.METRIC)), "Moisture content, to be filled in")
    taken = [row for row in found if row["Due"] == "taken"]
    assert [(row["Read on"], row["Moisture"], row["Boards, and where"]) for row in taken] == [
        ("2026-04-10", "50%", ""),
        ("2026-05-10", "41%", "a, core"),
    ]
    assert found[:2] == taken
    due = [row for row in found if row["Due"][:2] == "20"]
    assert due
    assert all(row["Due"] >= "2026-06-01" and not row["Read on"] for row in due)


def test_a_charge_has_its_kiln_its_baffles_and_its_schedule() -> None:
    read = page(plans.plan(plans.SEVERAL))
    titles = [text for level, text in read.headings if level == 3]
    assert titles[-3:] == ["Loading", "Baffles", "Running the kiln"]
    # Dry Kiln Operator's Manual AH-188 ch. 7 (memory). T8: 130 F, from 30% 140 F, from 25% 150 F, and no hotter here,
    # for the kiln heats to 150 F. D4: 15 F of depression from 40%, 25 F from 35%, 40 F from 30%, 50 F from 25%.
    airs = rows(read, "Air of the kiln, step by step")
    assert [(row["Wettest boards"], row["Dry bulb"], row["Wet bulb"]) for row in airs] == [
        ("at first", "130 F", "115 F"),
        ("from 35%", "130 F", "105 F"),
        ("from 30%", "140 F", "100 F"),
        ("from 25%", "150 F", "100 F"),
    ]


@pytest.mark.parametrize("text", [plans.SEVERAL, plans.METRIC, plans.BROKEN, plans.HOSTILE, plans.TALL])
def test_headings_stand_in_order_tables_have_captions_and_drawings_say_what_they_are(text: str) -> None:
    read = page(plans.plan(text))
    assert read.unclosed == []
    assert read.headings[0][0] == 1
    for (above, _), (below, words) in zip(read.headings, read.headings[1:], strict=False):
        assert below <= above + 1, words
    assert "" not in read.tables
    assert sum(tag == "table" for tag, _ in read.elements) == sum(tag == "caption" for tag, _ in read.elements)
    drawn = [found for tag, found in read.elements if tag == "svg"]
    ids = [found["id"] for _, found in read.elements if "id" in found]
    assert len(ids) == len(set(ids))
    for found in drawn:
        assert found["role"] == "img"
        assert set(found["aria-labelledby"].split()) <= set(ids)


def test_a_page_asks_for_nothing_and_runs_nothing() -> None:
    read = page(plans.plan(plans.SEVERAL))
    assert {tag for tag, _ in read.elements}.isdisjoint({"script", "img", "iframe", "object", "embed", "base"})
    for tag, found in read.elements:
        assert not any(name.startswith("on") for name in found), (tag, found)
        for name in ("href", "src", "xlink:href"):
            assert found.get(name, "#").startswith(("#", "data:,")), (tag, found)
    html = sheet_html(plans.plan(plans.SEVERAL), plans.TODAY)
    assert "@import" not in html
    assert "url(" not in html.replace("url(#", "")
    assert "default-src 'none'" in html


def test_hostile_names_come_out_as_text() -> None:
    plan = plans.plan(plans.HOSTILE)._replace(path='"><img src=x onerror=alert(6)>.stackplan')
    assert plan.stacks[0].facts is not None
    read = page(plan)
    assert {tag for tag, _ in read.elements}.isdisjoint({"script", "img"})
    assert not any(name.startswith("on") for _, found in read.elements for name in found)
    assert read.headings[0] == (1, "Pile <script>alert(2)</script>")
    for text in (
        '"><img src=x onerror=alert(6)>.stackplan',
        "'><img src=x onerror=alert(3)>",
        "</title><script>alert(1)</script>",
        "</style><b onmouseover=alert(4)>",
        "{{ 7 * 7 }} {% raw %} &amp; ]]> flooring",
    ):
        assert text in read.text


def test_controls_and_characters_that_turn_text_round_are_written_out() -> None:
    """No name of a plan may hold them, but that of its file may."""
    plan = plans.plan('pile "ab"\n  boards a: 3 of white ash 4/4 x 6 in x 8 ft\n')
    html = sheet_html(plan._replace(path="a\x1b[31m\u202eb.stackplan"), plans.TODAY)
    assert "\x1b" not in html
    assert "\u202e" not in html
    assert "a\\x1b[31m\\u202eb.stackplan" in html


def test_a_text_without_a_stack_says_so() -> None:
    read = page(plans.plan(plans.YARD))
    assert "This text holds no pile and no charge." in read.text


def test_several_stacks_are_listed_first_and_each_has_its_article() -> None:
    read = page(plans.plan(plans.SEVERAL))
    links = [found["href"] for tag, found in read.elements if tag == "a"]
    articles = [f"#{found['id']}" for tag, found in read.elements if tag == "article"]
    assert links == articles
    assert len(articles) == 3


@pytest.mark.parametrize("name", SOUND)
def test_what_is_unknown_of_a_stack_is_left_out_of_its_sheet(name: str) -> None:
    plan = plans.example(name)
    (stack,) = plan.stacks
    assert stack.facts is not None
    known = {field.name: getattr(stack.facts, field.name) for field in dataclasses.fields(stack.facts)}
    unknown = {key: None for key, value in known.items() if key not in ("where", "system") and type(value) is not tuple}
    empty = {key: () for key, value in known.items() if type(value) is tuple}
    bare = dataclasses.replace(stack.facts, **(unknown | empty))
    read = page(plan._replace(stacks=(stack._replace(facts=bare, forecast=None),)))
    assert "None" not in read.text
    assert re.search(r"\bnan\b", read.text) is None


sizes = st.tuples(st.integers(1, 90), st.sampled_from(("3/4 in", "4/4", "8/4")), st.integers(3, 12), st.integers(4, 16))


@settings(max_examples=30)
@given(st.lists(sizes, min_size=1, max_size=3), st.integers(8, 16))
def test_the_tally_of_any_boards_has_them_all_in_a_course_or_in_none(
    groups: list[tuple[int, str, int, int]], length: int
) -> None:
    text = 'pile "P"\n' + "".join(
        f"  boards {label}: {count} of white ash {thick} x {wide} in x {long} ft, green\n"
        for label, (count, thick, wide, long) in zip("abc", groups, strict=False)
    )
    found = plans.plan(text + f"  stack {length} ft x 4 ft\n  stickers 3/4 in x 1 1/2 in, every 24 in\n")
    (stack,) = found.stacks
    if stack.facts is None or stack.arrangement is None:
        return
    read = page(found)
    laid = sum(int(row["Pieces"]) for row in rows(read, "Boards in the stack")[:-1])
    over = sum(odd.count for odd in stack.arrangement.left_over)
    assert laid == stack.facts.pieces
    assert laid + over == sum(count for count, *_ in groups)
    assert stack.facts.board_feet is not None
    feet = sum(read.figures["Boards in the stack"][:-1]) / ONE_BOARD_FOOT
    assert feet == pytest.approx(stack.facts.board_feet / ONE_BOARD_FOOT, rel=1e-3)


def _whole(plan: Plan) -> None:
    found = plans.plan(write(plan))
    read = page(found)
    assert read.unclosed == []
    for title in ("None", "nan", "inf"):
        assert re.search(rf"\b{title}\b", read.text) is None or title in write(plan)
    articles = [found["id"] for tag, found in read.elements if tag == "article"]
    assert len(articles) == len(set(articles)) == len(found.stacks)


@settings(max_examples=8)
@given(random_plans.plans())
def test_any_plan_has_its_sheet(plan: Plan) -> None:
    _whole(plan)


@pytest.mark.slow
@settings(max_examples=300)
@given(random_plans.plans())
def test_any_of_many_plans_has_its_sheet(plan: Plan) -> None:
    _whole(plan)
