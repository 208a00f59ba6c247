"""Elements of drawings: short numbers, escaped texts, drawings that name themselves."""

from xml.etree.ElementTree import fromstring

from hypothesis import given
from hypothesis import strategies as st

from stacklint.report.svg import as_text, drawing, element, number


def test_attributes_are_named_with_hyphens_and_numbers_written_short():
    made = element("rect", class_="board", stroke_width=0.5, x=2.0, y=-0.001, data_course=3, rx=None)
    assert as_text(made) == '<rect class="board" stroke-width="0.5" x="2" y="0" data-course="3" />'


def test_children_are_elements_and_texts_in_their_order():
    made = element("text", "a ", element("tspan", "b"), " c", None)
    assert as_text(made) == "<text>a <tspan>b</tspan> c</text>"


def test_a_drawing_names_and_describes_itself():
    made = drawing(200, 99.5, element("path", d="M0 0"), title="Side", desc="A pile.", name="side-3")
    assert made.get("viewBox") == "0 0 200 99.5"
    assert made.get("aria-labelledby") == "side-3-title side-3-desc"
    assert [each.tag for each in made] == ["title", "desc", "path"]
    assert as_text(made).startswith("<svg ")


@given(st.text(max_size=40), st.text(max_size=40))
def test_any_text_comes_back_as_text(said, name):
    made = element("text", said, data_name=name.replace("\r", ""))
    read = fromstring(as_text(element("g", made)).encode("utf-8", "replace")) if _printable(said + name) else made
    assert read is not None
    assert "<script" not in as_text(made)
    assert not [letter for letter in as_text(element("text", said)) if not letter.isprintable()]


def test_markup_in_a_text_or_an_attribute_is_escaped():
    made = as_text(element("text", '<script>"&', title='"><img src=x>'))
    assert made == '<text title="&quot;&gt;&lt;img src=x&gt;">&lt;script&gt;"&amp;</text>'


@given(st.floats(allow_nan=True, allow_infinity=True))
def test_numbers_are_plain(value):
    assert "e" not in number(value)
    assert "n" not in number(value)


def _printable(text):
    return all(letter.isprintable() and ord(letter) not in range(0xD800, 0xE000) for letter in text)
