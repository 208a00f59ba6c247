"""Drawings as SVG elements to stand in a page: what a plan says is escaped by the serialiser."""

from __future__ import annotations

import math
from xml.etree.ElementTree import Element, SubElement, tostring

from stacklint.report.plain import plain

Attribute = str | float | int | None
_DECIMALS = 2
"""A hundredth of a unit: of a millimetre in the drawings that are to scale."""


def element(tag: str, /, *children: Element | str | None, **attributes: Attribute) -> Element:
    """An element. Children that are ``None`` are left out, and so are attributes.

    In the names of attributes ``_`` stands for ``-``, but for a last one, which is dropped (``class_``); numbers are
    written short. Texts come on one line and with controls written out, as :func:`stacklint.report.plain.plain` does.
    """
    made = Element(tag)
    set_attributes(made, **attributes)
    last: Element | None = None
    for child in children:
        if child is None:
            continue
        if isinstance(child, Element):
            made.append(child)
            last = child
        elif last is None:
            made.text = (made.text or "") + plain(child)
        else:
            last.tail = (last.tail or "") + plain(child)
    return made


def set_attributes(made: Element, **attributes: Attribute) -> None:
    """Gives an element attributes, named and written as by :func:`element`."""
    for name, value in attributes.items():
        if value is not None:
            made.set(name.removesuffix("_").replace("_", "-"), value if isinstance(value, str) else number(value))


def drawing(
    width: float, height: float, *children: Element | None, title: str, desc: str, name: str, class_: str = "drawing"
) -> Element:
    """An ``<svg>`` of so many units that names and describes itself to a screen reader.

    ``name`` begins the ids in it, and no other drawing of a page may bear it.
    """
    made = Element("svg")
    made.set("viewBox", f"0 0 {number(width)} {number(height)}")
    set_attributes(made, class_=class_, role="img", aria_labelledby=f"{name}-title {name}-desc")
    SubElement(made, "title", id=f"{name}-title").text = plain(title)
    SubElement(made, "desc", id=f"{name}-desc").text = plain(desc)
    made.extend(child for child in children if child is not None)
    return made


def as_text(made: Element) -> str:
    """The markup, to stand in HTML: no declaration and no namespace."""
    return tostring(made, encoding="unicode")


def number(value: float) -> str:
    """A number as short as it may be to a hundredth: *3*, *0.25*, *-12.7*. One that is not finite is taken for 0."""
    if not math.isfinite(value):
        return "0"
    text = f"{value:.{_DECIMALS}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
