"""The record of accepted findings as text: what is written is read, and nothing else is taken for it."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from stacklint.findings import Finding, Level
from stacklint.report.accepted import Accepted, FaultyRecordError, Record, accepted, read, written
from stacklint.report.kept import Told
from stacklint.where import Where

NAMES = st.text(max_size=12)
FOUND = st.builds(
    lambda rule, level, message, stack, path, others, fingerprint: accepted(
        Finding(rule, level, message, "", Where("", 1, 1, 1, 2), stack), fingerprint, path, others
    ),
    st.from_regex(r"[a-z]{1,6}-[a-z]{1,6}", fullmatch=True),
    st.sampled_from(Level),
    NAMES,
    st.none() | NAMES,
    NAMES,
    st.lists(NAMES.filter(lambda name: name.strip() != ""), max_size=2),
    st.from_regex(r"[0-9a-f]{32}", fullmatch=True),
)


def one(level: Level, fingerprint: str = "a" * 32, message: str = "It hangs.") -> Accepted:
    return Accepted(fingerprint, level, "end-sticker-missing", "b2.stackplan", "B2", message)


def told(level: Level) -> Told:
    return Told(Finding("end-sticker-missing", level, "It hangs.", "", Where("", 1, 1, 1, 2)), "a" * 32)


@given(st.lists(FOUND, max_size=6, unique_by=lambda each: each.fingerprint))
def test_a_record_is_read_as_it_was_written_whatever_names_are_in_it(found: list[Accepted]) -> None:
    assert {each._replace(line=0) for each in read(written(found)).all} == set(found)


@given(st.lists(FOUND, max_size=6), st.randoms())
def test_the_order_in_which_findings_come_does_not_matter(found: list[Accepted], random) -> None:
    shuffled = random.sample(found, len(found))
    assert written(shuffled) == written(found)


@given(st.text() | st.lists(st.sampled_from(["a", "\t", "error", "\n", "#", "<<<<<<<", " "])).map("".join))
def test_any_text_is_a_record_or_is_told_to_be_none(text: str) -> None:
    try:
        read(text)
    except FaultyRecordError as error:
        assert str(error).startswith("line ")


def test_what_is_told_in_two_plans_stands_there_once_and_the_gravest_counts() -> None:
    text = written([one(Level.WARNING), one(Level.ERROR, message="It hangs far."), one(Level.NOTE)])
    (kept,) = read(text).all
    assert kept.level is Level.ERROR


def test_of_two_lines_for_one_finding_the_graver_counts() -> None:
    for levels in ((Level.NOTE, Level.ERROR), (Level.ERROR, Level.NOTE)):
        assert Record(map(one, levels)).has(told(Level.ERROR))


def test_a_graver_finding_was_not_accepted_but_is_known() -> None:
    record = Record([one(Level.WARNING)])
    assert record.has(told(Level.WARNING))
    assert record.has(told(Level.NOTE))
    assert not record.has(told(Level.ERROR))
    assert record.knows("a" * 32)
    assert not record.knows("b" * 32)
