"""An editor's server reads no file outside the project of the text that is open."""

from __future__ import annotations

from pathlib import Path

import pytest

from stacklint.checking import check
from stacklint.editor.desk import Desk
from stacklint.editor.names import definition
from stacklint.editor.positions import Spot
from stacklint.editor.texts import Books
from stacklint.language import UsedText, UseRefused

SHARED = 'kiln "North box"\n  type solar\n'


@pytest.fixture
def yard(tmp_path: Path) -> Path:
    project = tmp_path / "project"
    (project / ".git").mkdir(parents=True)
    (project / "shared.stackplan").write_text(SHARED, encoding="utf-8")
    (tmp_path / "secret.stackplan").write_text(SHARED, encoding="utf-8")
    (project / "link.stackplan").symlink_to(tmp_path / "secret.stackplan")
    return project


def desk() -> Desk:
    return Desk(lambda uri: uri.removeprefix("file://") if uri.startswith("file://") else None)


def lent(yard: Path, name: str):
    own = desk()
    document = own.put((yard / "plan.stackplan").as_uri(), f'use "{name}"\n', 1)
    return own.project(document).use(name, document.shown)


def test_a_file_of_the_project_is_read(yard):
    assert lent(yard, "shared.stackplan") == UsedText(str(yard / "shared.stackplan"), SHARED)


@pytest.mark.parametrize("name", ["../secret.stackplan", "link.stackplan", "/etc/hostname"])
def test_a_file_outside_the_project_is_not_read(yard, name):
    refused = lent(yard, name)
    assert isinstance(refused, UseRefused)
    assert "outside the project" in refused.message


def test_a_file_outside_the_project_is_not_read_though_it_is_open(yard):
    own = desk()
    own.put((yard.parent / "secret.stackplan").as_uri(), "# draft\n", 1)
    document = own.put((yard / "plan.stackplan").as_uri(), "", 1)
    assert isinstance(own.project(document).use("../secret.stackplan", document.shown), UseRefused)


def test_the_definition_in_a_file_outside_is_not_found(yard):
    own = desk()
    text = 'use "../secret.stackplan"\ncharge "C" in kiln "North box"\n'
    document = own.put((yard / "plan.stackplan").as_uri(), text, 1)
    assert definition(document.laid, Spot(2, 22), own.project(document).use) is None


def test_a_page_outside_the_project_is_not_given(yard):
    own = desk()
    document = own.put((yard / "plan.stackplan").as_uri(), "", 1)
    assert own.page_of(str(yard.parent / "secret.stackplan"), document) is None
    assert own.page_of(str(yard / "shared.stackplan"), document)[1].text == SHARED


def test_without_version_control_the_project_is_the_editors_folder(tmp_path):
    (tmp_path / "yard").mkdir()
    (tmp_path / "shared.stackplan").write_text(SHARED, encoding="utf-8")
    own = desk()
    document = own.put((tmp_path / "yard" / "plan.stackplan").as_uri(), "", 1)
    assert isinstance(own.project(document).use("../shared.stackplan", document.shown), UseRefused)
    own.folders = (tmp_path,)
    assert isinstance(own.project(document).use("../shared.stackplan", document.shown), UsedText)


def test_a_new_file_that_is_open_and_not_yet_written_can_be_used(yard):
    own = desk()
    own.put((yard / "new.stackplan").as_uri(), SHARED, 1)
    document = own.put((yard / "plan.stackplan").as_uri(), "", 1)
    assert own.project(document).use("new.stackplan", document.shown).text == SHARED


def test_a_text_without_a_file_uses_none():
    own = desk()
    document = own.put("untitled:1", 'use "shared.stackplan"\n', 1)
    project = own.project(document)
    assert project.use is None
    (fault,) = check(document.page.text, document.shown, use=project.use).findings
    assert "cannot be looked up here" in fault.message


def test_house_rules_above_the_project_do_not_count(yard):
    rules = 'skip no-cover because "a roof"\n'
    (yard.parent / "house.rules").write_text(rules, encoding="utf-8")
    own, books = desk(), Books()
    document = own.put((yard / "plan.stackplan").as_uri(), "", 1)
    assert books.of(own.project(document)).rules.rule("no-cover") is not None
    (yard / "house.rules").write_text(rules, encoding="utf-8")
    assert books.of(own.project(document)).rules.rule("no-cover") is None
    (yard / "house.rules").unlink()
    (yard / "house.rules").symlink_to(yard.parent / "house.rules")
    assert books.of(own.project(document)).rules.rule("no-cover") is not None


def test_house_rules_of_a_folder_come_on_top_of_those_farther_up_as_they_are_open(yard):
    (yard / "house.rules").write_text('skip no-cover because "a roof"\n', encoding="utf-8")
    (yard / "north").mkdir()
    own, books = desk(), Books()
    document = own.put((yard / "north" / "plan.stackplan").as_uri(), "", 1)
    assert books.of(own.project(document)).rules.rule("no-cover") is None
    nearer = own.put((yard / "north" / "house.rules").as_uri(), 'keep no-cover because "no roof here"\n', 1)
    assert books.of(own.project(document)).rules.rule("no-cover") is not None
    assert document in own.leaning_on(nearer)
    # A rule file itself is read on top of those farther up: there the rule is skipped still.
    assert books.of(own.project(nearer)).rules.rule("no-cover") is None


def test_a_nearer_rule_file_is_read_anew_when_a_farther_one_changes(yard):
    own = desk()
    farther = own.put((yard / "house.rules").as_uri(), "", 1)
    nearer = own.put((yard / "north" / "house.rules").as_uri(), "", 1)
    assert nearer in own.leaning_on(farther)
