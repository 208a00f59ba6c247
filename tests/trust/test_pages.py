"""What a plan, house rules or the name of a file says stands in a page as text: no markup, no address, no script."""

from __future__ import annotations

import base64
import contextlib
import hashlib
import re
from collections.abc import Iterator

import pytest
from hostile_yard import MARKS, TODAY, Yard, harmful, hostile_yard, told
from read_page import ReadPage

COMMANDS = {
    "build sheet": lambda yard: ["sheet", yard.plan, *TODAY],
    "build sheet of a faulty plan": lambda yard: ["sheet", yard.faulty, *TODAY],
    "co-op": lambda yard: [
        *("check", yard.plan, yard.faulty, "gone.stackplan", "--as", "html", "--sheets", "sheets", *TODAY),
    ],
    "calendar": lambda yard: ["calendar", yard.plan, yard.faulty, "gone.stackplan", "--as", "html", *TODAY],
    "rule book": lambda _: ["why", "--all", "--as", "html"],
}
MADE_HERE = {
    *("html", "head", "meta", "link", "title", "style", "body", "main", "header", "footer", "nav", "section"),
    *("article", "h1", "h2", "h3", "h4", "h5", "p", "a", "ul", "ol", "li", "dl", "dt", "dd", "table", "caption"),
    *("thead", "tbody", "tfoot", "tr", "th", "td", "span", "strong", "em", "b", "i", "code", "pre", "div"),
    *("figure", "figcaption", "time", "data", "abbr", "small", "label", "input", "select", "option", "button"),
    *("details", "summary", "br", "hr", "wbr", "mark", "script", "svg", "g", "path", "rect", "line", "polyline"),
    *("polygon", "circle", "text", "tspan", "desc", "defs", "pattern", "clippath", "use", "form"),
}
"""The elements that the templates may have; none that fetches, embeds or sets a base."""


@pytest.fixture(scope="module", params=["markup", "links", "joiners", "escapes"])
def mark(request):
    return MARKS[request.param]


@pytest.fixture(scope="module")
def yard(tmp_path_factory, mark) -> Iterator[Yard]:
    made = hostile_yard(tmp_path_factory.mktemp("yard"), mark)
    with contextlib.chdir(made.folder):
        yield made


@pytest.fixture(scope="module", params=COMMANDS.values(), ids=COMMANDS)
def html(request, yard) -> str:
    return told(request.param(yard))[0]


@pytest.fixture(scope="module")
def page(html) -> ReadPage:
    return ReadPage(html)


def test_a_page_holds_the_elements_that_were_made_here_and_no_others(page):
    assert page.elements
    assert {tag for tag, _ in page.elements} <= MADE_HERE
    assert page.unclosed == []


def test_no_attribute_runs_a_script_or_leads_away(page):
    for tag, given in page.elements:
        assert not [name for name in given if name.startswith("on") or name in ("srcdoc", "formaction", "ping")], tag
        for name in ("href", "src", "xlink:href", "action", "data", "poster"):
            address = given.get(name, "#")
            assert re.match(r"#|data:,|sheets/[^:]*\Z", address), (tag, address)
            assert harmful(address) == set()


def test_the_only_script_is_the_one_that_the_policy_names(html, page):
    (policy,) = (given["content"] for _, given in page.elements if given.get("http-equiv"))
    assert policy.startswith("default-src 'none'; ")
    assert ("script-src" in policy) is ("<script>" in html)
    scripts = re.findall(r"<script>(.*?)</script>", html, re.DOTALL)
    assert len(scripts) == sum(tag == "script" for tag, _ in page.elements)
    for script in scripts:
        assert base64.b64encode(hashlib.sha256(script.encode()).digest()).decode() in policy


def test_nothing_in_a_page_hides_or_turns_text_round(html):
    assert harmful(html) == set()


def test_the_marks_are_there_to_read(page, mark):
    shown = mark[:12] if mark.isprintable() else mark[0].encode("unicode_escape").decode()
    assert " ".join(shown.split()) in page.text
