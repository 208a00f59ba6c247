"""Fuzz target ``editor``: what an editor sends, the content of one message a line (LSP 3.17, base protocol)."""

from __future__ import annotations

import asyncio
import contextlib
import json
import logging
import os
import threading
from collections.abc import Iterator

from fuzz import plan_target
from fuzz.oracle import strict_json
from fuzz.plan_target import TODAY
from fuzz.rules_target import words as rule_words
from pygls.exceptions import FeatureNotificationError, FeatureRequestError, JsonRpcInternalError
from pygls.io_ import run_async

from stacklint.editor.checking import Checking
from stacklint.editor.desk import Document
from stacklint.editor.server import Editor

PLAN = 'use "b.stackplan"\nkiln "K"\npile "P"\n  boards a: 6 of white ash 4/4 x 6 in x 8 ft\n  stikers 3/4 in\n'
RULES = 'change no-cover\n  warning when height > 3 ft\nskip sag because "x"\n'
QUESTIONS = (
    *("completion", "hover", "definition", "prepareRename", "documentSymbol", "foldingRange", "formatting"),
    *("codeAction", "rename"),
)
URIS = ("file:///nowhere/p.stackplan", "file:///nowhere/house.rules", "untitled:1", "file:///%00", "http://[::1/x")


def seeds() -> Iterator[bytes]:
    """Sessions: a text is opened, every question asked of it, changed, closed, and the session ended."""
    for uri, text in ((URIS[0], PLAN), (URIS[1], RULES), (URIS[2], PLAN)):
        for line, character in ((0, 0), (2, 6), (3, 20), (2**31 - 1, 2**31 - 1)):
            yield _session(uri, text, line, character)


def words() -> tuple[str, ...]:
    """What messages hold, and the words of both languages that texts in them are written in."""
    methods = tuple(f"textDocument/{name}" for name in QUESTIONS)
    keys = ('"id":', '"params":', '"position":', '"text":', '"range":', '"context":', "null", "[]", "{}", "\\n")
    return (*methods, *keys, *URIS, "-1", "2147483648", "1e400", "NaN", *plan_target.words(), *rule_words())


def examine(data: bytes) -> None:
    said: list[bytes] = []
    failed = asyncio.run(_answered(data, said))
    assert not failed, failed[0]
    asked = [each for each in map(_message, data.split(b"\n")) if each is not None]
    answered: list[object] = []
    for each in said:
        told = strict_json(each.decode())
        assert isinstance(told, dict)
        if "method" not in told:
            answered.append(told.get("id"))
    assert len(answered) <= len(asked), "more answers than questions"


async def _answered(data: bytes, said: list[bytes]) -> list[str]:
    """What goes wrong inside while the messages are answered; the answers go to ``said``."""
    failed: list[str] = []
    editor = _editor(failed)
    editor.protocol.set_writer(_Kept(said), include_headers=False)
    reader = asyncio.StreamReader(limit=2**24)
    for content in data.split(b"\n"):
        reader.feed_data(b"Content-Length: %d\r\n\r\n%b" % (len(content), content))
    reader.feed_eof()
    logging.getLogger("pygls").setLevel(logging.CRITICAL)
    with contextlib.suppress(SystemExit, asyncio.IncompleteReadError):
        await run_async(threading.Event(), reader, editor.protocol, error_handler=editor.report_server_error)
    while waiting := [task for task in asyncio.all_tasks() if task is not asyncio.current_task()]:
        for done in (await asyncio.wait(waiting))[0]:
            if not done.cancelled() and (error := done.exception()) is not None:
                failed.append(repr(error))
    return failed


def _editor(failed: list[str]) -> Editor:
    class Watched(Editor):
        def report_server_error(self, error: Exception, source: type[Exception]) -> None:
            inner = source in (FeatureRequestError, FeatureNotificationError)
            if inner and isinstance(error, JsonRpcInternalError) and _is_ours(error):
                failed.append(f"{error} {error.data}")

    editor = Watched(today=TODAY)
    editor._checking = _AtOnce(editor._desk, editor._checking.books, editor._publish, TODAY)
    return editor


def _is_ours(error: JsonRpcInternalError) -> bool:
    """The program failed, and not the library that refuses what breaks the protocol (a change of what is not open)."""
    where: list[str] = (error.data or {}).get("traceback", [])
    return any(f"{os.sep}stacklint{os.sep}" in line for line in where)


class _AtOnce(Checking):
    """Checks without waiting for a pause in typing."""

    def soon(self, document: Document, pause: float = 0.0, *, others: bool = True) -> None:
        super().soon(document, 0.0 * pause, others=others)


class _Kept:
    """Takes what the server says."""

    def __init__(self, said: list[bytes]) -> None:
        self._said = said

    def write(self, data: bytes) -> None:
        self._said.append(data)

    def close(self) -> None:
        """Nothing to close."""


def _message(content: bytes) -> dict[str, object] | None:
    try:
        told = json.loads(content)
    except (ValueError, RecursionError):
        return None
    return told if isinstance(told, dict) else None


def _session(uri: str, text: str, line: int, character: int) -> bytes:
    place = {"line": line, "character": character}
    about = {
        "textDocument": {"uri": uri},
        "position": place,
        "range": {"start": place, "end": place},
        "options": {"tabSize": 2, "insertSpaces": True},
        "newName": "Q",
        "context": {"diagnostics": []},
    }
    item = {"uri": uri, "languageId": "stackplan", "version": 1, "text": text}
    change = {"textDocument": {"uri": uri, "version": 2}, "contentChanges": [{"text": f"{text}\n  cover none"}]}
    told: list[tuple[str, object]] = [
        ("initialize", {"processId": None, "rootUri": "file:///nowhere", "capabilities": {}}),
        ("initialized", {}),
        ("textDocument/didOpen", {"textDocument": item}),
        *((f"textDocument/{name}", about) for name in QUESTIONS),
        ("textDocument/didChange", change),
        ("workspace/didChangeWatchedFiles", {"changes": []}),
        ("textDocument/codeAction", about),
        ("textDocument/didClose", {"textDocument": {"uri": uri}}),
        ("shutdown", None),
        ("exit", None),
    ]
    requests = {"initialize", "shutdown", *(f"textDocument/{name}" for name in QUESTIONS)}
    messages = []
    for number, (method, params) in enumerate(told):
        content = {"jsonrpc": "2.0", "method": method, "params": params}
        messages.append(json.dumps(content | {"id": number} if method in requests else content))
    return "\n".join(messages).encode()
