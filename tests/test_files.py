"""Files are found and read, or one plain sentence says why not."""

import io
import os
import sys
from pathlib import Path

import pytest

from stacklint import files
from stacklint.files import LARGEST, PlanFile, Trouble, house_rules, lending, plans, project_root, read
from stacklint.language import UsedText, UseRefused

PILE = 'pile "B2"\n  boards a: 10 of white ash 4/4 x 6 in x 8 ft, green\n'


@pytest.fixture
def yard(tmp_path, monkeypatch):
    """A project under version control, with a folder of plans; it is the current folder."""
    (tmp_path / "yard" / ".git").mkdir(parents=True)
    (tmp_path / "yard" / "plans").mkdir()
    monkeypatch.chdir(tmp_path / "yard")
    return tmp_path / "yard"


def put(folder, name, content=PILE):
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def why_not(path):
    trouble = read(path)
    assert isinstance(trouble, Trouble)
    assert trouble.path == str(path)
    return trouble.message


def names(*given):
    return [found.path for found in plans(given)]


def test_a_missing_file_is_told():
    assert why_not("gone.stackplan") == "there is no such file or folder"


def test_a_name_that_no_file_can_have_is_told():
    assert "cannot be read" in why_not("a\0b")
    (found,) = plans(["a\0b"])
    assert isinstance(found, Trouble)


def test_an_empty_name_is_told():
    (found,) = plans([""])
    assert isinstance(found, Trouble)


def test_a_file_without_permission_is_told(yard, monkeypatch):
    def refuse(*_, **__):
        raise PermissionError(13, "Permission denied")

    path = put(yard, "b2.stackplan")
    monkeypatch.setattr(os, "open", refuse)
    assert why_not(path) == "may not be read: permission is lacking"


def test_a_folder_in_place_of_a_file_is_told(yard):
    assert why_not(yard / "plans") == "is a folder, not a file"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
def test_a_pipe_is_refused_and_not_waited_for(yard):
    os.mkfifo(yard / "pipe.stackplan")
    assert "a device or a pipe" in why_not(yard / "pipe.stackplan")


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no such device here")
def test_a_device_that_never_ends_is_refused():
    assert "a device or a pipe" in why_not("/dev/zero")


def test_a_file_of_fifty_megabytes_is_refused_unread(yard, monkeypatch):
    path = yard / "huge.stackplan"
    with path.open("wb") as file:
        file.truncate(50_000_000)

    def opened(*_, **__):
        raise AssertionError("it was opened")

    monkeypatch.setattr(os, "open", opened)
    assert "larger than 10 MB" in why_not(path)


def test_a_file_of_the_largest_size_is_read(yard):
    assert len(read(put(yard, "large.stackplan", b"#" * LARGEST))) == LARGEST


@pytest.mark.parametrize("more", [-1, 0, 1])
def test_a_folder_of_more_plans_than_a_yard_has_is_not_read(yard, monkeypatch, more):
    monkeypatch.setattr(files, "MOST_PLANS", 3)
    for number in range(3 + more):
        put(yard, f"plans/{number}.stackplan")
    put(yard, "plans/tally.csv")
    found = list(plans(["plans"]))
    if more <= 0:
        assert [plan.text for plan in found] == [PILE] * (3 + more)
    else:
        (trouble,) = found
        assert trouble.message.startswith("holds more than 3 plans and rule files; none was read: name its folders")


def test_text_in_another_encoding_is_told_with_its_place(yard):
    path = put(yard, "latin.stackplan", b'pile "B2"\n  # Sch\xf6n\n')
    assert why_not(path) == (
        "is not UTF-8 text: byte 0xf6 in line 2, byte 8 of the line (17 bytes into the file); save it as UTF-8"
    )


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-be"])
def test_utf_16_is_told_by_its_name_or_its_zero_bytes(yard, encoding):
    message = why_not(put(yard, "wide.stackplan", PILE.encode(encoding)))
    assert "UTF-16" in message or "zero byte in line 1, byte 1" in message


def test_a_byte_order_mark_is_not_part_of_the_text(yard):
    assert read(put(yard, "marked.stackplan", b"\xef\xbb\xbf" + PILE.encode())) == PILE


@pytest.mark.parametrize("end", [b"\r\n", b"\r"])
def test_line_ends_of_other_systems_are_read_alike(yard, end):
    assert read(put(yard, "b2.stackplan", PILE.encode().replace(b"\n", end))) == PILE


def test_an_empty_file_is_a_text_without_anything(yard):
    assert read(put(yard, "empty.stackplan", "")) == ""


def test_a_folder_is_searched_deep_in_order_and_past_hidden_folders(yard):
    for name in (
        "plans/b.stackplan",
        "plans/a/z.stackplan",
        "plans/a.stackplan",
        "plans/.old/c.stackplan",
        "plans/x.txt",
    ):
        put(yard, name)
    assert names("plans") == ["plans/a/z.stackplan", "plans/a.stackplan", "plans/b.stackplan"]


def test_a_folder_without_plans_is_told(yard):
    put(yard, "plans/notes.txt")
    (found,) = plans(["plans"])
    assert found == Trouble("plans", "holds no plan: no file in it or below it ends in .stackplan")


def test_a_loop_of_links_between_folders_ends(yard):
    put(yard, "plans/b.stackplan")
    (yard / "plans" / "again").symlink_to(yard / "plans")
    assert names("plans") == ["plans/b.stackplan"]


def test_a_link_to_itself_is_told(yard):
    (yard / "round.stackplan").symlink_to("round.stackplan")
    (found,) = plans(["round.stackplan"])
    assert isinstance(found, Trouble)


def test_a_plan_named_twice_is_checked_once(yard):
    put(yard, "plans/b.stackplan")
    assert names("plans/b.stackplan", "plans", "./plans/b.stackplan") == ["plans/b.stackplan"]


def test_a_file_named_on_its_own_needs_no_special_ending(yard):
    put(yard, "b2.txt")
    (found,) = plans(["b2.txt"])
    assert isinstance(found, PlanFile)
    assert found.text == PILE


def test_a_trouble_does_not_keep_the_other_files_from_being_read(yard):
    put(yard, "b.stackplan")
    assert [type(found) for found in plans(["gone.stackplan", "b.stackplan"])] == [Trouble, PlanFile]


def test_standard_input_is_a_plan_of_the_current_folder(yard, monkeypatch):
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(PILE.encode())))
    (found,) = plans(["-", "-"])
    assert (found.path, found.text, found.root) == ("-", PILE, yard.resolve())


def test_a_project_begins_at_the_nearest_folder_under_version_control(yard):
    assert project_root(yard / "plans") == yard
    (yard / "plans" / ".hg").mkdir()
    assert project_root(yard / "plans") == yard / "plans"


def test_without_version_control_a_project_begins_at_the_folder_given_or_the_plan_s_own(tmp_path):
    deep = tmp_path / "a" / "b"
    assert project_root(deep, tmp_path / "a") == tmp_path / "a"
    assert project_root(deep) == deep


def test_house_rules_are_those_from_the_root_down_to_the_folder(yard):
    put(yard.parent, "house.rules", "")
    assert house_rules(yard / "plans", yard) == ()
    put(yard, "house.rules", "")
    assert house_rules(yard / "plans", yard) == (yard / "house.rules",)
    put(yard, "plans/north/house.rules", "")
    assert house_rules(yard / "plans" / "north", yard) == (
        yard / "house.rules",
        yard / "plans" / "north" / "house.rules",
    )
    assert house_rules(yard, yard) == (yard / "house.rules",)


def test_a_used_text_is_found_from_the_file_that_uses_it(yard):
    put(yard, "shared/kiln.stackplan", "# a kiln\n")
    lent = lending(yard)("../shared/kiln.stackplan", "plans/b.stackplan")
    assert lent == UsedText("shared/kiln.stackplan", "# a kiln\n")


@pytest.mark.parametrize("name", ["../secret.stackplan", "plans/../../secret.stackplan", "{outside}/secret.stackplan"])
def test_a_used_text_outside_the_project_is_refused(yard, name):
    put(yard.parent, "secret.stackplan", "# not for you\n")
    lent = lending(yard)(name.format(outside=yard.parent), "b.stackplan")
    assert isinstance(lent, UseRefused)
    assert "outside the project" in lent.message


def test_a_link_that_leads_out_of_the_project_is_refused(yard):
    (yard / "plans" / "link.stackplan").symlink_to(put(yard.parent, "secret.stackplan"))
    lent = lending(yard)("link.stackplan", "plans/b.stackplan")
    assert isinstance(lent, UseRefused)
    assert "outside the project" in lent.message


def test_outside_the_project_it_is_not_told_whether_a_file_is_there(yard):
    put(yard.parent, "there.stackplan")
    there, gone = (lending(yard)(f"../{name}.stackplan", "b.stackplan").message for name in ("there", "gone"))
    assert there.replace("there", "") == gone.replace("gone", "")


def test_a_used_text_that_is_not_there_is_refused_in_a_sentence(yard):
    assert lending(yard)("gone.stackplan", "b.stackplan").message == "The file gone.stackplan is not there."
