"""A plan in other characters than those of a plain keyboard means the same, or its fault stands where they do."""

from __future__ import annotations

import unicodedata

import pytest

from stacklint import language
from stacklint.plan.yard import Plan

PLAIN = """\
site "Cold Hollow"
  near "Columbus, OH"
  month jan -1 C 74%
kiln "Büro 1"
  inside 17 ft x 5 ft x 6 ft
pile "B2" "Ash for flooring"
  place open yard, site "Cold Hollow"
  spot "row 3"
  sawn 2026-03-30
  boards a: 60 of white ash 5/4 x 6 in x 8 ft, 35%
  boards b: 1,400 bf of white ash 3/4 in x 5 to 9 in x 12 ft 6 in, 12.5%
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 24 in, 1 in from ends, dry, 4 ft long
charge "C" in kiln "Büro 1"
  runs 110 F 60%
"""
BLANKS = "\t\u00a0\u2000\u2002\u2003\u2007\u2009\u200a\u202f\u205f\u3000"


def read(text: str) -> Plan:
    result = language.read(text)
    assert result.faults == ()
    return result.plan


def with_(plain: str, other: str) -> str:
    assert plain in PLAIN
    return PLAIN.replace(plain, other)


@pytest.mark.parametrize("blank", BLANKS, ids=lambda blank: f"U+{ord(blank):04X}")
def test_blanks_of_any_width_are_blanks(blank: str) -> None:
    assert read(PLAIN.replace(" ", blank)) == read(PLAIN)


@pytest.mark.parametrize(
    "text",
    [
        PLAIN.replace("\n", "\r\n"),
        "\ufeff" + PLAIN,
        with_("3/4 in x 5", "¾ in x 5"),
        with_("1 1/4", "1¼"),
        with_("1 1/4", "1\u00a0¼"),
        with_("1 1/4", "1-1/4"),
        with_("1 1/4", "1 1⁄4"),
        with_("3/4 in x 5", "3⁄4 in x 5"),
        with_("5/4", "5⁄4"),
        with_("12 ft 6 in", "12′ 6″"),
        with_("12 ft 6 in", "12’ 6”"),
        with_("12 ft 6 in", "12' 6\""),
        with_(" x ", " × "),
        with_("16 ft x 4 ft", "16 ft×4 ft"),
        with_("16 ft x 4 ft", "16 ft * 4 ft"),
        with_("-1 C", "−1 C"),
        with_("-1 C", "-1 °C"),
        with_("5 to 9", "5–9"),
        with_('"B2"', "“B2”"),
        with_('"Büro 1"', '"Bu\u0308ro\u00a01"'),
        unicodedata.normalize("NFD", PLAIN),
    ],
)
def test_another_way_to_write_it_means_the_same(text: str) -> None:
    assert read(text) == read(PLAIN)


def test_a_wood_s_name_may_have_its_accents_apart() -> None:
    named = 'wood "Bu\u0308che"\n  like white ash\n' + with_("60 of white ash", "60 of Bu\u0308che")
    assert read(named).stacks[0].boards[0].wood.text == "Büche"


NO_FIGURE = "is no figure of a plan"
NOT_SEEN = "cannot be seen"


@pytest.mark.parametrize(
    ("plain", "other", "at", "words"),
    [
        ("60 of", "６０ of", "６", NO_FIGURE),
        ("60 of", "٦٠ of", "٦", NO_FIGURE),
        ("60 of", "6٠ of", "٠", NO_FIGURE),
        ("60 of", "৪০ of", "৪", NO_FIGURE),  # forty; it reads as eighty
        ("60 of", "६० of", "६", NO_FIGURE),
        ("60 of", "𝟔𝟎 of", "𝟔", NO_FIGURE),
        ("60 of", "⑥ of", "⑥", NO_FIGURE),
        ("60 of", "Ⅵ of", "Ⅵ", NO_FIGURE),
        ("60 of", "6² of", "²", NO_FIGURE),
        ("3/4 in x 5", "⅓ in x 5", "⅓", NO_FIGURE),
        ("2026-03-30", "٢٠٢٦-٠٣-٣٠", "٢", NO_FIGURE),
        ("12.5%", "١٢٫٥%", "١", NO_FIGURE),
        ("12.5%", "12,5%", "12,5", "could be a decimal figure or two figures"),
        ("12.5%", "12·5%", "·", "means nothing"),
        ("35%", "35％", "％", "means nothing"),
        ("8 ft, 35%", "8 ft， 35%", "，", "means nothing"),
        ("3/4 in x 5", "3∕4 in x 5", "∕", "means nothing"),
        ("-1 C", "–1 C", "–", "means nothing"),
        ("-1 C", "－1 C", "－", "means nothing"),
        ("-1 C", "‑1 C", "‑", "means nothing"),
        ("1,400 bf", "1 400 bf", "400", "does not belong here"),
        ("1,400 bf", "1\u202f400 bf", "400", "does not belong here"),
        ("16 ft x 4 ft", "16 ft х 4 ft", "х", "does not belong here"),  # a Cyrillic letter
        ('"B2"', "„B2“", "„", "means nothing"),
        ('"B2"', "«B2»", "«", "means nothing"),
        ("60 of", "6\u200b0 of", "\u200b", NOT_SEEN),
        ("60 of", "6\u20600 of", "\u2060", NOT_SEEN),
        ("60 of", "\ufeff60 of", "\ufeff", NOT_SEEN),
        ('"row 3"', '"row\u200b 3"', "\u200b", NOT_SEEN),
        ('"row 3"', '"row\u00ad 3"', "\u00ad", NOT_SEEN),
        ('"row 3"', '"row 3\u3164"', "\u3164", NOT_SEEN),
        ('"row 3"', '"row \u202e3"', "\u202e", NOT_SEEN),
        ('"row 3"', '"row \u20663\u2069"', "\u2066", NOT_SEEN),
        ('"row 3"', '"row 3\U000e0041"', "\U000e0041", NOT_SEEN),
        ('"row 3"', '"row\x9b3"', "\x9b", NOT_SEEN),
        ("  spot", "\r  spot", "\r", NOT_SEEN),
        ("  spot", "\x0b  spot", "\x0b", NOT_SEEN),
    ],
)
def test_what_could_mean_something_else_is_a_fault_where_it_stands(plain: str, other: str, at: str, words: str) -> None:
    text = with_(plain, other)
    fault = language.read(text).faults[0]
    place = text.index(at)
    line = text.count("\n", 0, place) + 1
    assert (fault.where.line, fault.where.column) == (line, place - text.rfind("\n", 0, place))
    assert words in fault.message


@pytest.mark.parametrize("word", ["stick\u00aders", "stick\u200bers", "ｓｔｉｃｋｅｒｓ", "ſtickers", "stіckers"])
def test_a_keyword_that_only_looks_like_one_is_a_fault_at_its_place(word: str) -> None:
    (fault, *_) = language.read(with_("stickers 3/4", f"{word} 3/4")).faults
    assert (fault.where.line, fault.where.column) == (13, 3)
    assert "does not begin any statement" in fault.message


def test_no_figure_is_read_from_letters() -> None:
    for letters in ("inf", "nan", "1e1", "0x3c", "6_0", "+60", "infinity", "1_000"):
        assert language.read(with_("60 of", f"{letters} of")).faults
