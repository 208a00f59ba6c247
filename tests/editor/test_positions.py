"""Places as the Language Server Protocol 3.17 counts them ("Position", "PositionEncodingKind")."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.editor.positions import Encoding, Page, Point, Spot
from stacklint.where import Where


def test_a_letter_beyond_the_first_plane_counts_two_in_utf_16():
    # LSP 3.17, "Text Documents": in a𐐀b the character offset of b is 3.
    page = Page("a𐐀b")
    assert page.spot(Point(0, 3)) == Spot(1, 3)
    assert page.point(1, 3) == Point(0, 3)


@pytest.mark.parametrize("encoding, character", [(Encoding.UTF_8, 5), (Encoding.UTF_16, 3), (Encoding.UTF_32, 2)])
def test_the_same_place_has_its_own_count_in_each_encoding(encoding, character):
    page = Page("a𐐀b", encoding)
    assert page.point(1, 3) == Point(0, character)
    assert page.spot(Point(0, character)) == Spot(1, 3)


def test_a_place_amid_a_letter_lies_before_it():
    assert Page("a𐐀b").spot(Point(0, 2)) == Spot(1, 2)


def test_lines_end_as_the_protocol_says_and_at_nothing_else():
    page = Page("one\r\ntwo\rthree\nfo\u2028u\x0br")
    assert page.lines == ["one", "two", "three", "fo\u2028u\x0br"]


@pytest.mark.parametrize(
    "point, spot",
    [
        (Point(0, 99), Spot(1, 4)),
        (Point(9, 0), Spot(2, 3)),
        (Point(-1, -5), Spot(1, 1)),
        (Point(2**31 - 1, 2**31 - 1), Spot(2, 3)),
    ],
)
def test_a_place_beyond_its_line_or_text_lies_at_its_end(point, spot):
    assert Page("ash\n4/").spot(point) == spot


@given(st.text("aé𐐀 \n¼", max_size=40), st.sampled_from(Encoding), st.data())
def test_there_and_back_is_the_same_place(text, encoding, data):
    page = Page(text, encoding)
    line = data.draw(st.integers(1, len(page.lines)))
    column = data.draw(st.integers(1, len(page.lines[line - 1]) + 1))
    assert page.spot(page.point(line, column)) == Spot(line, column)


def test_a_stretch_past_the_end_of_the_text_ends_with_it():
    assert Page("ash").stretch(Where("-", 1, 2, 7, 3)).end == Point(0, 2)
