"""What the plan does not say and no table holds is told, with the rules that could not be judged for want of it."""

from __future__ import annotations

import datetime

import pytest

from stacklint.checking import check
from stacklint.findings import Finding

TODAY = datetime.date(2026, 6, 1)
SITE = 'site "Larch Bottom"\n  near "Columbus, OH"\n'
BUILT = "stack 16 ft x 4 ft", "stickers 3/4 in x 1 1/4 in, every 24 in, dry"
DAYS = "sawn 2026-03-30", "stacked 2026-04-01"
ASH = "boards a: 60 of white ash 4/4 x 6 in x 8 ft, green"
BASSWOOD = "boards a: 60 of American basswood 4/4 x 6 in x 8 ft, green"
IRONBARK = "boards a: 60 of ironbark 4/4 x 6 in x 8 ft, green"
STRANGE = 'wood "ironbark"\n  specific gravity 0.8\n  green moisture 60%\n'
WHOLE = (
    "type vented",
    "inside 20 ft x 8 ft x 8 ft",
    "holds 1500 bf",
    "carries 9000 lb",
    "heats to 160 F",
    "fans 2 of 900 cfm",
    "plenum 18 in",
)


def pile(*said: str, before: str = SITE) -> list[Finding]:
    return notes(f'{before}pile "A"\n' + "".join(f"  {line}\n" for line in (*said, *BUILT)))


def charge(*said: str, kiln: tuple[str, ...] = WHOLE) -> list[Finding]:
    head = 'kiln "Box"\n' + "".join(f"  {line}\n" for line in kiln)
    lines = "".join(f"  {line}\n" for line in ("starts 2026-06-10", *said, *BUILT))
    return notes(f'{head}charge "A" in kiln "Box"\n{lines}')


def notes(text: str) -> list[Finding]:
    return [each for each in check(text, today=TODAY).findings if each.rule == "not-judged"]


def told(found: list[Finding]) -> list[str]:
    return [each.message for each in found]


@pytest.mark.parametrize(
    ("left_out", "words"),
    [
        ("type", "of what type it is: airflow-too-slow is not judged"),
        ("inside", "how large it is inside: stack-too-big-for-kiln is not judged"),
        ("holds", "what it holds: kiln-overfull is not judged"),
        ("carries", "what it carries: kiln-overweight is not judged"),
        ("fans", "what its fans move: airflow-too-slow and baffle-missing are not judged"),
        ("plenum", "how wide its plenum is: plenum-too-narrow and stack-too-big-for-kiln are not judged"),
    ],
)
def test_what_a_kiln_does_not_say_is_told_with_what_cannot_be_judged(left_out: str, words: str) -> None:
    kiln = tuple(line for line in WHOLE if not line.startswith(left_out))
    (note,) = charge(ASH, "baffles top, ends, floor", kiln=kiln)
    assert note.message == f"Kiln Box does not say {words}."
    assert note.instead == f"Say it in the plan ({left_out})."


def test_all_that_a_kiln_does_not_say_is_one_note() -> None:
    (note,) = charge(ASH, kiln=("type vented",))
    assert note.message.count("not judged") == 1
    assert note.message.startswith("Kiln Box does not say what its fans move, how wide its plenum is,")


def test_of_a_kiln_that_says_everything_nothing_is_told() -> None:
    assert charge(ASH, "baffles top, ends, floor") == []


def test_of_a_kiln_of_other_words_nothing_is_told_that_a_fault_tells_already() -> None:
    kiln = (*WHOLE[:2], "holds plenty", *WHOLE[3:])
    assert charge(ASH, "baffles top, ends, floor", kiln=kiln) == []


def test_boards_alone_too_wide_for_the_kiln_need_no_plenum_to_be_judged() -> None:
    kiln = ("inside 20 ft x 3 ft x 8 ft", *(line for line in WHOLE if not line.startswith(("plenum", "inside"))))
    head = 'kiln "Box"\n' + "".join(f"  {line}\n" for line in kiln)
    text = f'{head}charge "A" in kiln "Box"\n' + "".join(f"  {line}\n" for line in (ASH, *BUILT))
    assert "stack-too-big-for-kiln" in {each.rule for each in check(text, today=TODAY).findings}


def test_how_long_the_boards_are_kept_hot_must_be_said_to_be_judged() -> None:
    (note,) = charge(ASH, "baffles top, ends, floor", "sterilize")
    assert note.message == "It is not said how long the boards are kept hot: kiln-cannot-sterilize is not judged."
    assert charge(ASH, "baffles top, ends, floor", "hold 150 F for 24 h") == []


def test_a_kiln_that_does_not_say_its_heat_may_not_get_as_hot_as_is_asked() -> None:
    kiln = tuple(line for line in WHOLE if not line.startswith("heats"))
    (note,) = charge(ASH, "baffles top, ends, floor", "hold 150 F for 24 h", kiln=kiln)
    assert note.message == "Kiln Box does not say how hot it gets: kiln-cannot-sterilize is not judged."


def test_of_a_pile_without_a_site_it_is_told_that_its_season_cannot_be_judged() -> None:
    assert told(pile(BASSWOOD, *DAYS, before="")) == [
        "It is not said at which site it stands: season-for-stain is not judged."
    ]
    assert told(pile(BASSWOOD, before="")) == [
        "It is not said when the pile is stacked or at which site it stands: season-for-stain is not judged."
    ]
    assert pile(BASSWOOD, *DAYS) == []
    assert pile(ASH, before="") == []


def test_a_site_that_is_near_nothing_is_no_site_to_judge_the_season_by() -> None:
    (note,) = pile(BASSWOOD, *DAYS, before='site "Larch Bottom"\n')
    assert note.message == "The air at site Larch Bottom is not known: season-for-stain is not judged."
    assert note.instead.startswith("Say which place it is near")


def test_a_pile_with_its_day_but_not_that_of_the_saw_may_have_lain_too_long() -> None:
    (note,) = pile(ASH, "stacked 2026-04-01")
    assert note.message == "It is not said when the boards were sawn: slow-to-stack is not judged."
    (note,) = pile(ASH, "sawn 2026-04-01")
    assert note.message == "It is not said when the pile is stacked: slow-to-stack is not judged."
    assert pile(ASH.replace("green", "20%"), "stacked 2026-04-01") == []


def test_why_nothing_is_forecast_is_told_once() -> None:
    assert pile(ASH, *DAYS, "want 14% by 2027-01-01", before="") == []
    assert pile(ASH.replace("green", "12%"), "want 14%", before="") == []


def test_of_a_cover_without_slope_and_gap_neither_is_judged() -> None:
    (note,) = pile(ASH, *DAYS, "cover sheet metal, overhang 12 in, tied")
    assert note.message == (
        "It is not said what air is left over the top course or how the cover slopes: "
        "cover-on-boards and cover-flat are not judged."
    )


def test_a_reading_of_a_wood_without_a_safe_daily_loss_cannot_be_too_fast() -> None:
    (note,) = pile(BASSWOOD, *DAYS, "reading 2026-05-01 20%")
    assert note.message == "No table says how much American basswood may lose in a day: dried-too-fast is not judged."
    assert note.instead == "Say in a wood block which wood it is like (like)."


def test_a_schedule_for_a_wood_without_a_published_one_cannot_be_too_harsh() -> None:
    found = charge(ASH.replace("white ash", "honeylocust"), "baffles top, ends, floor", "schedule T8-D4")
    assert "by what kiln schedule honeylocust is dried" in " ".join(told(found))
    assert "schedule-too-harsh" in " ".join(told(found))


def test_of_a_wood_that_only_the_plan_knows_it_is_told_what_no_table_says() -> None:
    (note,) = pile(IRONBARK, *DAYS, "ends bare", before=STRANGE + SITE)
    assert "whether ironbark checks" in note.message
    assert "ends-bare" in note.message and "season-for-checks" in note.message
    like = STRANGE + "  like white oak\n"
    assert pile(IRONBARK, *DAYS, "ends coated", before=like + SITE) == []


def test_that_a_wood_is_taken_to_dry_as_another_is_told() -> None:
    text = STRANGE + 'pile "A"\n' + "".join(f"  {line}\n" for line in (IRONBARK, *BUILT))
    said = [each.message for each in check(text, today=TODAY).findings if each.rule == "assumed"]
    assert "How ironbark dries is not known: it is taken to dry as pignut hickory, the nearest in weight." in said


@pytest.mark.parametrize(
    ("bearers", "section"), [("1 in x 4 in of white oak", "1 in x 4 in of white oak"), ("steel", "steel")]
)
def test_bearers_that_no_table_has_are_not_passed_in_silence(bearers: str, section: str) -> None:
    """The design values begin with lumber of a nominal 2 in (NDS Supplement Tables 4A and 4B)."""
    said = f"bearers {bearers}, every 24 in, on 8 in x 16 in pads"
    (note,) = pile(ASH.replace("green", "18%"), said)
    assert note.message.startswith("No table says what bearers of ")
    assert section in note.message and note.message.endswith("carry: bearer-overloaded is not judged.")


def test_it_can_be_waived_like_any_other_note() -> None:
    text = f'pile "A"\n  {BASSWOOD}\n  stack 16 ft x 4 ft\n  {BUILT[1]}\n  waive not-judged because "a first look"\n'
    checked = check(text, today=TODAY)
    assert [each.finding.rule for each in checked.waived] == ["not-judged"]
    assert not {"not-judged", "waiver-unused"} & {each.rule for each in checked.findings}


def test_what_lacks_stands_where_it_would_be_said() -> None:
    said = BASSWOOD, *DAYS, 'place open yard, site "Larch Bottom"'
    (note,) = pile(*said, before='site "Larch Bottom"\n')
    assert note.where.line == 2 + len(said)
    (note,) = pile(BASSWOOD, *DAYS, before='site "Larch Bottom"\n')
    assert note.where.line == 2
