"""The line format against the GNU Coding Standards, section 4.4: ``sourcefile:lineno:column: message``."""

import re

from stacklint.findings import Level
from stacklint.report.lines import lines


def told(checked):
    return lines(checked.path, checked.findings)


GNU = re.compile(
    r"(?P<file>[^:]+):(?P<line>\d+):(?P<column>\d+): (?P<level>error|warning|note): (?P<said>.*) \[(?P<rule>[a-z-]+)\]"
)


def test_a_finding_is_one_line_with_its_place_level_words_and_rule(yard):
    (line,) = told(yard.checked(yard.finding()))
    assert line == (
        "b2.stackplan:14:3: error: The end of 4 of white ash 4/4 x 6 in x 12 ft hangs 2 ft past its last sticker."
        " Set a sticker within 3 in of that end. (and 3 more like it) [end-sticker-missing]"
    )


def test_every_line_reads_by_the_gnu_format(yard):
    findings = [yard.finding(level=level, more=more) for level in Level for more in (0, 2)]
    for line, finding in zip(told(yard.checked(*findings)), findings, strict=True):
        read = GNU.fullmatch(line)
        assert read
        assert (read["file"], read["line"], read["level"]) == ("b2.stackplan", "14", finding.level.value)


def test_a_finding_in_a_used_text_names_that_text(yard):
    where = yard.where(2)._replace(path="shared/yard.stackplan")
    (line,) = told(yard.checked(yard.finding(where=where)))
    assert line.startswith("shared/yard.stackplan:2:3: ")


def test_a_finding_in_a_used_text_tells_which_stack_it_speaks_of(yard):
    where = yard.where(2)._replace(path="shared/yard.stackplan")
    (line,) = told(yard.checked(yard.finding(where=where, stack="C1", more=0)))
    assert line.endswith("(found for C1 of b2.stackplan) [end-sticker-missing]")
    (line,) = told(yard.checked(yard.finding(stack="C1", more=0)))
    assert "found for" not in line


def test_a_fault_of_a_used_text_is_of_no_stack(yard):
    where = yard.where(2)._replace(path="shared/yard.stackplan")
    (line,) = told(yard.checked(yard.finding(where=where, stack=None, more=0)))
    assert "found for" not in line


def test_a_message_with_line_ends_and_escapes_stays_one_harmless_line(yard):
    (line,) = told(yard.checked(yard.finding(message="first\nsecond\r\x1b[2J\u2028third", more=0)))
    assert "first second \\x1b[2J third" in line
    assert line.isprintable()


def test_a_caution_goes_with_its_line(yard):
    (line,) = told(yard.checked(yard.finding(caution="Keep clear of its long sides.")))
    assert "Keep clear of its long sides. [" in line


def test_a_finding_of_the_whole_text_stands_at_its_first_line(yard):
    where = yard.where(0, 0, 0)._replace(path="")
    (line,) = told(yard.checked(yard.finding(where=where)))
    assert line.startswith("b2.stackplan:1:1: ")


def test_a_plan_without_findings_prints_no_line(yard):
    assert list(told(yard.checked())) == []
