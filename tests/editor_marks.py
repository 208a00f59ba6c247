"""Texts in which ``|`` marks where the cursor stands, and what the editor's answers make of them."""

from __future__ import annotations

from stacklint.changes import Change, changed
from stacklint.editor.completion import completion
from stacklint.editor.names import Laid, laid
from stacklint.editor.offers import Offer
from stacklint.editor.positions import Page, Spot
from stacklint.editor.rule_answers import rule_completion
from stacklint.rulebook import builtin

YARD = """\
site "Cold Hollow"
  near "Columbus, OH"

kiln "North box"
  type dehumidification

wood "bog oak"
  like white oak

pile "B2" "Ash for flooring"
  place open yard, site "Cold Hollow"
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green
  stack 16 ft x 4 ft
"""


def marked(text: str) -> tuple[Page, Spot]:
    """The text without its mark, and where that stood."""
    before, mark, after = text.partition("|")
    assert mark, "no place is marked"
    line = before.count("\n") + 1
    return Page(before + after), Spot(line, len(before) - before.rfind("\n"))


def offered(text: str, use=None) -> tuple[Offer, ...]:
    """What is offered at the mark of a plan."""
    page, spot = marked(text)
    return completion(page, laid(page.text, "-"), spot, builtin(), use)


def shown(text: str, use=None) -> list[str]:
    return [offer.shown for offer in offered(text, use)]


def rules_offered(text: str) -> list[str]:
    page, spot = marked(text)
    return [offer.shown for offer in rule_completion(page, spot, builtin())]


def taken(text: str, which: str, use=None) -> str:
    """The plan once the offer shown as ``which`` is taken."""
    page, _ = marked(text)
    (offer,) = [each for each in offered(text, use) if each.shown == which]
    return changed(page.text, [Change(offer.where, offer.text)])


def laid_out(text: str, path: str = "-") -> tuple[Laid, Spot]:
    page, spot = marked(text)
    return laid(page.text, path), spot
