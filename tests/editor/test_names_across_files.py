"""Sites, kilns and piles are found and renamed across the files that plans use."""

from __future__ import annotations

from editor_marks import laid_out

from stacklint import language
from stacklint.changes import changed
from stacklint.editor.names import definition, laid, mention_at, renamed
from stacklint.language import UsedText, UseRefused

YARD = """\
site "Cold Hollow"
  near "Columbus, OH"
kiln "North box"
  type solar
pile "Shared"
  place open yard, site "Cold Hollow"
  boards a: 6 of white ash 4/4 x 6 in x 8 ft
"""
CHARGE = """\
use "yard.stackplan"
charge "July" in kiln "North box"
  from pile "Shared", "Own"
pile "Own"
  place open yard, site "cold hollow"
  spot "Cold Hollow"
  boards a: 6 of white ash 4/4 x 6 in x 8 ft
"""
FILES = {"yard.stackplan": YARD, "all.stackplan": 'use "yard.stackplan"\n'}


def use(name: str, _using: str):
    if name not in FILES:
        return UseRefused("It is not there.", "")
    return UsedText(name, FILES[name])


def found(text: str):
    own, spot = laid_out(text, "charge.stackplan")
    return definition(own, spot, use)


def test_a_kiln_is_found_in_the_file_that_is_used():
    where = found(CHARGE.replace('kiln "North', 'kiln "|North'))
    assert (where.path, where.line) == ("yard.stackplan", 3)


def test_a_site_is_found_whatever_its_letters_case():
    where = found(CHARGE.replace('"cold', '"|cold'))
    assert (where.path, where.line) == ("yard.stackplan", 1)


def test_each_pile_that_a_charge_draws_from_is_found():
    assert found(CHARGE.replace('"Shared"', '"Sha|red"')).path == "yard.stackplan"
    where = found(CHARGE.replace('"Shared", "Own', '"Shared", "|Own'))
    assert (where.path, where.line) == ("charge.stackplan", 4)


def test_a_block_is_found_by_way_of_a_file_that_uses_a_file():
    assert (
        found(CHARGE.replace("yard.stackplan", "all.stackplan").replace('kiln "', 'kiln "|')).path == "yard.stackplan"
    )


def test_a_used_file_is_found_by_its_name():
    assert found(CHARGE.replace('"yard', '"|yard'))[:2] == ("yard.stackplan", 1)


def test_a_name_that_nothing_bears_is_found_nowhere():
    assert found('charge "C" in kiln "|Nowhere"') is None
    assert found('use "|missing.stackplan"') is None
    assert found('pile "P"\n  spot "row |3"') is None


def test_files_that_use_each_other_end_the_search():
    def circle(name: str, _using: str):
        return UsedText(name, f'use "{"b" if name == "a" else "a"}"')

    own, spot = laid_out('use "a"\ncharge "C" in kiln "|K"')
    assert definition(own, spot, circle) is None


def rename(text: str, name: str, others=(), path="charge.stackplan"):
    own, spot = laid_out(text, path)
    answer = renamed(own, spot, name, use, others)
    if answer is None or answer.refused is not None:
        return answer
    texts = {**FILES, path: own.text, **{each.path: each.text for each in others}}
    return {
        path: changed(text, [change for change in answer.changes if change.where.path == path])
        for path, text in texts.items()
    }


def test_a_site_gets_its_new_name_in_every_file():
    texts = rename(CHARGE.replace('"cold', '"|cold'), "Long Bottom")
    assert 'site "Long Bottom"\n' in texts["yard.stackplan"]
    assert 'place open yard, site "Long Bottom"' in texts["yard.stackplan"]
    assert 'place open yard, site "Long Bottom"' in texts["charge.stackplan"]
    assert 'spot "Cold Hollow"' in texts["charge.stackplan"], "a spot is no site"


def test_the_plan_says_the_same_under_the_new_name():
    texts = rename(CHARGE.replace('"Shared"', '"|Shared"'), "Common ash")
    read = language.read(texts["charge.stackplan"], "charge.stackplan", lambda name, _: UsedText(name, texts[name]))
    assert read.faults == ()
    assert [taking.pile.text for taking in read.plan.stacks[0].from_piles] == ["Common ash", "Own"]


def test_open_plans_that_use_the_renamed_file_change_too():
    other = laid('use "yard.stackplan"\ncharge "August" in kiln "North box"\n', "august.stackplan")
    stranger = laid('kiln "North box"\ncharge "May" in kiln "North box"\n', "may.stackplan")
    texts = rename(YARD.replace('kiln "North', 'kiln "|North'), "Box 1", (other, stranger), "yard.stackplan")
    assert 'in kiln "Box 1"' in texts["august.stackplan"]
    assert texts["may.stackplan"] == stranger.text, "its kiln is another of the same name"


def test_a_name_that_another_block_bears_is_refused():
    answer = rename(CHARGE.replace('"Shared"', '"|Shared"'), "own")
    assert answer.refused == 'There is a pile "own" already.'


def test_a_name_that_cannot_stand_in_quotation_marks_is_refused():
    for name in ("", "   ", 'a "b"', "a\tb\0"):
        assert rename(CHARGE.replace('"Shared"', '"|Shared"'), name).refused


def test_only_sites_kilns_and_piles_are_renamed():
    assert rename('pile "P"\n  spot "row |3"', "row 4") is None
    own, spot = laid_out('pile "|P"')
    assert mention_at(own, spot).name == "P"
