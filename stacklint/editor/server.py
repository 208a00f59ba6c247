"""The language server: the protocol at one end, the pure answers at the other."""

from __future__ import annotations

import datetime
import functools
import logging
import os
import sys
from pathlib import Path
from typing import Any

from lsprotocol import types
from pygls.exceptions import JsonRpcException, PyglsError
from pygls.lsp.server import LanguageServer
from pygls.protocol import LanguageServerProtocol
from pygls.uris import to_fs_path

from stacklint import __version__
from stacklint.changes import Change, line_changes
from stacklint.editor import client, protocol
from stacklint.editor.checking import Checking
from stacklint.editor.completion import completion
from stacklint.editor.desk import Desk, Document
from stacklint.editor.findings import Told
from stacklint.editor.fixes import Fix, near_names
from stacklint.editor.hover import hover
from stacklint.editor.names import definition, mention_at, renamed
from stacklint.editor.positions import Encoding
from stacklint.editor.rule_answers import rule_completion, rule_hover
from stacklint.editor.symbols import Symbol, folds, plan_symbols, rule_symbols
from stacklint.editor.texts import Books
from stacklint.report.plain import plain
from stacklint.tidying import tidied
from stacklint.where import Where

_REQUEST_FAILED = -32803
"""``RequestFailed`` of the protocol: well formed, but it cannot be done."""
_NOT_BEGUN = -32002
"""``ServerNotInitialized`` of the protocol."""
_WATCHED = ("**/*.stackplan", "**/*.rules")
_TRIGGERS = ('"', ".", "{")
_SOON = 0.03
"""Seconds that an editor waits for mends that nobody asked for."""


class _Protocol(LanguageServerProtocol):
    """Refuses what the library leaves unanswered, or answers too soon.

    That is requests whose parameters cannot be read (JSON-RPC 2.0, 5.1), and what is sent before the session is begun
    (LSP 3.17, Initialize Request): requests are refused, notifications passed over.
    """

    def handle_message(self, message: Any) -> None:
        method = getattr(message, "method", None)
        # What the editor can do is known once its `initialize` was taken.
        if hasattr(self, "client_capabilities") or method in (types.INITIALIZE, types.EXIT):
            super().handle_message(message)
        elif method is not None and hasattr(message, "id"):
            error = types.ResponseError(code=_NOT_BEGUN, message="The session is not begun: send initialize first.")
            self._send_response(message.id, error=error)

    def structure_message(self, data: dict[str, Any]) -> Any:
        try:
            return super().structure_message(data)
        except JsonRpcException as error:
            if "id" in data and "method" in data:
                self._send_response(data["id"], error=error.to_response_error())
            raise


class Editor(LanguageServer):
    """One session with an editor.

    ``house`` are house rules in place of any ``house.rules``, ``today`` the day to judge by.
    """

    def __init__(self, house: Path | None = None, today: datetime.date | None = None) -> None:
        # Whole texts are sent: a plan is short, and there is no drift.
        kind = types.TextDocumentSyncKind.Full
        super().__init__("stacklint", __version__, text_document_sync_kind=kind, protocol_cls=_Protocol)
        self.closed_in_order = False
        self._desk = Desk(to_fs_path)
        self._checking = Checking(self._desk, Books(house), self._publish, today)
        self._register()

    def report_server_error(self, error: Exception, source: type[PyglsError] | type[JsonRpcException]) -> None:
        """Tells of a message that could not be answered, in one line on standard error."""
        print(plain(f"stacklint editor: {source.__name__}: {error}"), file=sys.stderr)

    # texts

    def _initialize(self, params: types.InitializeParams) -> None:
        given = [folder.uri for folder in params.workspace_folders or ()] or [params.root_uri or ""]
        paths = [path for path in (to_fs_path(uri) for uri in given if uri) if path]
        self._desk.folders = tuple(Path(path) for path in paths)

    def _initialized(self, _params: types.InitializedParams) -> None:
        if not client.watches_files(self.client_capabilities):
            return
        watchers = [types.FileSystemWatcher(glob_pattern=pattern) for pattern in _WATCHED]
        options = types.DidChangeWatchedFilesRegistrationOptions(watchers=watchers)
        method = types.WORKSPACE_DID_CHANGE_WATCHED_FILES
        registration = types.Registration(id="stacklint-files", method=method, register_options=options)
        self.client_register_capability(types.RegistrationParams(registrations=[registration]))

    def _opened(self, params: types.DidOpenTextDocumentParams) -> None:
        given = params.text_document
        # Agreed on with the answer to `initialize`; by now it has been given.
        agreed = self.server_capabilities.position_encoding or types.PositionEncodingKind.Utf16
        self._desk.encoding = Encoding(str(getattr(agreed, "value", agreed)))
        self._checking.soon(self._desk.put(given.uri, given.text, given.version, given.language_id), 0)

    def _changed(self, params: types.DidChangeTextDocumentParams) -> None:
        given = params.text_document
        if self._desk.get(given.uri) is not None:
            text = self.workspace.get_text_document(given.uri).source
            self._checking.soon(self._desk.put(given.uri, text, given.version))

    def _saved(self, params: types.DidSaveTextDocumentParams) -> None:
        document = self._desk.get(params.text_document.uri)
        if document is not None:
            self._checking.soon(document, 0)

    def _closed(self, params: types.DidCloseTextDocumentParams) -> None:
        document = self._desk.close(params.text_document.uri)
        if document is not None:
            self._checking.forget(document)

    def _files_changed(self, _params: types.DidChangeWatchedFilesParams) -> None:
        self._checking.all_soon()

    def _folders_changed(self, _params: types.DidChangeWorkspaceFoldersParams) -> None:
        paths = [path for path in (to_fs_path(folder.uri) for folder in self.workspace.folders.values()) if path]
        self._desk.folders = tuple(Path(path) for path in paths)
        self._checking.all_soon()

    def _shut_down(self, _params: None) -> None:
        self.closed_in_order = True

    def _publish(self, document: Document, told: tuple[Told, ...]) -> None:
        related = client.related(self.client_capabilities)
        found = [
            protocol.diagnostic(document.page, one, self._location(one.elsewhere, document) if related else None)
            for one in told
        ]
        params = types.PublishDiagnosticsParams(uri=document.uri, diagnostics=found, version=document.version)
        self.text_document_publish_diagnostics(params)

    # answers

    def _completion(self, params: types.CompletionParams) -> types.CompletionList | None:
        document = self._desk.get(params.text_document.uri)
        if document is None:
            return None
        page, at = document.page, protocol.spot(document.page, params.position)
        project = self._desk.project(document)
        book = self._checking.books.of(project).rules
        if document.rules:
            offers = rule_completion(page, at, book, document.shown)
        else:
            offers = completion(page, document.laid, at, book, project.use)
        items = [protocol.completion_item(page, offer, order) for order, offer in enumerate(offers)]
        return types.CompletionList(is_incomplete=False, items=items)

    def _hover(self, params: types.HoverParams) -> types.Hover | None:
        document = self._desk.get(params.text_document.uri)
        if document is None:
            return None
        page, at = document.page, protocol.spot(document.page, params.position)
        project = self._desk.project(document)
        book = self._checking.books.of(project).rules
        if document.rules:
            answer = rule_hover(page, at, book, document.shown)
        else:
            answer = hover(document.laid, at, book, project.use, self._checking.today)
        markdown = client.markdown(self.client_capabilities)
        return None if answer is None else protocol.hover(page, answer, markdown=markdown)

    def _symbols(
        self, params: types.DocumentSymbolParams
    ) -> list[types.DocumentSymbol] | list[types.SymbolInformation] | None:
        document = self._desk.get(params.text_document.uri)
        if document is None:
            return None
        found = [protocol.symbol(document.page, one) for one in _symbols_of(document)]
        if client.nested_symbols(self.client_capabilities):
            return found
        return [
            types.SymbolInformation(location=types.Location(document.uri, one.range), name=one.name, kind=one.kind)
            for one in found
        ]

    def _folds(self, params: types.FoldingRangeParams) -> list[types.FoldingRange] | None:
        document = self._desk.get(params.text_document.uri)
        if document is None:
            return None
        laid = None if document.rules else document.laid.outline
        found = folds(_symbols_of(document), document.page.text, laid)
        return [protocol.folding_range(fold) for fold in found]

    def _definition(self, params: types.DefinitionParams) -> types.Location | None:
        document = self._plan(params.text_document)
        if document is None:
            return None
        at = protocol.spot(document.page, params.position)
        return self._location(definition(document.laid, at, self._desk.project(document).use), document)

    def _can_rename(self, params: types.PrepareRenameParams) -> types.PrepareRenamePlaceholder | None:
        document = self._plan(params.text_document)
        found = mention_at(document.laid, protocol.spot(document.page, params.position)) if document else None
        if document is None or found is None:
            return None
        return types.PrepareRenamePlaceholder(range=protocol.span(document.page, found.inside), placeholder=found.name)

    def _rename(self, params: types.RenameParams) -> types.WorkspaceEdit | None:
        document = self._plan(params.text_document)
        if document is None:
            return None
        at = protocol.spot(document.page, params.position)
        use = self._desk.project(document).use
        answer = renamed(document.laid, at, params.new_name, use, self._desk.others(document))
        if answer is None:
            raise JsonRpcException("No site, kiln or pile is named here.", _REQUEST_FAILED)
        if answer.refused is not None:
            raise JsonRpcException(plain(answer.refused), _REQUEST_FAILED)
        edits: dict[str, list[types.TextEdit]] = {}
        for change in answer.changes:
            found = self._desk.page_of(change.where.path, document)
            if found is not None:
                edits.setdefault(found[0], []).extend(protocol.text_edits(found[1], [change]))
        return types.WorkspaceEdit(changes=edits)

    def _format(self, params: types.DocumentFormattingParams) -> list[types.TextEdit] | None:
        document = self._plan(params.text_document)
        if document is None:
            return None
        text = document.page.text
        return protocol.text_edits(document.page, line_changes(text, tidied(text), document.shown))

    async def _actions(self, params: types.CodeActionParams) -> list[types.CodeAction] | None:
        document = self._plan(params.text_document)
        only = params.context.only
        if document is None or (only and not any(types.CodeActionKind.QuickFix.startswith(kind) for kind in only)):
            return None
        # An editor asks by itself at every move of the cursor: then only what is known soon is offered.
        asked = params.context.trigger_kind is not types.CodeActionTriggerKind.Automatic
        told = await self._checking.settled(document) if asked else self._checking.told(document) or ()
        first, last = params.range.start.line + 1, params.range.end.line + 1
        here = [one for one in told if one.where.line <= last and one.where.end_line >= first]
        project = self._desk.project(document)
        book = self._checking.books.of(project).rules
        fixes = [fix for one in here for fix in near_names(document.page, document.laid, one, book, project.use)]
        fixes += await self._checking.mends(document, here, None if asked else _SOON)
        return [self._action(document, alike) for alike in _together(fixes)]

    def _action(self, document: Document, alike: list[Fix]) -> types.CodeAction:
        edits = protocol.text_edits(document.page, alike[0].changes)
        return types.CodeAction(
            title=plain(alike[0].title),
            kind=types.CodeActionKind.QuickFix,
            diagnostics=[protocol.diagnostic(document.page, fix.told, None) for fix in alike],
            edit=types.WorkspaceEdit(changes={document.uri: edits}),
            is_preferred=alike[0].surest,
        )

    # places

    def _plan(self, given: types.TextDocumentIdentifier) -> Document | None:
        document = self._desk.get(given.uri)
        return None if document is None or document.rules else document

    def _location(self, where: Where | None, seen_from: Document) -> types.Location | None:
        found = self._desk.page_of(where.path, seen_from) if where is not None else None
        if where is None or found is None:
            return None
        uri, page = found
        return types.Location(uri=uri, range=protocol.span(page, where))

    def _register(self) -> None:
        quick_fix = types.CodeActionOptions(code_action_kinds=[types.CodeActionKind.QuickFix])
        for method, answer, options in (
            (types.INITIALIZE, self._initialize, None),
            (types.INITIALIZED, self._initialized, None),
            (types.SHUTDOWN, self._shut_down, None),
            (types.TEXT_DOCUMENT_DID_OPEN, self._opened, None),
            (types.TEXT_DOCUMENT_DID_CHANGE, self._changed, None),
            (types.TEXT_DOCUMENT_DID_SAVE, self._saved, None),
            (types.TEXT_DOCUMENT_DID_CLOSE, self._closed, None),
            (types.WORKSPACE_DID_CHANGE_WATCHED_FILES, self._files_changed, None),
            (types.WORKSPACE_DID_CHANGE_WORKSPACE_FOLDERS, self._folders_changed, None),
            (types.TEXT_DOCUMENT_COMPLETION, self._completion, types.CompletionOptions(trigger_characters=_TRIGGERS)),
            (types.TEXT_DOCUMENT_HOVER, self._hover, None),
            (types.TEXT_DOCUMENT_DOCUMENT_SYMBOL, self._symbols, None),
            (types.TEXT_DOCUMENT_FOLDING_RANGE, self._folds, None),
            (types.TEXT_DOCUMENT_DEFINITION, self._definition, None),
            (types.TEXT_DOCUMENT_PREPARE_RENAME, self._can_rename, None),
            (types.TEXT_DOCUMENT_RENAME, self._rename, types.RenameOptions(prepare_provider=True)),
            (types.TEXT_DOCUMENT_FORMATTING, self._format, None),
            (types.TEXT_DOCUMENT_CODE_ACTION, self._actions, quick_fix),
        ):
            # A bound method takes no attributes, which the library notes its names in.
            self.feature(method, options)(functools.partial(answer))


def _symbols_of(document: Document) -> tuple[Symbol, ...]:
    if document.rules:
        return rule_symbols(document.page.text, document.shown)
    return plan_symbols(document.laid.outline)


def _together(fixes: list[Fix]) -> list[list[Fix]]:
    """Fixes that are the same change together: one change may clear several findings."""
    found: dict[tuple[str, tuple[Change, ...]], list[Fix]] = {}
    for fix in fixes:
        found.setdefault((fix.title, fix.changes), []).append(fix)
    return list(found.values())


def serve(house: Path | None = None, today: datetime.date | None = None) -> int:
    """Answers an editor over standard input and output until it ends the session.

    Returns 0 if it ended as the protocol asks, with ``shutdown``; 1 otherwise.
    """
    # What cannot be answered is told by `report_server_error`, in one line.
    logging.getLogger("pygls").setLevel(logging.CRITICAL)
    editor = Editor(house, today)
    # The session closes its output at the end, which must not be that of the process.
    with os.fdopen(os.dup(sys.stdout.fileno()), "wb") as out:
        editor.start_io(stdout=out)
    return int(not editor.closed_in_order)
