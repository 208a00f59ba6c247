"""The SARIF report against the published JSON schema of SARIF 2.1.0.

``data/sarif-schema-2.1.0.json`` is the schema that OASIS published, in its version 2.1.0-rtm.5; the text
beside it tells where the copy is from. Section numbers are those of the standard (memory).
"""

import json
from pathlib import Path

import jsonschema
import pytest

from stacklint.checking import check
from stacklint.files import Trouble
from stacklint.report.answer import Answer, Answers
from stacklint.report.sarif import as_sarif, uri
from stacklint.rulebook import builtin
from stacklint.where import Where

SCHEMA = json.loads(Path(__file__).with_name("data").joinpath("sarif-schema-2.1.0.json").read_text(encoding="utf-8"))
GREEN_ASH = """\
pile "B2" "Ash for flooring"
  place open yard
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 48 in, wet
  bearers 4 in x 6 in of white oak, every 48 in
  ground gravel, twisted
"""
WAIVED = GREEN_ASH + '  waive ground-not-flat because "the grader comes on Friday"\n'


def run_of(text, path="b2.stackplan", troubles=()):
    answers = Answers((Answer(check(text, path), builtin()),), tuple(troubles))
    log = json.loads(as_sarif(answers))
    jsonschema.Draft4Validator(SCHEMA, format_checker=jsonschema.FormatChecker()).validate(log)
    (run,) = log["runs"]
    return run


def test_the_schema_refuses_what_is_no_sarif():
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft4Validator(SCHEMA).validate({"version": "2.1.0", "runs": [{"tool": {}}]})


def test_each_finding_is_a_result_at_its_place():
    run = run_of(GREEN_ASH)
    found = check(GREEN_ASH, "b2.stackplan").findings
    assert found
    assert [(result["ruleId"], result["level"]) for result in run["results"]] == [
        (finding.rule, finding.level.value) for finding in found
    ]
    for result, finding in zip(run["results"], found, strict=True):
        place = result["locations"][0]["physicalLocation"]
        assert place["artifactLocation"]["uri"] == "b2.stackplan"
        assert place["region"]["startLine"] == finding.where.line
        assert place["region"]["endColumn"] == finding.where.end_column


def test_each_rule_that_found_something_is_described_with_its_reasons():
    run = run_of(GREEN_ASH)
    rules = run["tool"]["driver"]["rules"]
    assert {rule["id"] for rule in rules} == {result["ruleId"] for result in run["results"]}
    for result in run["results"]:
        # 3.27.6: ruleIndex points at the descriptor of the same id.
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"]
    limits = [rule for rule in rules if "Source: " in rule["help"]["text"]]
    assert limits
    assert all(rule["defaultConfiguration"]["level"] in ("error", "warning", "note") for rule in rules)


def test_a_waived_finding_is_a_suppressed_result_with_its_reason():
    # 3.27.23 and 3.35: a suppression that stands in the text is of the kind inSource.
    results = run_of(WAIVED)["results"]
    (waived,) = [result for result in results if "suppressions" in result]
    assert waived["ruleId"] == "ground-not-flat"
    assert waived["suppressions"] == [
        {"kind": "inSource", "status": "accepted", "justification": "the grader comes on Friday"}
    ]


def test_a_file_that_could_not_be_read_makes_the_run_unsuccessful():
    # 3.20.14: executionSuccessful.
    run = run_of(GREEN_ASH, troubles=[Trouble("gone.stackplan", "there is no such file or folder")])
    (invocation,) = run["invocations"]
    assert invocation["executionSuccessful"] is False
    assert "gone.stackplan" in invocation["toolExecutionNotifications"][0]["message"]["text"]


def test_a_fault_of_a_rule_file_is_a_notification_at_its_place():
    # 3.58.4: locations of a notification.
    place = Where("north yard/house.rules", 3, 5, 3, 9)
    run = run_of(GREEN_ASH, troubles=[Trouble(place.path, "There is no clause eror.", place)])
    (told,) = run["invocations"][0]["toolExecutionNotifications"]
    assert told["message"]["text"] == "There is no clause eror."
    assert told["locations"] == [
        {
            "physicalLocation": {
                "artifactLocation": {"uri": "north%20yard/house.rules"},
                "region": {"startLine": 3, "startColumn": 5, "endLine": 3, "endColumn": 9},
            }
        }
    ]


def test_a_path_with_blanks_and_other_letters_becomes_a_uri_reference():
    # RFC 3986, 2.1: percent-encoded octets of UTF-8.
    assert uri("north yard/Esche #2 ü.stackplan") == "north%20yard/Esche%20%232%20%C3%BC.stackplan"


def test_a_colon_in_a_relative_path_is_not_taken_for_a_scheme():
    # RFC 3986, 4.2.
    assert uri("a:b.stackplan") == "a%3Ab.stackplan"


def test_an_absolute_path_is_a_file_uri():
    assert uri("/yard/b2.stackplan") == "file:///yard/b2.stackplan"
