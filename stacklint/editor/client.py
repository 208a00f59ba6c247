"""What a client of the protocol can do, as far as answers depend on it."""

from __future__ import annotations

from lsprotocol import types


def markdown(capabilities: types.ClientCapabilities) -> bool:
    """The client shows Markdown in what hovers."""
    text = capabilities.text_document
    forms = text.hover.content_format if text is not None and text.hover is not None else None
    return types.MarkupKind.Markdown in (forms or ())


def related(capabilities: types.ClientCapabilities) -> bool:
    """The client shows further places beside a diagnostic."""
    text = capabilities.text_document
    shown = text.publish_diagnostics if text is not None else None
    return bool(shown is not None and shown.related_information)


def watches_files(capabilities: types.ClientCapabilities) -> bool:
    """The client can be asked to tell of changes of files."""
    workspace = capabilities.workspace
    watched = workspace.did_change_watched_files if workspace is not None else None
    return bool(watched is not None and watched.dynamic_registration)


def nested_symbols(capabilities: types.ClientCapabilities) -> bool:
    """The client shows symbols within symbols."""
    text = capabilities.text_document
    symbols = text.document_symbol if text is not None else None
    return bool(symbols is not None and symbols.hierarchical_document_symbol_support)
