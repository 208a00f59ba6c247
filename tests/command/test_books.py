"""Which house rules hold where: from the project's root down to the plan, each on top of those farther up."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from stacklint.command.books import Books
from stacklint.command.main import main
from stacklint.rulebook import HouseRules, RuleBook, book_of, builtin

WIDER = "change sticker-spacing-too-wide\n  limit hardwood = {} in\n"


@pytest.fixture
def coop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A project with two yards, in which nobody has written house rules yet."""
    folder = tmp_path.resolve() / "co-op"
    (folder / ".git").mkdir(parents=True)
    for yard in ("north", "south"):
        (folder / yard / "piles").mkdir(parents=True)
    monkeypatch.chdir(folder)
    return folder


def hardwood(book: RuleBook) -> str:
    rule = book.rule("sticker-spacing-too-wide")
    assert rule is not None
    return next(limit.written for limit in rule.limits if limit.name == "hardwood")


def test_a_yard_changes_what_the_coop_has_changed(coop: Path) -> None:
    (coop / "house.rules").write_text(WIDER.format(20) + 'skip no-cover because "a roof"\n', encoding="utf-8")
    (coop / "north" / "house.rules").write_text(WIDER.format(16), encoding="utf-8")
    books = Books(None)
    north, south = (books.of_folder(coop / yard / "piles", coop) for yard in ("north", "south"))
    assert (hardwood(north), hardwood(south)) == ("16 in", "20 in")
    assert north.rule("no-cover") is None
    assert books.troubles == []


def test_rules_above_the_project_do_not_hold_in_it(coop: Path) -> None:
    (coop.parent / "house.rules").write_text(WIDER.format(20), encoding="utf-8")
    assert Books(None).of_folder(coop / "north", coop) is builtin()


def test_plans_under_the_same_house_rules_share_one_book(coop: Path) -> None:
    (coop / "house.rules").write_text(WIDER.format(20), encoding="utf-8")
    books = Books(None)
    assert books.of_folder(coop / "north", coop) is books.of_folder(coop / "south" / "piles", coop)


def test_a_faulty_file_is_set_aside_and_the_others_of_the_chain_hold(coop: Path) -> None:
    (coop / "house.rules").write_text(WIDER.format(20), encoding="utf-8")
    (coop / "north" / "house.rules").write_text(WIDER.format(16) + "skip no-cover\n", encoding="utf-8")
    (coop / "north" / "piles" / "house.rules").write_text('skip no-cover because "a roof"\n', encoding="utf-8")
    books = Books(None)
    book = books.of_folder(coop / "north" / "piles", coop)
    assert hardwood(book) == "20 in"
    assert book.rule("no-cover") is None
    books.of_folder(coop / "north", coop)
    fault, aside = books.troubles
    assert (fault.path, fault.where and fault.where.line) == ("north/house.rules", 3)
    assert "without a reason" in fault.message
    assert aside.message == "these house rules were set aside; the other rules judged without them"
    assert [house.name for house in books.sources(coop / "north" / "piles", coop)] == [
        "house.rules",
        "north/piles/house.rules",
    ]


def test_rules_that_link_out_of_the_project_are_left_out_alone(coop: Path) -> None:
    (coop.parent / "far.rules").write_text(WIDER.format(8), encoding="utf-8")
    (coop / "house.rules").write_text(WIDER.format(20), encoding="utf-8")
    (coop / "north" / "house.rules").symlink_to(coop.parent / "far.rules")
    books = Books(None)
    assert hardwood(books.of_folder(coop / "north", coop)) == "20 in"
    (trouble,) = books.troubles
    assert (trouble.path, trouble.where) == ("north/house.rules", None)


def test_rules_that_are_named_replace_the_whole_chain(coop: Path) -> None:
    (coop / "house.rules").write_text(WIDER.format(20), encoding="utf-8")
    (coop / "winter.rules").write_text('skip no-cover because "a roof"\n', encoding="utf-8")
    book = Books("winter.rules").of_folder(coop / "north", coop)
    assert hardwood(book) == "24 in"
    assert book.rule("no-cover") is None


def test_the_texts_of_a_book_make_it_again(coop: Path) -> None:
    (coop / "house.rules").write_text(WIDER.format(20), encoding="utf-8")
    (coop / "north" / "house.rules").write_text(WIDER.format(16), encoding="utf-8")
    books = Books(None)
    sources = books.sources(coop / "north", coop)
    assert sources == (HouseRules("house.rules", WIDER.format(20)), HouseRules("north/house.rules", WIDER.format(16)))
    assert book_of(sources) is books.of_folder(coop / "north", coop)
    assert book_of(()) is builtin()


def test_a_fault_on_the_way_is_told_once_for_all_plans_below_it(coop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (coop / "house.rules").write_text("skipp no-cover\n", encoding="utf-8")
    for yard in ("north", "south"):
        (coop / yard / "b.stackplan").write_text("# nothing yet\n", encoding="utf-8")
        (coop / yard / "house.rules").write_text(WIDER.format(16), encoding="utf-8")
    assert main(["check", ".", "--as", "screen"]) == 2
    assert capsys.readouterr().err.count("house.rules:1:1: error: ") == 1


@pytest.mark.parametrize("form", ["json", "sarif"])
def test_the_reports_tell_the_place_of_a_fault_in_house_rules(
    coop: Path, capsys: pytest.CaptureFixture[str], form: str
) -> None:
    (coop / "north" / "house.rules").write_text("# ours\n  skipp no-cover\n", encoding="utf-8")
    (coop / "north" / "b.stackplan").write_text("# nothing yet\n", encoding="utf-8")
    assert main(["check", "north", "--as", form]) == 2
    report = json.loads(capsys.readouterr().out)
    if form == "json":
        told = report["unread"][0]
        assert (told["path"], told["line"], told["column"]) == ("north/house.rules", 2, 3)
        return
    place = report["runs"][0]["invocations"][0]["toolExecutionNotifications"][0]["locations"][0]["physicalLocation"]
    assert place["artifactLocation"]["uri"] == "north/house.rules"
    assert (place["region"]["startLine"], place["region"]["startColumn"]) == (2, 3)


def test_why_tells_what_each_file_has_made_of_a_rule(
    coop: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    (coop / "house.rules").write_text('skip no-cover because "a roof"\n', encoding="utf-8")
    (coop / "north" / "house.rules").write_text(
        'keep no-cover because "no roof here"\nchange no-cover\n  title Bare\n', encoding="utf-8"
    )
    monkeypatch.chdir(coop / "north")
    assert main(["why", "no-cover"]) == 0
    text = " ".join(capsys.readouterr().out.split())
    parts = ["Written in rules/", "Skipped in ", "Kept in house.rules, line 1: no roof here", "Changed in house.rules"]
    places = [text.index(part) for part in parts]
    assert places == sorted(places)
