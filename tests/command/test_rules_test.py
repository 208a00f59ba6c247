"""``stacklint rules-test``: the owner of house rules has them tried on plans that he knows the answer to."""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.checking import check
from stacklint.command.main import main
from stacklint.files import PlanFile, plans
from stacklint.findings import Level
from stacklint.rulebook import builtin
from stacklint.rulebook.reader import read
from stacklint.rulebook.tested import Tried, try_rules

PLAN = """\
pile "A"
  place heated shop
  boards a: 20 of white oak 4/4 x 6 in x 8 ft, 8%
  stack 8 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 16 in, dry, 4 ft long
  bearers 4 in x 6 in of white oak, every 16 in
  clearance 14 in
  ground concrete, flat
  cover none
  ends coated
  want 8% for furniture
"""
WIDE = PLAN.replace("8%\n  stack", "30%\n  stack").replace("every 16 in, dry", "every 24 in, dry")
NAME = "sticker-spacing-too-wide"
RULES = f"change {NAME}\n  limit hardwood = {{}} in\n"
OWN = """\
rule few-boards
  title   Too few boards
  for each pile
  limit   least = 30
  error   when pile.pieces < least
  say     "{pile.pieces} boards."
  why     "The stacker is not started for less."
"""


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A project with two plans to show rules on; the plans of the yard lie elsewhere."""
    folder = tmp_path / "yard"
    (folder / ".git").mkdir(parents=True)
    (folder / "shown").mkdir()
    (folder / "shown" / "close.stackplan").write_text(PLAN, encoding="utf-8")
    (folder / "shown" / "wide.stackplan").write_text(WIDE, encoding="utf-8")
    monkeypatch.chdir(folder)
    return folder


def put(house: Path, text: str, name: str = "house.rules") -> None:
    path = house / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def shown(capsys: pytest.CaptureFixture[str]) -> tuple[list[str], list[str]]:
    captured = capsys.readouterr()
    return captured.out.splitlines(), captured.err.splitlines()


def test_a_rule_that_does_as_its_examples_say_is_told_so(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    put(house, RULES.format(20) + '  fails "shown/wide.stackplan"\n  passes: "shown/close.stackplan"\n')
    assert main(["rules-test"]) == 0
    assert shown(capsys) == (
        [
            f"house.rules:1: {NAME} does what its 2 examples say",
            "1 rule in 1 file: 1 as their examples say, 0 not",
        ],
        [],
    )


def test_a_plan_that_should_fail_and_passes_is_told_at_its_clause_with_what_else_was_found(
    house: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    put(house, RULES.format(30) + '  fails "shown/wide.stackplan"\n')
    assert main(["rules-test"]) == 1
    (line, last), errors = shown(capsys)
    assert line.startswith(
        f"house.rules:3:3: error: shown/wide.stackplan is to fail {NAME}, and the rule finds nothing there. "
    )
    others = {finding.rule for finding in check(WIDE).findings} - {NAME}
    assert others
    assert all(f"{rule} (" in line for rule in others)
    assert line.endswith(f"[{NAME}]")
    assert last == "1 rule in 1 file: 0 as their examples say, 1 not"
    assert errors == []


def test_what_other_rules_say_of_a_line_is_told_once_a_rule(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A plan that says next to nothing gets a note on its first line for each thing that is taken for it."""
    bare = 'pile "A"\n  boards a: 20 of white oak 4/4 x 6 in x 8 ft, 30%\n'
    assert [each.rule for each in check(bare).findings].count("assumed") > 1
    put(house, bare, "shown/bare.stackplan")
    put(house, RULES.format(30) + '  fails "shown/bare.stackplan"\n')
    assert main(["rules-test"]) == 1
    (line, _), _ = shown(capsys)
    assert line.count("assumed (note, line 1)") == 1


def test_a_plan_that_should_pass_and_fails_is_told_with_the_line_and_the_words_of_the_finding(
    house: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    put(house, RULES.format(20) + '  passes "shown/wide.stackplan"\n')
    assert main(["rules-test"]) == 1
    (line, _), _ = shown(capsys)
    assert f"shown/wide.stackplan is to pass {NAME}, and the rule gives a warning in line 3: Stickers under" in line


def test_a_plan_fails_at_the_level_that_is_named_or_not_as_it_should(
    house: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    put(house, RULES.format(20) + '  fails warning "shown/wide.stackplan"\n  fails error "shown/wide.stackplan"\n')
    assert main(["rules-test"]) == 1
    (line, _), _ = shown(capsys)
    assert line.startswith("house.rules:4:3: error: ")
    assert f"is to fail {NAME} with an error, and the rule gives a warning in line 3." in line


def test_what_an_example_waives_counts_for_nothing_and_is_told(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    put(house, WIDE + f'  waive {NAME} because "a trial"\n', "shown/waived.stackplan")
    put(house, RULES.format(20) + '  fails "shown/waived.stackplan"\n')
    assert main(["rules-test"]) == 1
    (line, _), _ = shown(capsys)
    assert "The plan waives what the rule finds in line 3." in line


def test_rules_without_an_example_are_counted_and_named(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    put(house, OWN + '  fails "shown/close.stackplan"\n' + RULES.format(20) + 'skip no-cover because "a roof"\n')
    assert main(["rules-test"]) == 0
    (_, last), _ = shown(capsys)
    assert last == f"2 rules in 1 file: 1 as their examples say, 0 not; without an example: {NAME}"


def test_examples_are_tried_with_the_house_rules_farther_up_and_not_with_those_farther_down(
    house: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    put(house, RULES.format(30) + '  passes "shown/wide.stackplan"\n')
    put(house, f'change {NAME}\n  title Far apart\n  passes "../shown/wide.stackplan"\n', "north/house.rules")
    put(house, RULES.format(20) + '  fails "../../shown/wide.stackplan"\n', "north/deep/house.rules")
    assert main(["rules-test", "north"]) == 0
    assert main(["rules-test", "house.rules"]) == 0
    told, _ = shown(capsys)
    assert [line.partition(":")[0] for line in told if "does what" in line] == [
        "north/deep/house.rules",
        "north/house.rules",
        "house.rules",
    ]


def test_another_rule_file_is_tried_as_it_holds_where_it_is_named(
    house: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    put(house, RULES.format(30))
    put(house, OWN + '  fails "shown/wide.stackplan"\n' + 'skip no-cover because "a roof"\n', "winter.rules")
    assert main(["rules-test", "winter.rules", "./winter.rules"]) == 0
    told, _ = shown(capsys)
    assert told[-1] == "1 rule in 1 file: 1 as their examples say, 0 not"


def test_a_faulty_file_is_told_and_the_others_are_tried(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    put(house, OWN + '  passes "shown/close.stackplan"\n  fails b\n')
    put(house, RULES.format(20) + '  fails "../shown/wide.stackplan"\n', "north/house.rules")
    assert main(["rules-test"]) == 2
    told, errors = shown(capsys)
    assert errors[0].startswith("house.rules:9:9: error: b is no level. ")
    assert told == [
        f"north/house.rules:1: {NAME} does what its example says",
        "1 rule in 1 file: 1 as their examples say, 0 not",
    ]


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("shown/gone.stackplan", "The plan shown/gone.stackplan: there is no such file or folder."),
        ("shown", "The plan shown is no plan by its name"),
        ("../far.stackplan", "The plan ../far.stackplan lies outside the project"),
        ("shown/link.stackplan", "The plan shown/link.stackplan lies outside the project"),
        ("shown/folder.stackplan", "is a folder, not a file"),
        ("a\tb.stackplan", "there is no such file or folder"),
    ],
)
def test_an_example_that_cannot_be_read_is_an_error_at_its_clause(
    house: Path, capsys: pytest.CaptureFixture[str], name: str, told: str
) -> None:
    (house.parent / "far.stackplan").write_text(PLAN, encoding="utf-8")
    (house / "shown" / "link.stackplan").symlink_to(house.parent / "far.stackplan")
    (house / "shown" / "folder.stackplan").mkdir()
    put(house, OWN + f'  fails "shown/close.stackplan"\n  fails "{name}"\n')
    assert main(["rules-test"]) == 2
    lines, (error,) = shown(capsys)
    assert error.startswith("house.rules:9:3: error: ")
    assert told in error
    assert lines == ["1 rule in 1 file: 0 as their examples say, 0 not, 1 not tried"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["gone.rules"], "gone.rules: there is no such file or folder"),
        (["shown/close.stackplan"], "shown/close.stackplan: is no rule file by its name; rule files end in .rules"),
        (["shown"], "shown: holds no rules: no file in it or below it ends in .rules"),
    ],
)
def test_what_is_no_rule_file_is_told(
    house: Path, capsys: pytest.CaptureFixture[str], words: list[str], told: str
) -> None:
    assert main(["rules-test", *words]) == 2
    _, errors = shown(capsys)
    assert errors == [f"stacklint: {told}"]
    assert house.is_dir()


def test_the_json_form_keeps_to_its_schema_and_tells_of_every_example(
    house: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    clauses = '  fails error "shown/wide.stackplan"\n  passes "shown/close.stackplan"\n  fails "gone.stackplan"\n'
    put(house, RULES.format(20) + clauses + OWN)
    assert main(["rules-test", "--as", "json", "--today", "2026-06-01"]) == 2
    output: dict[str, Any] = json.loads(capsys.readouterr().out)
    schema = files("stacklint.report").joinpath("rules-test.schema.json").read_text(encoding="utf-8")
    jsonschema.Draft202012Validator(json.loads(schema)).validate(output)
    changed, own = output["rules"]
    assert (changed["rule"], changed["path"], changed["line"], changed["holds"]) == (NAME, "house.rules", 1, False)
    assert [(each["level"], each["line"], each["holds"]) for each in changed["examples"]] == [
        ("error", 3, False),
        (None, 4, True),
        (None, 5, None),
    ]
    assert NAME in {finding["rule"] for finding in changed["examples"][0]["findings"]}
    assert (own["rule"], own["holds"], own["examples"]) == ("few-boards", None, [])
    assert [(each["path"], each["line"], each["column"]) for each in output["unread"]] == [("house.rules", 5, 3)]


def test_an_example_is_no_plan_of_the_yard_unless_it_is_named(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    put(house, OWN + '  fails "shown/close.stackplan"\n  eror when x\n')
    put(house, PLAN, "north/real.stackplan")
    assert [plan.path for plan in plans(["."]) if isinstance(plan, PlanFile)] == [
        "north/real.stackplan",
        "shown/wide.stackplan",
    ]
    assert [plan.path for plan in plans(["shown"]) if isinstance(plan, PlanFile)] == ["shown/wide.stackplan"]
    assert [plan.path for plan in plans(["shown/close.stackplan"]) if isinstance(plan, PlanFile)] == [
        "shown/close.stackplan"
    ]
    (house / "shown" / "wide.stackplan").unlink()
    assert main(["check", "shown"]) == 2
    _, errors = shown(capsys)
    assert errors == ["stacklint: shown: holds no plan but the examples of rule files"]


def test_the_examples_of_rules_outside_the_project_keep_no_plan_out(house: Path) -> None:
    put(house.parent, OWN + '  fails "yard/shown/close.stackplan"\n')
    (house / "far.rules").symlink_to(house.parent / "house.rules")
    assert [Path(plan.path).name for plan in plans(["."]) if isinstance(plan, PlanFile)] == [
        "close.stackplan",
        "wide.stackplan",
    ]


_EXAMPLES = st.lists(st.tuples(st.sampled_from(["fails", "fails note", "fails error", "passes"]), st.booleans()))


@given(_EXAMPLES)
def test_a_rule_holds_if_and_only_if_each_of_its_examples_does(examples: list[tuple[str, bool]]) -> None:
    clauses = "".join(f'  {word} "{"bad" if bad else "good"}.stackplan"\n' for word, bad in examples)
    blocks, faults = read("house.rules", f"change no-such\n  title T\n{clauses}change {NAME}\n  title T\n{clauses}")
    assert faults == ()
    answers = {"bad.stackplan": _BAD, "good.stackplan": _GOOD}
    other, rule = try_rules(blocks, answers.__getitem__)
    expected = [
        {"passes": not bad, "fails": bad, "fails note": False, "fails error": bad}[word] for word, bad in examples
    ]
    assert [isinstance(each, Tried) and each.holds for each in rule.examples] == expected
    assert rule.holds is all(expected)
    assert other.holds is all(word == "passes" for word, _ in examples)


_BAD = check(WIDE.replace("every 24 in, dry", "every 48 in, dry"), book=builtin())
_GOOD = check(PLAN, book=builtin())


def test_the_plans_of_that_proof_are_what_they_are_taken_for() -> None:
    assert {finding.level for finding in _BAD.findings if finding.rule == NAME} == {Level.ERROR}
    assert NAME not in {finding.rule for finding in _GOOD.findings}
