"""``stacklint tally`` reckons a plan, ``stacklint why`` tells of rules."""

import json
from importlib.resources import files

import jsonschema
import pytest

from stacklint.command.main import main
from stacklint.rulebook import builtin

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
