"""What a plan says reaches a reader as text, never as a command to the terminal."""

import unicodedata

from hypothesis import given
from hypothesis import strategies as st

from stacklint.report.plain import plain


def test_an_escape_sequence_in_a_name_is_written_out():
    assert plain("B2\x1b[31m") == "B2\\x1b[31m"


def test_a_name_that_turns_the_writing_direction_is_written_out():
    assert plain("B2\u202egnisir") == "B2\\u202egnisir"


def test_an_eight_bit_control_is_written_out():
    assert plain("\x9b2J") == "\\x9b2J"


def test_line_ends_and_tabs_become_blanks():
    assert plain("row\n3\tleft") == "row 3 left"


def test_names_in_any_script_stay_as_they_are():
    assert plain("Лиственница – 落葉松 é ½") == "Лиственница – 落葉松 é ½"


@given(st.text())
def test_nothing_is_left_that_unicode_calls_a_control_or_a_format_character(text):
    assert not {"Cc", "Cf", "Cs", "Zl", "Zp"} & {unicodedata.category(character) for character in plain(text)}


@given(st.text(st.characters(categories=["L", "N", "P", "S"])))
def test_text_without_controls_is_not_changed(text):
    assert plain(text) == text
