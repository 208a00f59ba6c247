"""Answers in the types of the Language Server Protocol 3.17."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from types import MappingProxyType

from lsprotocol import types

from stacklint.changes import Change
from stacklint.editor.findings import Told
from stacklint.editor.hover import Page as HoverPage
from stacklint.editor.offers import Offer, OfferKind
from stacklint.editor.positions import Page, Point, Spot
from stacklint.editor.symbols import Fold, Symbol, SymbolKind
from stacklint.findings import Level
from stacklint.report.plain import plain
from stacklint.where import Where

_SEVERITIES: Mapping[Level, types.DiagnosticSeverity] = MappingProxyType(
    {
        Level.ERROR: types.DiagnosticSeverity.Error,
        Level.WARNING: types.DiagnosticSeverity.Warning,
        Level.NOTE: types.DiagnosticSeverity.Information,
    }
)
_OFFERS: Mapping[OfferKind, types.CompletionItemKind] = MappingProxyType(
    {
        OfferKind.KEYWORD: types.CompletionItemKind.Keyword,
        OfferKind.DETAIL: types.CompletionItemKind.Property,
        OfferKind.WORD: types.CompletionItemKind.Operator,
        OfferKind.UNIT: types.CompletionItemKind.Unit,
        OfferKind.WOOD: types.CompletionItemKind.EnumMember,
        OfferKind.PLACE: types.CompletionItemKind.Constant,
        OfferKind.NAME: types.CompletionItemKind.Reference,
        OfferKind.RULE: types.CompletionItemKind.Event,
        OfferKind.FACT: types.CompletionItemKind.Field,
        OfferKind.COLLECTION: types.CompletionItemKind.Variable,
    }
)
_SYMBOLS: Mapping[SymbolKind, types.SymbolKind] = MappingProxyType(
    {
        SymbolKind.SITE: types.SymbolKind.Namespace,
        SymbolKind.KILN: types.SymbolKind.Object,
        SymbolKind.WOOD: types.SymbolKind.Constant,
        SymbolKind.PILE: types.SymbolKind.Class,
        SymbolKind.CHARGE: types.SymbolKind.Class,
        SymbolKind.BOARDS: types.SymbolKind.Field,
        SymbolKind.RULE: types.SymbolKind.Function,
    }
)
_ESCAPE = re.compile(r"\\([^\w\s])|[*`]")


def position(point: Point) -> types.Position:
    return types.Position(line=point.line, character=point.character)


def spot(page: Page, given: types.Position) -> Spot:
    return page.spot(Point(given.line, given.character))


def span(page: Page, where: Where) -> types.Range:
    start, end = page.stretch(where)
    return types.Range(start=position(start), end=position(end))


def diagnostic(page: Page, told: Told, related: types.Location | None) -> types.Diagnostic:
    """A finding. ``related`` is its place in another file, if the client can show one."""
    elsewhere = None
    if related is not None:
        elsewhere = [types.DiagnosticRelatedInformation(location=related, message="It stands here.")]
    return types.Diagnostic(
        range=span(page, told.where),
        message=plain(told.message),
        severity=_SEVERITIES[told.level],
        code=told.rule,
        source="stacklint",
        related_information=elsewhere,
    )


def completion_item(page: Page, offer: Offer, order: int) -> types.CompletionItem:
    return types.CompletionItem(
        label=plain(offer.shown),
        kind=_OFFERS[offer.kind],
        detail=plain(offer.detail) or None,
        documentation=plain(offer.means) or None,
        # What editors match against what is written, and the order that they keep among equals.
        filter_text=offer.text,
        sort_text=f"{order:04}",
        text_edit=types.TextEdit(range=span(page, offer.where), new_text=offer.text),
    )


def hover(page: Page, answer: HoverPage, *, markdown: bool) -> types.Hover:
    kind = types.MarkupKind.Markdown if markdown else types.MarkupKind.PlainText
    text = answer.text if markdown else _ESCAPE.sub(r"\1", answer.text)
    return types.Hover(contents=types.MarkupContent(kind=kind, value=text), range=span(page, answer.where))


def symbol(page: Page, one: Symbol) -> types.DocumentSymbol:
    return types.DocumentSymbol(
        name=plain(one.name) or one.kind.value,
        detail=plain(one.detail),
        kind=_SYMBOLS[one.kind],
        range=span(page, one.where),
        selection_range=span(page, one.name_where),
        children=[symbol(page, part) for part in one.parts],
    )


def folding_range(fold: Fold) -> types.FoldingRange:
    kind = types.FoldingRangeKind.Comment if fold.comment else types.FoldingRangeKind.Region
    return types.FoldingRange(start_line=fold.first - 1, end_line=fold.last - 1, kind=kind)


def text_edits(page: Page, changes: Iterable[Change]) -> list[types.TextEdit]:
    return [types.TextEdit(range=span(page, change.where), new_text=change.text) for change in changes]
