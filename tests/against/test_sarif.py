"""The SARIF report against the published JSON schema of SARIF 2.1.0.

``data/sarif-schema-2.1.0.json`` is the schema that OASIS published, in its version 2.1.0-rtm.5; the text
beside it tells where the copy is from. Section numbers are those of the standard (memory).
"""

import json
from pathlib import Path

import jsonschema
import pytest

from stacklint.checking import check
from stacklint.command.main import main
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


BOTH = """\
{site}
pile "{name}"
  place open yard
  spot "row 1"
  stacked {day}
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green
  stack 8 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 24 in, dry
"""


def run_of(text, path="b2.stackplan", troubles=()):
    answers = Answers((Answer(check(text, path), builtin()),), tuple(troubles))
    return only_run(as_sarif(answers))


def only_run(text):
    log = json.loads(text)
    jsonschema.Draft4Validator(SCHEMA, format_checker=jsonschema.FormatChecker()).validate(log)
    (run,) = log["runs"]
    return run


@pytest.fixture
def yard(tmp_path, monkeypatch):
    """A project with two piles in one spot, each in a folder of its own."""
    (tmp_path / ".git").mkdir()
    for name, day in (("one", "2026-03-01"), ("two", "2026-03-08")):
        (tmp_path / f"{name} yard").mkdir()
        text = BOTH.format(site='site "Bottom"\n  near "Columbus, OH"\n', name=name, day=day)
        (tmp_path / f"{name} yard" / f"{name}.stackplan").write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def checked(capsys, *words):
    main(["check", *words, "--as", "sarif", "--today", "2026-06-01"])
    return only_run(capsys.readouterr().out)


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


def test_the_description_of_a_rule_is_whole():
    # 3.49.3 id, 3.49.9 shortDescription, 3.49.10 fullDescription, 3.49.13 help, 3.49.14 defaultConfiguration;
    # 3.8.2 tags.
    for rule in run_of(GREEN_ASH)["tool"]["driver"]["rules"]:
        known = builtin().rule(rule["id"])
        assert rule["shortDescription"]["text"].endswith(".")
        assert rule["fullDescription"]["text"] in rule["help"]["text"]
        assert rule["defaultConfiguration"]["level"] == known.levels[0].value
        assert rule.get("properties", {}).get("tags", []) == ([known.card] if known.card else [])
        for limit in known.limits:
            assert f"Limit {limit.name}" in rule["help"]["text"]


@pytest.mark.usefixtures("yard")
def test_what_is_found_between_two_plans_names_the_place_in_the_other(capsys):
    # 3.27.22 relatedLocations; 3.28.5 message.
    (clash,) = (each for each in checked(capsys, ".")["results"] if each["ruleId"] == "spot-double-booked")
    assert place_of(clash["locations"][0]) == ("two%20yard/two.stackplan", 6)
    (other,) = clash["relatedLocations"]
    assert place_of(other) == ("one%20yard/one.stackplan", 6)
    assert other["message"]["text"] == "pile one"


def place_of(location):
    place = location["physicalLocation"]
    return place["artifactLocation"]["uri"], place["region"]["startLine"]


def addresses(value):
    if isinstance(value, dict):
        if "artifactLocation" in value:
            yield value["artifactLocation"]["uri"], value["artifactLocation"].get("uriBaseId")
        value = list(value.values())
    if isinstance(value, list):
        for member in value:
            yield from addresses(member)


def test_addresses_count_from_the_project_s_first_folder_wherever_the_check_is_run(yard, capsys, monkeypatch):
    # 3.4.4 uriBaseId; 3.14.14 originalUriBaseIds, whose uri may be left out.
    first = checked(capsys, ".")
    monkeypatch.chdir(yard / "one yard")
    below = checked(capsys, "..")
    whole = checked(capsys, str(yard))
    assert set(addresses(first)) == {(f"{name}%20yard/{name}.stackplan", "PROJECT") for name in ("one", "two")}
    assert list(addresses(first)) == list(addresses(below)) == list(addresses(whole))
    for run in (first, below, whole):
        assert set(run["originalUriBaseIds"]["PROJECT"]) == {"description"}
    assert str(yard) not in json.dumps([first, below])


def test_each_result_has_a_fingerprint_that_is_the_same_wherever_the_check_is_run(yard, capsys, monkeypatch):
    # 3.27.17 partialFingerprints.
    def prints(run):
        found = [result["partialFingerprints"] for result in run["results"]]
        assert all(set(each) == {"stacklintFinding/v1"} for each in found)
        assert len({each["stacklintFinding/v1"] for each in found}) == len(found)
        return found

    first = prints(checked(capsys, "."))
    monkeypatch.chdir(yard / "two yard")
    assert prints(checked(capsys, str(yard))) == first


def test_columns_are_counted_in_characters():
    # 3.14.17 columnKind: a character outside the Basic Multilingual Plane is one.
    run = run_of('pile "A"\n  boards a: 8 of "\U0001f332" 4/4 x 6 in x 8 ft, gren\n')
    assert run["columnKind"] == "unicodeCodePoints"
    ends = {each["locations"][0]["physicalLocation"]["region"]["endColumn"] for each in run["results"]}
    assert len('  boards a: 8 of "\U0001f332" 4/4 x 6 in x 8 ft, gren') + 1 in ends


def test_only_with_a_record_of_accepted_findings_a_result_has_a_state():
    # 3.27.24 baselineState.
    assert not any("baselineState" in result for result in run_of(GREEN_ASH)["results"])


def test_with_a_record_the_log_is_sarif_too(yard, capsys):
    words = (".", "--accept-today", "accepted.txt")
    assert {result["baselineState"] for result in checked(capsys, *words)["results"]} == {"new"}
    (yard / "one yard" / "one.stackplan").unlink()
    states = {result["baselineState"] for result in checked(capsys, *words)["results"]}
    assert states == {"unchanged", "absent"}


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
                "artifactLocation": {"uri": "north%20yard/house.rules", "uriBaseId": "PROJECT"},
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
