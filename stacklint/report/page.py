"""Pages for a browser and for paper: templates filled in, every text from a plan escaped.

A page is one file: its look and its drawings stand in it, and its policy lets a browser fetch nothing at all.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from stacklint.report.plain import plain

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup


def rendered(template: str, **values: object) -> str:
    """The template of that name filled in. A name that the template asks for and nobody gives is an error."""
    return _environment().get_template(template).render(**values)


@cache
def _environment() -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    environment = Environment(
        loader=PackageLoader("stacklint.report"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        finalize=_on_one_line,
        auto_reload=False,
    )
    environment.filters["drawn"] = _drawn
    return environment


def _on_one_line(value: object) -> object:
    """Controls and characters that reorder text are written out; markup made here stays as it is."""
    return plain(value) if type(value) is str else value


def _drawn(drawing: Element) -> Markup:
    """A drawing as markup: the serialiser has escaped what a plan says in it."""
    from markupsafe import Markup

    from stacklint.report.svg import as_text

    return Markup(as_text(drawing))
