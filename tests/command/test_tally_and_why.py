"""``stacklint tally`` reckons a plan, ``stacklint why`` tells of rules."""

import json
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest

from stacklint.command.main import main
from stacklint.language import read
from stacklint.rulebook import builtin

CASES = Path(__file__).parent.parent / "rules"
pytestmark = pytest.mark.usefixtures("yard")


def said(capsys):
    return " ".join(capsys.readouterr().out.split())


def test_the_tally_tells_wood_weight_stickers_and_loads(capsys):
    assert main(["tally", "hanging.stackplan"]) == 0
    text = said(capsys)
    # 60 boards of 1 in x 6 in x 8 ft are 60 x 1 x 6 x 96 / 144 = 240 board feet.
    assert "240 bf, 60 boards" in text
    # 8 boards of 6 in lie abreast in 4 ft: 8 courses of 3 stickers.
    assert "24 to cut of 48 in, 3 lines" in text
    assert "The first bearer from the left, 4 in x 6 in of white oak" in text
    assert "psf" in text


def test_what_the_bearers_carry_adds_up_to_the_stack(capsys):
    assert main(["tally", "sound.stackplan", "--as", "json"]) == 0
    tally = json.loads(capsys.readouterr().out)
    jsonschema.Draft202012Validator(
        json.loads(files("stacklint.report").joinpath("tally.schema.json").read_text(encoding="utf-8"))
    ).validate(tally)
    (stack,) = tally["stacks"]
    assert sum(bearer["load_kg"] for bearer in stack["bearers"]) == pytest.approx(stack["facts"]["load_kg"], rel=0.02)
    assert sum(group["mass_now_kg"] for group in stack["boards"]) == pytest.approx(stack["facts"]["mass_now_kg"])


def test_a_plan_that_cannot_be_reckoned_is_told_and_fails(yard, capsys):
    (yard / "odd.stackplan").write_text('pile "X"\n  boards a: 3 of unobtainium 4/4 x 6 in x 8 ft\n', encoding="utf-8")
    assert main(["tally", "odd.stackplan"]) == 1
    assert "Not reckoned" in said(capsys)


def test_a_missing_plan_is_told(capsys):
    assert main(["tally", "gone.stackplan"]) == 2
    assert "there is no such file" in capsys.readouterr().err


def test_the_rule_book_lists_every_rule_by_topic(capsys):
    assert main(["why"]) == 0
    text = said(capsys)
    assert "Support (rules/support.rules)" in text
    assert all(rule.name in text for rule in builtin().rules)


@pytest.mark.parametrize("name", builtin().names)
def test_every_rule_can_be_asked_for_with_its_limits_and_sources(capsys, name):
    assert main(["why", name]) == 0
    text = said(capsys)
    rule = builtin().rule(name)
    assert text.startswith(f"{name} {rule.title}.")
    assert " ".join(rule.why.split()) in text
    for limit in rule.limits:
        assert f"{limit.name} = " in text
        assert " ".join(limit.source.split()) in text
    assert text.count("recalled from memory") == sum(limit.memory for limit in rule.limits)


def test_house_rules_are_counted_in(yard, capsys):
    (yard / "house.rules").write_text(
        'change end-sticker-missing\n  limit spoiled = 40 in\nskip ground-not-flat because "a laser does it"\n',
        encoding="utf-8",
    )
    main(["why", "end-sticker-missing"])
    text = said(capsys)
    assert "spoiled = 40 in (house rules)" in text
    assert "Changed in house.rules, line 1." in text
    main(["why", "ground-not-flat"])
    assert "House rules skip this rule (house.rules, line 3): a laser does it" in said(capsys)
    main(["why"])
    assert "Skipped by house rules" in said(capsys)


def test_a_rule_is_taught_by_a_plan_that_fails_it_and_by_its_mend(capsys):
    assert main(["why", "end-sticker-missing"]) == 0
    text = capsys.readouterr().out
    # The example is the plan that the rule is tested with.
    assert "\n      stickers 3/4 in x 1 1/2 in, every 24 in, 4 in from ends, dry\n" in text
    assert "\n  warning  " in text
    assert "\n  change   stickers 3/4 in x 1 1/2 in, every 24 in, 4 in from ends, dry\n" in text
    assert "\n  to       stickers 3/4 in x 1 1/2 in, every 24 in, 3 in from ends, dry\n" in text


@pytest.mark.parametrize("columns", [60, 70, 80])
def test_an_example_wider_than_the_screen_goes_on_as_a_plan_may(monkeypatch, capsys, columns):
    monkeypatch.setenv("COLUMNS", str(columns))
    main(["why", "cover-too-short"])
    text = capsys.readouterr().out
    example = text[text.index("A plan that fails it") :]
    assert max(map(len, example.splitlines())) <= columns
    plan = example.partition("\n\n")[2].partition("\n\n")[0]
    # What is shown is read as the plan that the rule is tested with.
    shown, tested = read(plan), read((CASES / "cover-too-short" / "fails.stackplan").read_text(encoding="utf-8"))
    assert shown.faults == ()
    assert shown.plan == tested.plan


def test_the_example_of_a_changed_rule_says_by_which_limits_it_is_judged(yard, capsys):
    (yard / "house.rules").write_text("change end-sticker-missing\n  limit spoiled = 40 in\n", encoding="utf-8")
    main(["why", "end-sticker-missing"])
    assert "A plan that fails it by the limits of the rule book" in capsys.readouterr().out


def test_the_whole_rule_book_tells_of_every_rule_with_its_lesson(yard, capsys):
    (yard / "house.rules").write_text(
        'skip ground-not-flat because "a laser does it"\n\nrule too-heavy\n  title Heavy\n  for each stack\n'
        '  warning when stack.mass_now > 100 kg\n  say "It is heavy."\n  instead "Build less."\n'
        '  why "The cart is old."\n',
        encoding="utf-8",
    )
    assert main(["why", "--all"]) == 0
    text = capsys.readouterr().out
    for rule in builtin().rules:
        assert f"\n{rule.name}\n" in text
    assert text.count("A plan that fails it") == len(builtin().rules)
    assert text.count("The plan mended") == len(builtin().rules)
    assert "The cart is old." in text
    assert "House rules skip this rule" in text


def test_the_whole_rule_book_goes_on_one_page_of_html(yard, capsys):
    assert main(["why", "--all", "--as", "html", "--out", "rules.html"]) == 0
    assert capsys.readouterr().out == ""
    page = (yard / "rules.html").read_text(encoding="utf-8")
    for rule in builtin().rules:
        assert f'<article id="{rule.name}"' in page
        assert f'<a href="#{rule.name}">' in page
    assert page.count("<h4>The plan mended</h4>") == len(builtin().rules)
    recalled = sum(limit.memory for rule in builtin().rules for limit in rule.limits)
    assert page.count("Recalled from memory") == recalled


@pytest.mark.parametrize(
    "words, told",
    [
        (["--all", "no-cover"], "name a rule or say --all, not both"),
        (["--as", "html"], "--as html goes with --all"),
        (["--as", "json", "--all"], "choose screen or html"),
    ],
)
def test_a_question_that_cannot_be_answered_is_told(capsys, words, told):
    assert main(["why", *words]) == 2
    assert told in capsys.readouterr().err
