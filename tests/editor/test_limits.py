"""A text beyond all measure is told once, and every question about it has an answer."""

from __future__ import annotations

import asyncio

import pytest

from stacklint.editor import checking, desk
from stacklint.editor.checking import Checking
from stacklint.editor.completion import completion
from stacklint.editor.findings import Told
from stacklint.editor.positions import Spot
from stacklint.editor.symbols import plan_symbols
from stacklint.editor.texts import Books
from stacklint.rulebook import builtin

TEXT = 'pile "A"\n  stikers 3/4 in\n'


@pytest.mark.parametrize("more", [pytest.param(-1, id="below"), pytest.param(0, id="at"), pytest.param(1, id="above")])
def test_characters_of_an_open_text(more: int, monkeypatch: pytest.MonkeyPatch) -> None:
    most = len(TEXT) - more
    monkeypatch.setattr(desk, "MOST_CHARACTERS", most)
    monkeypatch.setattr(checking, "MOST_CHARACTERS", most)
    own = desk.Desk(lambda _: None)
    document = own.put("untitled:1", TEXT, 1)
    published: list[tuple[Told, ...]] = []

    async def checked() -> None:
        check = Checking(own, Books(), lambda _, told: published.append(told))
        await check.settled(document)

    asyncio.run(checked())
    messages = " ".join(told.message for told in published[0])
    assert (f"The text has {len(TEXT)} characters; in an editor at most {most}" in messages) == (more > 0)
    assert ("tikers does not begin" in messages) == (more <= 0)
    assert len(plan_symbols(document.laid.outline)) == (more <= 0)
    assert completion(document.page, document.laid, Spot(1, 1), builtin(), None)
