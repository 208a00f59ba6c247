"""``stacklint check --as html`` from words to a page with its sheets beside it."""

from __future__ import annotations

import io
import sys
from pathlib import Path
from urllib.parse import unquote

import pytest
from read_page import ReadPage, rows

from stacklint.command.main import main

pytestmark = pytest.mark.usefixtures("yard")

CAPTION = "Stacks, what is found in them, and when they are ready"


def read(path: Path) -> ReadPage:
    return ReadPage(path.read_text(encoding="utf-8"))


def links(page: ReadPage) -> list[str]:
    """Where the page links to outside of itself."""
    return [given["href"] for tag, given in page.elements if tag == "a" and not given["href"].startswith("#")]


def test_all_plans_of_a_folder_come_on_one_page(yard, capsys):
    assert main(["check", ".", "--as", "html", "--out", "report.html"]) == 1
    assert capsys.readouterr() == ("", "")
    lines = rows(read(yard / "report.html"), CAPTION)
    assert [(line["Plan"], line["Stack"]) for line in lines] == [
        ("hanging.stackplan", "B2"),
        ("sound.stackplan", "Dry Oak for shelves"),
    ]
    assert lines[0]["Worst"] == "error"


def test_the_page_goes_to_standard_output_too(capsys):
    assert main(["check", "sound.stackplan", "--as", "html"]) == 0
    assert rows(ReadPage(capsys.readouterr().out), CAPTION)[0]["Stack"].startswith("Dry")


@pytest.mark.parametrize("level, code", [("error", 0), ("warning", 0), ("note", 1), ("never", 0)])
def test_the_level_to_fail_at_counts_as_in_every_form(level, code):
    # The only finding of the sound plan is the note of what was assumed.
    assert main(["check", "sound.stackplan", "--as", "html", "--out", "r.html", "--fail-at", level]) == code


def test_a_plan_that_could_not_be_read_is_on_the_page_and_on_standard_error(yard, capsys):
    assert main(["check", "gone.stackplan", "sound.stackplan", "--as", "html", "--out", "r.html"]) == 2
    assert capsys.readouterr().err == "stacklint: gone.stackplan: there is no such file or folder\n"
    page = read(yard / "r.html")
    assert "gone.stackplan : there is no such file or folder" in page.text
    assert len(rows(page, CAPTION)) == 1


def test_a_folder_without_plans_gives_a_page_that_says_so(yard):
    (yard / "none").mkdir()
    assert main(["check", "none", "--as", "html", "--out", "r.html"]) == 2
    page = read(yard / "r.html")
    assert "There is no stack to show." in page.text
    assert "holds no plan" in page.text


def test_the_same_day_gives_the_same_page(yard):
    for name in ("one.html", "two.html"):
        main(["check", "sound.stackplan", "hanging.stackplan", "--as", "html", "--today", "2026-04-02", "--out", name])
    assert (yard / "one.html").read_bytes() == (yard / "two.html").read_bytes()
    assert "2026-04-02" in read(yard / "one.html").text


def test_the_sheets_are_written_beside_the_page_and_every_link_leads_to_its_stack(yard):
    (yard / "out").mkdir()
    assert main(["check", ".", "--as", "html", "--out", "out/report.html", "--sheets", "build sheets/new"]) == 1
    found = links(read(yard / "out" / "report.html"))
    assert len(found) == 4  # in the table and with the findings
    for link in found:
        address, _, place = link.partition("#")
        sheet = read(yard / "out" / unquote(address))
        assert [tag for tag, given in sheet.elements if given.get("id") == place]
    assert {path.name for path in (yard / "build sheets" / "new").iterdir()} == {"hanging.html", "sound.html"}


def test_two_plans_of_one_name_have_a_sheet_each(yard):
    (yard / "mill").mkdir()
    (yard / "mill" / "sound.stackplan").write_bytes((yard / "sound.stackplan").read_bytes())
    main(["check", ".", "--as", "html", "--out", "report.html", "--sheets", "sheets"])
    names = {path.name for path in (yard / "sheets").iterdir()}
    assert names == {"hanging.html", "sound.html", "sound-2.html"}
    assert {link.partition("#")[0] for link in links(read(yard / "report.html"))} == {
        f"sheets/{name}" for name in names
    }
    assert "mill/sound.stackplan" in (yard / "sheets" / "sound.html").read_text(encoding="utf-8")


def test_a_sheet_never_takes_the_place_of_the_page(yard):
    main(["check", "sound.stackplan", "--as", "html", "--out", "sheets/Sound.html", "--sheets", "sheets"])
    page = read(yard / "sheets" / "Sound.html")
    assert rows(page, CAPTION)
    assert {link.partition("#")[0] for link in links(page)} == {"sound-2.html"}


def test_a_plan_of_shared_blocks_has_no_sheet(yard):
    (yard / "yard.stackplan").write_text('site "Cold Hollow"\n  near "Columbus, OH"\n', encoding="utf-8")
    assert main(["check", "yard.stackplan", "--as", "html", "--out", "r.html", "--sheets", "sheets"]) == 0
    assert not (yard / "sheets").exists()


def test_a_name_that_an_address_would_take_otherwise_is_still_found(yard):
    name = "50% #1 a:b & <c>.stackplan"
    (yard / name).write_bytes((yard / "sound.stackplan").read_bytes())
    main(["check", name, "--as", "html", "--out", "sheets/r.html", "--sheets", "sheets"])
    (address,) = {link.partition("#")[0] for link in links(read(yard / "sheets" / "r.html"))}
    assert address == "50%25%20%231%20a%3Ab%20%26%20%3Cc%3E.html"
    assert (yard / "sheets" / unquote(address)).is_file()


def test_a_plan_from_standard_input_has_a_sheet(yard, monkeypatch):
    text = (yard / "hanging.stackplan").read_bytes()
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(text)))
    assert main(["check", "-", "--as", "html", "--out", "r.html", "--sheets", "sheets"]) == 1
    assert (yard / "sheets" / "standard-input.html").is_file()


def test_sheets_go_with_a_page_only(capsys):
    assert main(["check", "sound.stackplan", "--sheets", "sheets"]) == 2
    assert "--sheets goes with --as html" in capsys.readouterr().err


def test_a_folder_for_sheets_that_cannot_be_made_is_told(yard, capsys):
    (yard / "sheets").write_text("in the way", encoding="utf-8")
    assert main(["check", "sound.stackplan", "--as", "html", "--out", "r.html", "--sheets", "sheets"]) == 2
    assert capsys.readouterr().err == "stacklint: the folder sheets cannot be made: file exists\n"
    assert not (yard / "r.html").exists()


@pytest.mark.parametrize("content", [b"", b"\xff\xfe\x00", b"pile", b'pile "\n' * 40, bytes(range(1, 256))])
def test_no_file_makes_the_page_stumble(yard, capsys, content):
    (yard / "odd.stackplan").write_bytes(content)
    assert main(["check", "odd.stackplan", "--as", "html", "--out", "r.html", "--sheets", "s"]) in (0, 1, 2)
    assert "Traceback" not in capsys.readouterr().err
    assert read(yard / "r.html").unclosed == []
