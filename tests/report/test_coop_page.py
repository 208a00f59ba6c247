"""The page of a co-op says of each stack what its check says, and draws what stands where on the days it tells."""

from __future__ import annotations

import base64
import datetime
import hashlib
import re
from collections.abc import Sequence
from itertools import pairwise

import pytest
import sheet_plans as plans
from hypothesis import given, settings
from hypothesis import strategies as st
from made_forecasts import START, checked, forecast, plan
from read_page import ReadPage, rows

from stacklint.checked import CheckedPlan
from stacklint.checking import check
from stacklint.drying.forecast import Forecast, NoForecast, Pace
from stacklint.files import Trouble
from stacklint.findings import Level
from stacklint.language import UsedText
from stacklint.plan.node import Name
from stacklint.plan.shelter import PlaceKind, PlaceStatement
from stacklint.plan.stack import Day, StackKind
from stacklint.report.by_stack import by_stack
from stacklint.report.coop_calendar import Bar, Calendar, calendar
from stacklint.report.coop_page import coop_html
from stacklint.report.coop_plan import CoopPlan, CoopStack, Ready, coop_plan
from stacklint.report.coop_standing import Standing, clashes, near_clashes, standings, together
from stacklint.report.kept import kept
from stacklint.show import show
from stacklint.units import VOLUME, System
from stacklint.yard.presence import presences
from stacklint.yard.stay import Spot, SpotKind, Stay

ALL = sorted(
    path.relative_to(plans.EXAMPLES).with_suffix("").as_posix() for path in plans.EXAMPLES.rglob("*.stackplan")
)
CAPTION = "Stacks, what is found in them, and when they are ready"
DAY = datetime.timedelta(days=1)
ROW = Spot(SpotKind.SPOT, "row 3")


def kept_plan(checked: CheckedPlan, sheet: str | None = None) -> CoopPlan:
    return coop_plan(kept(checked), sheet)


def page(*found: CheckedPlan, troubles: Sequence[Trouble] = (), sheet: str | None = None) -> ReadPage:
    return ReadPage(coop_html([kept_plan(each, sheet) for each in found], troubles, plans.TODAY))


def table(*found: CheckedPlan, sheet: str | None = None) -> list[dict[str, str]]:
    return rows(page(*found, sheet=sheet), CAPTION)


def examples() -> list[CheckedPlan]:
    """All of them, each under its own name."""
    texts = [(name, (plans.EXAMPLES / f"{name}.stackplan").read_text(encoding="utf-8")) for name in ALL]
    return [
        check(text, f"{name}.stackplan", today=plans.TODAY, use=lambda name, _: UsedText(name, plans.YARD))
        for name, text in texts
    ]


# The table


def test_each_stack_of_the_examples_has_a_line_with_as_many_findings_as_its_check() -> None:
    found = examples()
    wanted = [
        (stack.stack.name.text, *(str(sum(each.level is level for each in findings)) for level in Level))
        for each in found
        for stack, findings in zip(each.stacks, by_stack(each).values(), strict=False)
    ]
    assert len(wanted) > 20
    lines = table(*found)
    shown = [(line["Stack"].split()[0], line["Errors"], line["Warnings"], line["Notes"]) for line in lines]
    assert shown == [(name.split()[0], *counts) for name, *counts in wanted]
    assert sum(int(line[f"{level.value.capitalize()}s"]) for line in lines for level in Level) == sum(
        len(each.findings) for each in found
    )


def test_a_line_tells_where_the_pile_stands_what_it_holds_and_when_it_is_ready_and_wanted() -> None:
    found = plans.example("sound-pile")
    made = found.stacks[0].forecast
    assert isinstance(made, Forecast)
    fast, likely, slow = (made.ready(pace) for pace in Pace)
    (line,) = table(found)
    assert line == {
        "Plan": "plan.stackplan",
        "Stack": "Ash 1 Ash for flooring",
        "Kind": "pile",
        "Place or kiln": "open yard, Larch Bottom",
        "Spot": "north row 3",
        "Species": "white ash",
        "Volume": "512 bf",
        "Errors": "0",
        "Warnings": "0",
        "Notes": line["Notes"],
        "Worst": "nothing to change" if line["Notes"] == "0" else "note",
        "Ready": f"{likely} ({fast} to {slow})",
        "Wanted by": "2027-05-01",
    }


def test_a_charge_is_told_with_its_kiln() -> None:
    (line,) = table(plans.example("sound-charge"))
    assert (line["Kind"], line["Place or kiln"], line["Spot"]) == ("charge", "Lower box", "")


def test_the_worst_state_is_that_of_the_gravest_finding() -> None:
    (line,) = table(plans.example("first-plan"))
    assert line["Worst"] == "error"
    assert int(line["Errors"]) > 0


def test_what_is_wrong_in_a_plan_as_a_whole_has_a_line_of_its_own() -> None:
    found = plans.plan("pille A\n")
    assert not found.stacks
    (line,) = table(found)
    assert (line["Stack"], line["Kind"]) == ("the plan as a whole", "plan")
    assert int(line["Errors"]) == len(found.findings) > 0


def test_a_stack_that_could_not_be_reckoned_says_so_and_tells_its_faults() -> None:
    found = plans.plan(plans.BROKEN)
    read = page(found)
    assert "Not reckoned: what is wrong in its text comes first." in read.text
    (line,) = rows(read, CAPTION)
    assert (line["Volume"], line["Ready"], line["Species"]) == ("", "not forecast", "white ahs")


def test_a_metric_plan_is_told_in_cubic_metres() -> None:
    found = plans.plan(plans.METRIC)
    facts = found.stacks[0].facts
    assert facts is not None and facts.volume is not None
    (line,) = table(found)
    assert line["Volume"] == show(facts.volume, VOLUME, System.METRIC)


def test_boards_that_are_not_dry_in_three_years_are_said_to_be_so() -> None:
    (line,) = table(plan(checked(forecast(wanted=0.05))))
    assert line["Ready"] == "not in 3 years"


def test_a_stack_of_which_nothing_is_wanted_has_no_day_on_which_it_is_ready() -> None:
    lines = table(plans.example("families/overloads-mended"))
    assert lines[0]["Ready"] == "nothing wanted"


def test_a_pile_of_another_plan_is_known_again_however_its_path_is_written() -> None:
    lent = (plans.EXAMPLES / "drying" / "oak-in-april.stackplan").read_text(encoding="utf-8")
    charge = """use "oak.stackplan"

charge "Oak" in kiln "Lower box"
  starts 2026-09-01
  runs at 110 F 60%
  from pile "Oak, April"
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/2 in, every 24 in, dry, 4 ft long
  want 7%
"""

    def use(name: str, _: str) -> UsedText:
        return UsedText(name.removeprefix("../"), lent if "oak" in name else plans.YARD)

    pile = check(lent, "./oak.stackplan", today=plans.TODAY, use=use)
    taking = check(charge, "charge.stackplan", today=plans.TODAY, use=use)
    read = page(pile, taking)
    assert "2 plans, 2 stacks (1 pile, 1 charge), 384 bf:" in read.text
    assert "2026-04-08 to 2026-09-01, when charge Oak takes its boards" in read.text


# The findings below it


def test_every_finding_stands_below_with_its_words_under_the_anchor_of_its_line() -> None:
    found = plans.example("first-plan")
    html = coop_html([kept_plan(found)], (), plans.TODAY)
    read = ReadPage(html)
    for finding in found.findings:
        assert " ".join(finding.message.split()) in read.text
        assert " ".join(finding.instead.split()) in read.text
    anchors = [given["href"] for tag, given in read.elements if tag == "a" and given["href"].startswith("#")]
    ids = {given["id"] for _, given in read.elements if "id" in given}
    assert {anchor[1:] for anchor in anchors} <= ids
    told = html[html.index('<article id="stack-1"') :]
    assert told[: told.index("</article>")].count("<li ") == len(found.findings)


def test_what_is_waived_stands_with_its_reason_and_is_not_counted() -> None:
    found = plans.plan(plans.SEVERAL)
    assert found.waived
    read = page(found)
    assert "no-stickers: only till Friday (until 2026-09-01)." in read.text


def test_what_could_not_be_read_is_told() -> None:
    read = page(troubles=[Trouble("gone.stackplan", "there is no such file or folder")])
    assert "gone.stackplan : there is no such file or folder" in read.text
    assert "There is no stack to show." in read.text
    assert not [tag for tag, _ in read.elements if tag in ("script", "table")]


# The totals


def test_boards_that_a_charge_takes_from_a_pile_are_counted_once() -> None:
    lines = table(found := plans.example("drying/promised-mended"))
    assert [line["Volume"] for line in lines] == ["432 bf", "432 bf"]
    read = page(found)
    assert "1 plan, 2 stacks (1 pile, 1 charge), 432 bf:" in read.text
    assert rows(read, "By species")[0] == {"Species": "sugar maple", "Stacks": "2", "Volume": "432 bf"}
    assert "counted once" in read.text


def test_the_totals_add_up_to_the_lines() -> None:
    found = examples()
    read = page(*found)
    states = rows(read, "By state")
    assert sum(int(each["Lines"]) for each in states) == len(rows(read, CAPTION))
    facts = [stack.facts for each in found for stack in each.stacks]
    # The charge of promised-*.stackplan takes the boards of the pile before it.
    volume = sum(each.board_feet or 0.0 for each in facts if each is not None)
    volume -= sum(
        stack.facts.board_feet or 0.0
        for each in found
        for stack in each.stacks
        if stack.stack.from_piles and stack.facts
    )
    shown = {row["Species"]: row["Volume"] for row in rows(read, "By species")}["all"]
    assert shown == show(volume, VOLUME, System.INCH)


def test_plans_in_inches_and_in_metres_are_added_up_in_both() -> None:
    read = page(plans.example("sound-pile"), plans.plan(plans.METRIC))
    assert re.search(r"2 stacks \(2 piles, 0 charges\), [\d,]+ bf \([\d.]+ m3\):", read.text)


# Sheets


def test_each_line_links_to_its_own_build_sheet() -> None:
    read = page(plans.plan(plans.SEVERAL), sheet="sheets/plan.html")
    links = [given["href"] for tag, given in read.elements if tag == "a" and given["href"].startswith("sheets/")]
    lines = [stack.stack.where.line for stack in plans.plan(plans.SEVERAL).stacks]
    assert set(links) == {f"sheets/plan.html#stack-{line}" for line in lines}


def test_without_sheets_there_is_no_link_and_no_column() -> None:
    read = page(plans.plan(plans.SEVERAL))
    assert "Sheet" not in read.tables[CAPTION][0]
    assert "Build sheet" not in read.text


# Names are text


def test_names_that_look_like_markup_stay_names() -> None:
    found = plans.plan(plans.HOSTILE)
    trouble = Trouble("<img src=x onerror=alert(6)>.stackplan", "<b>")
    evil = found._replace(path='"><script>alert(7)</script>.stackplan')
    read = page(evil, troubles=[trouble])
    assert [tag for tag, _ in read.elements].count("script") == 1
    assert not {tag for tag, _ in read.elements} & {"img", "b"}
    assert not [name for _, given in read.elements for name in given if name.startswith("on")]
    assert rows(read, CAPTION)[0]["Stack"].startswith("<script>alert(2)</script>")
    assert "<img src=x onerror=alert(6)>.stackplan : <b>" in read.text


@settings(max_examples=60)
@given(st.text(max_size=40), st.text(max_size=40))
def test_no_name_breaks_the_page(name: str, spot: str) -> None:
    made = checked(forecast(), name, stacked=Day(date=START), spot=Name(text=spot), title=name)
    read = page(plan(made, made))
    assert read.unclosed == []
    assert len(rows(read, CAPTION)) == 2


def test_the_script_is_the_one_that_the_page_s_policy_lets_run() -> None:
    html = coop_html([kept_plan(plans.example("sound-pile"))], (), plans.TODAY)
    (script,) = re.findall("<script>(.*?)</script>", html, re.DOTALL)
    digest = base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()
    assert (
        f"default-src 'none'; style-src 'unsafe-inline'; img-src data:; script-src 'sha256-{digest}'"
        in html.replace("&#39;", "'")
    )


def test_a_page_of_hundreds_of_plans_stays_small() -> None:
    one = kept_plan(plans.example("first-plan"))
    many = [one._replace(path=f"p{number}.stackplan") for number in range(300)]
    assert len(coop_html(many, (), plans.TODAY)) < 300 * 8000


# The months


def standing(
    name: str,
    start: datetime.date,
    likely: datetime.date | None,
    *,
    spot: Spot = ROW,
    spread: int = 10,
    said: bool = True,
) -> CoopStack:
    """A pile that is ready on a day, or in all the time looked at never, give or take some days."""
    fast = max(start, likely - spread * DAY) if likely else None
    slow = likely + spread * DAY if likely else None
    stay = Stay(spot, start, said, True, fast, likely, slow)
    ready = Ready(likely, str(likely), str(fast), str(slow)) if likely else Ready(None, "not in 3 years")
    return CoopStack(
        StackKind.PILE, name, None, 1, "open yard", spot.name, (), (), None, ready, None, stay, (), (), reckoned=True
    )


def drawn(*stacks: CoopStack, today: datetime.date = plans.TODAY) -> Calendar:
    anchors = [f"stack-{number}" for number in range(1, len(stacks) + 1)]
    there = [
        Standing(anchor, stack, stack.stay)
        for anchor, stack in zip(anchors, stacks, strict=True)
        if stack.stay is not None
    ]
    undated = {anchor for anchor, stack in zip(anchors, stacks, strict=True) if stack.stay is None}
    made = calendar(there, today, frozenset(undated))
    assert made is not None
    return made


def bars(made: Calendar) -> list[Bar]:
    return [bar for part in made.parts for picture in part.pictures for bar in picture.bars]


def day(text: str) -> datetime.date:
    return datetime.date.fromisoformat(text)


def test_a_bar_stands_to_scale_from_the_day_of_stacking_to_the_latest_day_on_which_it_may_be_ready() -> None:
    made = drawn(standing("Oak", day("2026-02-11"), day("2026-04-01")))
    assert (made.first, made.last) == (day("2026-02-01"), day("2026-05-01"))
    (bar,) = bars(made)
    assert bar.sure is not None and bar.range is not None and bar.likely is not None
    per_day = 100 / 89  # February to April 2026 have 89 days.
    assert bar.sure.x == pytest.approx(10 * per_day, abs=0.01)
    assert bar.sure.x + bar.sure.width == pytest.approx(49 * per_day, abs=0.01)  # 22 March
    assert bar.likely == pytest.approx(59 * per_day, abs=0.01)
    assert bar.range.x + bar.range.width == pytest.approx(69 * per_day, abs=0.01)  # 11 April
    assert not bar.open
    assert bar.words == "2026-02-11 to 2026-04-01 (2026-03-22 to 2026-04-11)"


def test_the_months_are_marked_at_their_first_days() -> None:
    made = drawn(standing("Oak", day("2026-02-11"), day("2026-04-01")))
    assert made.months == pytest.approx([0, 28 / 89 * 100, 59 / 89 * 100], abs=0.01)
    assert [(tick.month, tick.year) for tick in made.many] == [("Feb", "2026"), ("Mar", ""), ("Apr", "")]


def test_a_year_is_named_where_it_begins() -> None:
    made = drawn(standing("Oak", day("2026-11-11"), day("2027-02-01")))
    assert [(tick.month, tick.year) for tick in made.many] == [
        ("Nov", "2026"), ("Dec", ""), ("Jan", "2027"), ("Feb", ""),
    ]  # fmt: skip


def test_a_pile_that_is_never_ready_goes_on_past_the_picture() -> None:
    made = drawn(standing("Oak", day("2026-02-11"), None), standing("Ash", day("2026-02-11"), day("2026-08-01")))
    oak = next(bar for bar in bars(made) if bar.name == "Oak")
    assert oak.open
    assert oak.sure is not None and oak.sure.x + oak.sure.width == pytest.approx(100)
    assert oak.words == "from 2026-02-11; ready not in 3 years"


def test_piles_that_follow_each_other_in_a_spot_are_not_together() -> None:
    first = standing("Oak", day("2026-02-11"), day("2026-04-01"), spread=0)
    made = drawn(first, standing("Ash", day("2026-04-01"), day("2026-06-01"), spread=0))
    assert [bar.together for bar in bars(made)] == [(), ()]
    assert made.parts[0].pictures[0].spots[0].clashes == ()


def test_two_piles_in_one_spot_at_one_time_are_told_and_marked() -> None:
    made = drawn(
        standing("Oak", day("2026-02-11"), day("2026-04-01")),
        standing("Ash", day("2026-03-01"), day("2026-06-01"), spot=Spot(SpotKind.SPOT, "ROW 3")),
    )
    ash = bars(made)[1]
    assert ash.together == ("together with 1, Oak from 2026-03-01 to 2026-04-01",)
    (clash,) = made.parts[0].pictures[0].spots[0].clashes
    assert ash.sure is not None
    assert clash.x == ash.sure.x
    assert clash.x + clash.width == pytest.approx(bars(made)[0].likely)


def test_a_pile_that_may_still_stand_there_is_perhaps_together_with_the_next() -> None:
    made = drawn(
        standing("Oak", day("2026-02-11"), day("2026-04-01")), standing("Ash", day("2026-04-05"), day("2026-06-01"))
    )
    assert bars(made)[1].together == ("perhaps together with 1, Oak",)
    assert made.parts[0].pictures[0].spots[0].clashes == ()


def test_a_pile_whose_day_is_not_said_is_only_perhaps_together_with_another() -> None:
    made = drawn(
        standing("Oak", day("2026-02-11"), day("2026-04-01")),
        standing("Ash", day("2026-03-01"), day("2026-06-01"), said=False),
    )
    ash = bars(made)[1]
    assert ash.together == ("perhaps together with 1, Oak",)
    assert "its day is not said" in ash.words


def test_piles_without_a_spot_stand_side_by_side() -> None:
    nowhere = Spot(SpotKind.YARD, "open yard")
    stacks = [standing(name, day("2026-02-11"), day("2026-04-01"), spot=nowhere) for name in ("Oak", "Ash")]
    made = drawn(*stacks)
    assert [bar.together for bar in bars(made)] == [(), ()]
    assert made.parts[0].heading == "Stacks without a spot"


def test_spots_of_one_name_on_two_sites_are_two() -> None:
    stacks = [
        standing(site, day("2026-02-11"), day("2026-04-01"), spot=Spot(SpotKind.SPOT, "row 3", site))
        for site in ("Larch Bottom", "Cold Hollow")
    ]
    made = drawn(*stacks)
    assert [part.heading for part in made.parts] == ["Spots, Cold Hollow", "Spots, Larch Bottom"]
    assert not any(bar.together for bar in bars(made))


def test_rows_come_in_the_order_of_their_numbers() -> None:
    stacks = [
        standing("Oak", day("2026-02-11"), day("2026-04-01"), spot=Spot(SpotKind.SPOT, f"row {number}"))
        for number in (10, 9, 1)
    ]
    spots = drawn(*stacks).parts[0].pictures[0].spots
    assert [spot.name for spot in spots] == ["row 1", "row 9", "row 10"]


def test_a_pile_stands_until_a_charge_takes_its_boards() -> None:
    found = plans.example("drying/promised-mended")
    read = page(found)
    assert "2026-03-03 to 2026-10-01, when charge Maple in the box takes its boards" in read.text
    told = kept_plan(found)
    anchors = [f"stack-{number}" for number in range(1, len(told.stacks) + 1)]
    there = standings(tuple(zip(anchors, told.stacks, presences([told.yard]), strict=True)))
    made = calendar(tuple(there), plans.TODAY, frozenset())
    assert made is not None
    maple = next(bar for bar in bars(made) if bar.name == "Maple")
    scale = (made.last - made.first).days
    assert maple.sure is not None and maple.range is None
    assert maple.sure.x + maple.sure.width == pytest.approx(
        (day("2026-10-01") - made.first).days / scale * 100, abs=0.02
    )


def test_a_stack_without_a_forecast_is_drawn_from_its_day_on() -> None:
    none = NoForecast("It is not said where the pile stands.", "Add a place.")
    (stack,) = kept_plan(plan(checked(none, stacked=Day(date=START)))).stacks
    (bar,) = bars(made := drawn(stack))
    assert bar.words == "from 2026-04-02; when it is ready is not forecast"
    assert bar.sure is None and bar.range is not None
    assert made.undated == frozenset()


def test_a_stack_of_which_no_day_is_known_is_named_below_the_picture() -> None:
    none = NoForecast("It is not said where the pile stands.", "Add a place.")
    read = page(plan(checked(forecast(), "Ash"), checked(none, "Oak")))
    assert "Not in the picture, for want of a day: Oak (b2.stackplan)." in read.text


WANTING_NOTHING = """
site "Cold Hollow"
  near "Burlington, VT"

pile "Oak"
  place open yard
  spot "row 3"
  stacked 2026-02-11
  boards a: 40 of white oak 4/4 x 6 in x 8 ft, green
  stack 8 ft x 4 ft
"""


def test_a_pile_that_nothing_is_wanted_of_stands_on() -> None:
    found = plans.plan(WANTING_NOTHING)
    assert isinstance(found.stacks[0].forecast, Forecast)
    made = drawn(*kept_plan(found).stacks, standing("Ash", day("2027-02-11"), day("2027-08-01")))
    oak = next(bar for bar in bars(made) if bar.name == "Oak")
    assert oak.open
    assert oak.sure is not None and oak.sure.x + oak.sure.width == pytest.approx(100)
    assert oak.words == "from 2026-02-11 on; nothing is wanted of it"
    (line,) = table(found)
    assert line["Ready"] == "nothing wanted"


def test_a_spot_of_a_pile_that_names_no_site_is_on_the_only_one_of_its_plan() -> None:
    named = plans.plan(WANTING_NOTHING.replace("open yard", 'open yard, site "Cold Hollow"').replace('"Oak"', '"Ash"'))
    told = [kept_plan(each).stacks[0] for each in (plans.plan(WANTING_NOTHING), named)]
    made = drawn(*told)
    assert [part.heading for part in made.parts] == ["Spots, Cold Hollow"]
    assert [bool(bar.together) for bar in bars(made)] == [False, True]
    two = WANTING_NOTHING.replace('pile "Oak"', 'site "Other"\n  near "Portland, ME"\n\npile "Oak"')
    (stack,) = kept_plan(plans.plan(two)).stacks
    assert stack.stay is None or stack.stay.spot.within == ""


def test_days_on_which_two_may_meet_if_they_dry_slowly_are_marked_apart_from_those_on_which_they_likely_do() -> None:
    made = drawn(
        standing("Oak", day("2026-02-11"), day("2026-04-01"), spread=20),
        standing("Ash", day("2026-03-12"), day("2026-06-01"), spread=0),
    )
    shown = made.parts[0].pictures[0].spots[0]
    (likely,), (near,) = shown.clashes, shown.near
    oak = bars(made)[0]
    assert oak.range is not None
    assert likely.x + likely.width == pytest.approx(oak.likely) == pytest.approx(near.x)
    assert near.x + near.width == pytest.approx(oak.range.x + oak.range.width)


def test_the_picture_of_the_months_is_titled_and_described() -> None:
    html = coop_html([kept_plan(plans.example("sound-pile"))], (), plans.TODAY)
    title, desc = re.findall(r'<(?:title|desc) id="(months-1-1-\w+)">', html)
    assert f'aria-labelledby="{title} {desc}"' in html
    assert re.search(r"<title id=[^>]*>Spots, Larch Bottom, month by month</title>", html)
    assert re.search(r"<desc id=[^>]*>1 bar over the months from [\d-]+ to [\d-]+\. The list below", html)


def test_volumes_are_told_in_the_units_of_most_plans_and_those_of_others_in_a_title() -> None:
    metric = plans.plan(plans.METRIC)
    inch = plans.example("sound-pile")
    lines = table(inch, inch, metric)
    assert all(line["Volume"].endswith(" bf") for line in lines)
    lines = table(inch, metric, metric)
    assert all(line["Volume"].endswith(" m3") for line in lines)
    html = coop_html([kept_plan(each) for each in (inch, metric, metric)], (), plans.TODAY)
    assert '<span title="512 bf in its plan">' in html
    assert "m3 in its plan" not in html


def test_today_is_marked_where_it_is_among_the_months() -> None:
    stack = standing("Oak", day("2026-02-01"), day("2026-04-01"))
    assert drawn(stack, today=day("2026-03-01")).today == pytest.approx(28 / 89 * 100, abs=0.01)
    assert drawn(stack, today=day("2027-03-01")).today is None


def test_a_pile_from_long_ago_does_not_squeeze_the_others() -> None:
    made = drawn(
        standing("Old", day("1926-02-01"), day("1926-09-01"), spot=Spot(SpotKind.SPOT, "barn")),
        standing("Oak", day("2026-02-11"), day("2026-04-01")),
    )
    assert made.cut
    assert (made.last - made.first).days < 5 * 366
    old, oak = bars(made)
    assert old.x is None
    assert oak.sure is not None and oak.sure.width > 1


@pytest.mark.parametrize("text", ["0001-01-01", "9999-12-31"])
def test_the_first_and_the_last_day_that_there_are_can_be_drawn(text: str) -> None:
    stack = standing("Oak", day(text), None)
    for today in (day(text), plans.TODAY):
        assert drawn(stack, today=today).parts


@st.composite
def stays(draw: st.DrawFn) -> list[CoopStack]:
    made = []
    for number in range(draw(st.integers(1, 40))):
        start = START + draw(st.integers(0, 400)) * DAY
        likely = draw(st.one_of(st.none(), st.integers(0, 300).map(lambda days, start=start: start + days * DAY)))
        spot = Spot(SpotKind.SPOT, f"row {draw(st.integers(1, 3))}")
        said = draw(st.booleans())
        made.append(standing(f"P{number}", start, likely, spot=spot, spread=draw(st.integers(0, 60)), said=said))
    return made


@settings(max_examples=150)
@given(stays())
def test_no_two_bars_of_a_picture_lie_on_each_other_and_none_leaves_it(stacks: list[CoopStack]) -> None:
    made = drawn(*stacks)
    found = bars(made)
    assert sorted(bar.number for bar in found) == list(range(1, len(stacks) + 1))
    for part in made.parts:
        for picture in part.pictures:
            taken: dict[int, list[tuple[float, float]]] = {}
            for bar in picture.bars:
                assert 30 <= bar.y < picture.height <= 330
                for span in (bar.sure, bar.range):
                    if span is not None:
                        assert 0 <= span.x <= span.x + span.width <= 100.001
                        taken.setdefault(bar.y, []).append((span.x, span.x + span.width))
            for stretches in taken.values():
                stretches.sort()
                assert all(left[1] <= right[0] + 0.011 for left, right in pairwise(stretches))


@settings(max_examples=150)
@given(stays())
def test_a_clash_is_marked_on_just_the_days_on_which_two_or_more_are_likely_there(stacks: list[CoopStack]) -> None:
    group = [Standing(f"stack-{i}", stack, stack.stay) for i, stack in enumerate(stacks) if stack.stay is not None]
    days = range(START.toordinal() - 1, START.toordinal() + 800)
    marked = list(clashes(group))
    for each in days:
        there = sum(start <= each < end for start, end in (one.surely for one in group))
        assert (there >= 2) is any(start <= each < end for start, end in marked)


@settings(max_examples=150)
@given(stays())
def test_days_that_may_clash_and_days_that_likely_do_never_overlap(stacks: list[CoopStack]) -> None:
    group = [Standing(f"stack-{i}", stack, stack.stay) for i, stack in enumerate(stacks) if stack.stay is not None]
    likely, near = list(clashes(group)), list(near_clashes(group))
    for each in range(START.toordinal() - 1, START.toordinal() + 800):
        there = sum(start <= each < end for start, end in (one.perhaps for one in group))
        in_likely = any(start <= each < end for start, end in likely)
        in_near = any(start <= each < end for start, end in near)
        assert in_near is (there >= 2 and not in_likely)


@settings(max_examples=150)
@given(stays())
def test_every_two_that_are_likely_together_are_told_or_counted(stacks: list[CoopStack]) -> None:
    group = sorted(
        (Standing(f"stack-{i}", stack, stack.stay) for i, stack in enumerate(stacks) if stack.stay is not None),
        key=lambda each: each.perhaps,
    )
    for index, (each, words) in enumerate(zip(group, together(group), strict=True)):
        others = sum(other.perhaps[1] > each.perhaps[0] for other in group[:index])
        named = sum("together with" in said for said in words)
        more = sum(int(said.split()[2]) for said in words if said.endswith(" more"))
        assert named + more == others
        assert named == min(others, 3)


def test_the_site_of_a_place_and_a_spot_are_told_apart() -> None:
    place = PlaceStatement(kind=PlaceKind.OPEN_SHED, said="carport", site=Name(text="Cold Hollow"))
    made = checked(forecast(), place=place, spot=Name(text="left"), stacked=Day(date=START))
    (line,) = table(plan(made))
    assert (line["Place or kiln"], line["Spot"]) == ("carport, Cold Hollow", "left")
