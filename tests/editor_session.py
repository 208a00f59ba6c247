"""A session of an editor with ``stacklint editor``, over the real protocol and a process of its own."""

from __future__ import annotations

import asyncio
import sys
from collections.abc import Awaitable, Callable
from pathlib import Path

from lsprotocol import types
from pygls.lsp.client import LanguageClient

PATIENCE = 20.0
"""Seconds that a test waits for an answer; a slow machine under load needs some of it."""


class Session:
    """What an editor does: opens texts, changes them, and asks."""

    def __init__(self, folder: Path, *options: str) -> None:
        self.folder = folder
        self.options = options
        self.client = LanguageClient("an-editor", "1")
        self.published: asyncio.Queue[types.PublishDiagnosticsParams] = asyncio.Queue()
        self.capabilities: types.ServerCapabilities | None = None

        @self.client.feature(types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)
        def _published(params: types.PublishDiagnosticsParams) -> None:
            self.published.put_nowait(params)

        @self.client.feature(types.CLIENT_REGISTER_CAPABILITY)
        def _registered(_params: types.RegistrationParams) -> None:
            return None

    def uri(self, name: str) -> str:
        return (self.folder / name).as_uri()

    async def start(self, client: types.ClientCapabilities | None = None) -> None:
        words = ("-m", "stacklint", "editor", "--today", "2026-06-01", *self.options)
        await self.client.start_io(sys.executable, *words, cwd=self.folder)
        answer = await self.client.initialize_async(
            types.InitializeParams(
                capabilities=client or everything(),
                workspace_folders=[types.WorkspaceFolder(uri=self.folder.as_uri(), name="yard")],
            )
        )
        self.capabilities = answer.capabilities
        self.client.initialized(types.InitializedParams())

    def open(self, name: str, text: str, language: str = "stackplan") -> str:
        item = types.TextDocumentItem(uri=self.uri(name), language_id=language, version=1, text=text)
        self.client.text_document_did_open(types.DidOpenTextDocumentParams(text_document=item))
        return item.uri

    def change(self, name: str, text: str, version: int = 2) -> None:
        self.client.text_document_did_change(
            types.DidChangeTextDocumentParams(
                text_document=types.VersionedTextDocumentIdentifier(uri=self.uri(name), version=version),
                content_changes=[types.TextDocumentContentChangeWholeDocument(text=text)],
            )
        )

    def close(self, name: str) -> None:
        given = types.TextDocumentIdentifier(uri=self.uri(name))
        self.client.text_document_did_close(types.DidCloseTextDocumentParams(text_document=given))

    async def findings(self, name: str, version: int | None = None) -> list[types.Diagnostic]:
        """The next findings that are published for a text, or those of one of its versions."""
        while True:
            params = await asyncio.wait_for(self.published.get(), PATIENCE)
            if params.uri == self.uri(name) and version in (None, params.version):
                return list(params.diagnostics)

    def place(self, name: str, text: str, mark: str, shift: int = 0) -> dict[str, object]:
        """The parameters of a question about a place: where ``mark`` begins, and so many characters on."""
        offset = text.index(mark) + shift
        line = text.count("\n", 0, offset)
        before = text[text.rfind("\n", 0, offset) + 1 : offset]
        return {
            "text_document": types.TextDocumentIdentifier(uri=self.uri(name)),
            "position": types.Position(line=line, character=len(before.encode("utf-16-le")) // 2),
        }

    async def end(self) -> int:
        """Ends the session as the protocol asks; the exit code of the server."""
        await self.client.shutdown_async(None)
        self.client.exit(None)
        assert self.client._server is not None
        return await asyncio.wait_for(self.client._server.wait(), PATIENCE)


def everything() -> types.ClientCapabilities:
    """What most editors of today can do."""
    return types.ClientCapabilities(
        general=types.GeneralClientCapabilities(
            position_encodings=[types.PositionEncodingKind.Utf16, types.PositionEncodingKind.Utf8]
        ),
        workspace=types.WorkspaceClientCapabilities(
            did_change_watched_files=types.DidChangeWatchedFilesClientCapabilities(dynamic_registration=True)
        ),
        text_document=types.TextDocumentClientCapabilities(
            hover=types.HoverClientCapabilities(content_format=[types.MarkupKind.Markdown]),
            publish_diagnostics=types.PublishDiagnosticsClientCapabilities(related_information=True),
            document_symbol=types.DocumentSymbolClientCapabilities(hierarchical_document_symbol_support=True),
        ),
    )


Script = Callable[[Session], Awaitable[None]]


def session(folder: Path, script: Script, *options: str, client: types.ClientCapabilities | None = None) -> int:
    """Runs a script of what an editor does; the exit code of the server."""

    async def run() -> int:
        one = Session(folder, *options)
        await one.start(client)
        try:
            await script(one)
        finally:
            code = await one.end()
        return code

    return asyncio.run(asyncio.wait_for(run(), 3 * PATIENCE))


def edited(text: str, edits: list[types.TextEdit]) -> str:
    """A text in the basic plane once an editor has made some changes."""
    lines = text.split("\n")
    starts = [sum(len(line) + 1 for line in lines[:number]) for number in range(len(lines) + 1)]

    def offset(place: types.Position) -> int:
        return min(starts[place.line] + place.character, len(text))

    for edit in sorted(edits, key=lambda each: (each.range.start.line, each.range.start.character), reverse=True):
        text = text[: offset(edit.range.start)] + edit.new_text + text[offset(edit.range.end) :]
    return text
