"""Prints how long an editor waits for each answer on a plan of 300 lines, over the protocol, and for its findings.

Run it with ``python tests/bench/bench_editor.py``. No test depends on these figures. The aim is 50 ms an answer.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from collections.abc import Awaitable, Callable
from pathlib import Path

from bench_check import CHARGE, PLAN
from lsprotocol import types

sys.path.append(str(Path(__file__).parent.parent))
from editor_session import Session, session

LINES = 300
TIMES = 15
NAME = "three-hundred.stackplan"


def plan() -> str:
    """A plan of twelve stacks, one in three a charge, cut off at 300 lines."""
    blocks = (
        (PLAN if number % 3 else CHARGE).format(number=number, count=90 + number, other=16) for number in range(20)
    )
    return "\n".join("".join(f"{block}\n" for block in blocks).split("\n")[:LINES])


async def timed(name: str, ask: Callable[[], Awaitable[object]]) -> None:
    taken = []
    for _ in range(TIMES):
        start = time.perf_counter()
        await ask()
        taken.append(time.perf_counter() - start)
    middle, worst = statistics.median(taken) * 1000, max(taken) * 1000
    print(f"{name:<40} {middle:6.1f} ms, at the most {worst:6.1f} ms")


async def script(editor: Session) -> None:
    text = plan()
    given = types.TextDocumentIdentifier(uri=editor.uri(NAME))
    client = editor.client

    async def checked() -> None:
        editor.open(NAME, text)
        await editor.findings(NAME)

    def place(mark: str, shift: int) -> dict[str, object]:
        return editor.place(NAME, text, mark, shift)

    await timed("findings, from opening it", checked)
    found = text.index("  stickers")
    line = types.Position(line=text.count("\n", 0, found), character=2)
    cases: dict[str, Callable[[], Awaitable[object]]] = {
        "completion of a keyword": lambda: client.text_document_completion_async(
            types.CompletionParams(**place("  stickers", 5))
        ),
        "completion of a species": lambda: client.text_document_completion_async(
            types.CompletionParams(**place("of white ash", 8))
        ),
        "hover on a pile": lambda: client.text_document_hover_async(types.HoverParams(**place('pile "Row', 2))),
        "hover on a charge": lambda: client.text_document_hover_async(types.HoverParams(**place('charge "Run', 2))),
        "hover on boards": lambda: client.text_document_hover_async(types.HoverParams(**place("boards a", 2))),
        "hover on near": lambda: client.text_document_hover_async(types.HoverParams(**place("near", 2))),
        "hover on a waived rule": lambda: client.text_document_hover_async(types.HoverParams(**place("lift-too", 2))),
        "definition of a site": lambda: client.text_document_definition_async(
            types.DefinitionParams(**place(', site "', 10))
        ),
        "rename of a site": lambda: client.text_document_rename_async(
            types.RenameParams(new_name="Long Bottom", **place(', site "', 10))
        ),
        "symbols": lambda: client.text_document_document_symbol_async(types.DocumentSymbolParams(text_document=given)),
        "folds": lambda: client.text_document_folding_range_async(types.FoldingRangeParams(text_document=given)),
        "layout": lambda: client.text_document_formatting_async(
            types.DocumentFormattingParams(
                text_document=given, options=types.FormattingOptions(tab_size=2, insert_spaces=True)
            )
        ),
        "fixes, as the cursor moves": lambda: client.text_document_code_action_async(
            types.CodeActionParams(
                text_document=given,
                range=types.Range(start=line, end=line),
                context=types.CodeActionContext(diagnostics=[], trigger_kind=types.CodeActionTriggerKind.Automatic),
            )
        ),
    }
    for name, ask in cases.items():
        await timed(name, ask)

    typed = 1

    async def completed_while_typing() -> None:
        nonlocal typed
        typed += 1
        editor.change(NAME, f"{text}\n  sti", typed)
        await client.text_document_completion_async(
            types.CompletionParams(text_document=given, position=types.Position(line=LINES, character=5))
        )

    await timed("completion right after a key", completed_while_typing)


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        session(Path(folder).resolve(), script)
