"""The JSON report keeps to its published schema and carries SI values."""

import json
import math
from importlib.resources import files

import jsonschema
import pytest

from stacklint.checked import CheckedStack
from stacklint.engineering.facts import KilnFacts, StackFacts
from stacklint.faults import Measure
from stacklint.files import Trouble
from stacklint.report.answer import Answer, Answers
from stacklint.report.json_output import as_json
from stacklint.report.schemas import OUTPUTS, generated
from stacklint.report.stack_figures import StackFigures
from stacklint.report.tally import tally_json
from stacklint.units import LENGTH, System
from stacklint.where import Where


def shipped(name):
    return json.loads(files("stacklint.report").joinpath(name).read_text(encoding="utf-8"))


def reported(book, *plans, troubles=()):
    output = json.loads(as_json(Answers(tuple(Answer(plan, book) for plan in plans), tuple(troubles))))
    jsonschema.Draft202012Validator(shipped("findings.schema.json")).validate(output)
    return output


@pytest.mark.parametrize("name", OUTPUTS)
def test_the_shipped_schema_is_the_one_that_the_models_generate(name):
    assert shipped(name) == json.loads(generated(name))


@pytest.mark.parametrize("name", OUTPUTS)
def test_the_shipped_schema_is_a_schema_of_draft_2020_12(name):
    jsonschema.Draft202012Validator.check_schema(shipped(name))


def test_a_finding_carries_its_place_its_words_and_its_figures_in_si(yard, book):
    (plan,) = reported(book, yard.checked(yard.finding()))["plans"]
    (finding,) = plan["findings"]
    assert plan["path"] == "b2.stackplan"
    assert (finding["rule"], finding["level"], finding["stack"]) == ("end-sticker-missing", "error", "B2")
    assert (finding["line"], finding["column"], finding["end_line"], finding["end_column"]) == (14, 3, 14, 40)
    assert finding["found"] == {"value": pytest.approx(0.6096), "unit": "m"}
    assert finding["limit"] == {"value": pytest.approx(0.3048), "unit": "m"}
    assert finding["more"] == 3


def test_the_facts_of_a_pile_are_si_with_the_unit_in_the_key(yard, book):
    (plan,) = reported(book, yard.checked())["plans"]
    (stack,) = plan["stacks"]
    facts = stack["facts"]
    assert (stack["name"], stack["kind"]) == ("B2", "pile")
    # 384 board feet of 144 cubic inches, an inch being 0.0254 m; 1600 lb of 0.45359237 kg (NIST SP 811).
    assert facts["volume_m3"] == pytest.approx(384 * 144 * 0.0254**3)
    assert facts["mass_now_kg"] == pytest.approx(1600 * 0.45359237)
    assert facts["sag_max_mm"] == pytest.approx(0.9)
    assert facts["ground_pressure_max_kpa"] == pytest.approx(50)
    assert (facts["courses"], facts["pieces"], facts["stickers"]) == (6, 96, 54)


def test_what_is_unknown_is_null(yard, book):
    (plan,) = reported(book, yard.checked())["plans"]
    assert plan["stacks"][0]["facts"]["overturning"] is None


def test_a_stack_that_could_not_be_reckoned_has_null_facts(yard, book):
    plan = yard.checked(stacks=(CheckedStack(yard.pile(), None, None),))
    assert reported(book, plan)["plans"][0]["stacks"][0]["facts"] is None


def test_a_waived_finding_stands_apart_with_its_reason(yard, book):
    (plan,) = reported(book, yard.checked(waived=(yard.waived(),)))["plans"]
    (waived,) = plan["waived"]
    assert plan["findings"] == []
    assert (waived["rule"], waived["reason"], waived["until"]) == (
        "stickers-wet",
        "kiln-dried sticks arrive Friday",
        "2026-05-01",
    )


def test_a_file_that_could_not_be_read_is_told_of(book):
    output = reported(book, troubles=[Trouble("gone.stackplan", "there is no such file or folder")])
    assert output["unread"] == [
        {"path": "gone.stackplan", "message": "there is no such file or folder", "line": None, "column": None}
    ]


def test_a_fault_of_a_rule_file_is_told_with_its_place(book):
    place = Where("house.rules", 3, 5, 3, 9)
    output = reported(book, troubles=[Trouble("house.rules", "There is no clause eror.", place)])
    assert output["unread"] == [{"path": "house.rules", "message": "There is no clause eror.", "line": 3, "column": 5}]


@pytest.mark.parametrize("endless", [math.inf, -math.inf, math.nan])
def test_a_figure_that_json_cannot_hold_is_null(yard, book, endless):
    facts = yard.facts_of(StackFacts, system=System.METRIC, sag_max=endless, pieces=endless)
    stack = CheckedStack(yard.pile(), None, facts)
    finding = yard.finding(found=Measure(endless, LENGTH))
    (plan,) = reported(book, yard.checked(finding, stacks=(stack,)))["plans"]
    assert plan["stacks"][0]["facts"]["sag_max_mm"] is None
    assert plan["stacks"][0]["facts"]["pieces"] is None
    assert plan["findings"][0]["found"] is None


def test_the_output_is_ascii_whatever_a_pile_is_called(yard, book):
    plan = yard.checked(yard.finding(stack="Лес\x1b"), stack=yard.pile("Лес\x1b"))
    text = as_json(Answers((Answer(plan, book),)))
    assert text.isascii()
    assert json.loads(text)["plans"][0]["stacks"][0]["name"] == "Лес\x1b"


def test_every_figure_is_described():
    assert all(field.description for field in StackFigures.model_fields.values())


def test_the_tally_of_a_charge_keeps_to_its_schema_and_tells_the_share_of_the_kiln(yard):
    facts = yard.facts()
    kiln = yard.facts_of(KilnFacts, name="North box", holds=facts.board_feet * 2, carries=facts.load * 4)
    charge = yard.facts_of(
        StackFacts, system=System.INCH, kiln_measure=facts.board_feet, load=facts.load, kiln=kiln, pads=()
    )
    tally = json.loads(tally_json(yard.checked(stacks=(CheckedStack(yard.pile(), None, charge),))))
    jsonschema.Draft202012Validator(shipped("tally.schema.json")).validate(tally)
    share = tally["stacks"][0]["kiln"]
    assert share == {"name": "North box", "share_of_volume": pytest.approx(0.5), "share_of_mass": pytest.approx(0.25)}
