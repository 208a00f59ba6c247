"""A session of an editor, from opening a plan to leaving it clean, over the Language Server Protocol."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest
from editor_session import Session, edited, everything, session
from lsprotocol import types
from pygls.exceptions import JsonRpcException

from stacklint.checking import check
from stacklint.report.lines import also
from stacklint.tidying import tidied

EXAMPLE = (Path(__file__).parents[2] / "examples" / "first-plan.stackplan").read_text(encoding="utf-8")
YARD = 'site "Cold Hollow"\n  near "Columbus, OH"\n\nkiln "North box"\n  type dehumidification\n'
PLAN = """\
use "yard.stackplan"

pile "Ash 1" "Ash for flooring"
  place open yard, site "Cold Hollow"
  boards a: 96 of wite ash 4/4 x 6 in x 8 ft, green
  stack 16 ft x 4 ft
"""


@pytest.fixture
def yard(tmp_path: Path) -> Path:
    (tmp_path / ".git").mkdir()
    (tmp_path / "yard.stackplan").write_text(YARD, encoding="utf-8")
    return tmp_path


def whole(start: int = 0, end: int = 1000) -> types.Range:
    return types.Range(start=types.Position(start, 0), end=types.Position(end, 0))


def test_a_plan_is_opened_mended_and_left_clean(yard):
    async def script(editor: Session) -> None:
        editor.open("ash.stackplan", PLAN)
        unknown = [each for each in await editor.findings("ash.stackplan") if each.code == "unknown-species"]
        assert [each.severity for each in unknown] == [types.DiagnosticSeverity.Error]
        assert unknown[0].range == types.Range(start=types.Position(4, 18), end=types.Position(4, 26))
        assert unknown[0].source == "stacklint"

        actions = await editor.client.text_document_code_action_async(
            types.CodeActionParams(
                text_document=types.TextDocumentIdentifier(uri=editor.uri("ash.stackplan")),
                range=unknown[0].range,
                context=types.CodeActionContext(diagnostics=unknown),
            )
        )
        write = next(action for action in actions if action.title == "Write white ash")
        assert write.kind == types.CodeActionKind.QuickFix
        text = edited(PLAN, write.edit.changes[editor.uri("ash.stackplan")])
        editor.change("ash.stackplan", text)
        assert all(each.code != "unknown-species" for each in await editor.findings("ash.stackplan", 2))

        text += "  sti"
        editor.change("ash.stackplan", text, 3)
        offers = await editor.client.text_document_completion_async(
            types.CompletionParams(**editor.place("ash.stackplan", text, "  sti", 5))
        )
        stickers = next(item for item in offers.items if item.label == "stickers")
        text = edited(text, [stickers.text_edit]) + " 3/4 in x 1 1/4 in, every 32 in, dry\n"
        editor.change("ash.stackplan", text, 4)
        wide = [each for each in await editor.findings("ash.stackplan", 4) if each.code == "sticker-spacing-too-wide"]
        assert wide

        actions = await editor.client.text_document_code_action_async(
            types.CodeActionParams(
                text_document=types.TextDocumentIdentifier(uri=editor.uri("ash.stackplan")),
                range=wide[0].range,
                context=types.CodeActionContext(diagnostics=wide, trigger_kind=types.CodeActionTriggerKind.Invoked),
            )
        )
        mend = next(action for action in actions if wide[0].code in [each.code for each in action.diagnostics])
        text = edited(text, mend.edit.changes[editor.uri("ash.stackplan")])
        editor.change("ash.stackplan", text, 5)
        left = await editor.findings("ash.stackplan", 5)
        assert all(each.code != "sticker-spacing-too-wide" for each in left)

        hover = await editor.client.text_document_hover_async(
            types.HoverParams(**editor.place("ash.stackplan", text, "pile", 1))
        )
        assert hover.contents.kind == types.MarkupKind.Markdown
        assert "96 boards" in hover.contents.value

        edits = await editor.client.text_document_formatting_async(
            types.DocumentFormattingParams(
                text_document=types.TextDocumentIdentifier(uri=editor.uri("ash.stackplan")),
                options=types.FormattingOptions(tab_size=2, insert_spaces=True),
            )
        )
        assert edited(text, edits) == tidied(text)
        editor.close("ash.stackplan")
        assert await editor.findings("ash.stackplan") == []

    assert session(yard, script) == 0


def test_the_findings_are_those_of_the_check(yard):
    async def script(editor: Session) -> None:
        uri = editor.open("first.stackplan", EXAMPLE)
        shown = await editor.findings("first.stackplan")
        checked = check(EXAMPLE, uri.removeprefix("file://"), today=datetime.date(2026, 6, 1))
        assert [each.code for each in shown] == [finding.rule for finding in checked.findings]
        for each, finding in zip(shown, checked.findings, strict=True):
            assert finding.message in each.message and finding.instead in each.message
            assert also(finding) in each.message
            assert each.range.start == types.Position(finding.where.line - 1, finding.where.column - 1)

    assert session(yard, script) == 0


def test_a_site_is_followed_and_renamed_across_the_used_file(yard):
    async def script(editor: Session) -> None:
        editor.open("ash.stackplan", PLAN)
        place = editor.place("ash.stackplan", PLAN, "Cold", 2)
        found = await editor.client.text_document_definition_async(types.DefinitionParams(**place))
        assert found.uri == editor.uri("yard.stackplan")
        assert found.range.start == types.Position(0, 5)

        able = await editor.client.text_document_prepare_rename_async(types.PrepareRenameParams(**place))
        assert able.placeholder == "Cold Hollow"
        edit = await editor.client.text_document_rename_async(types.RenameParams(new_name="Long Bottom", **place))
        assert 'site "Long Bottom"' in edited(PLAN, edit.changes[editor.uri("ash.stackplan")])
        assert 'site "Long Bottom"' in edited(YARD, edit.changes[editor.uri("yard.stackplan")])

        with pytest.raises(JsonRpcException, match="without quotation marks"):
            await editor.client.text_document_rename_async(types.RenameParams(new_name='"', **place))
        with pytest.raises(JsonRpcException, match="No site, kiln or pile"):
            boards = editor.place("ash.stackplan", PLAN, "boards")
            await editor.client.text_document_rename_async(types.RenameParams(new_name="x", **boards))

    assert session(yard, script) == 0


def test_what_is_open_counts_in_place_of_the_used_file(yard):
    async def script(editor: Session) -> None:
        editor.open("ash.stackplan", PLAN.replace("wite", "white"))
        assert all(each.code != "unknown-place" for each in await editor.findings("ash.stackplan"))
        editor.open("yard.stackplan", YARD.replace("Cold Hollow", "Long Bottom"))
        assert any(each.code == "unknown-place" for each in await editor.findings("ash.stackplan"))
        editor.change("yard.stackplan", YARD)
        assert all(each.code != "unknown-place" for each in await editor.findings("ash.stackplan"))

    assert session(yard, script) == 0


def test_a_fault_in_a_used_file_stands_at_its_use_with_its_place(yard):
    (yard / "yard.stackplan").write_text(YARD.replace("Columbus", "Colunbusss"), encoding="utf-8")

    async def script(editor: Session) -> None:
        editor.open("ash.stackplan", PLAN)
        (fault,) = [each for each in await editor.findings("ash.stackplan") if "yard.stackplan" in each.message]
        assert fault.range.start == types.Position(0, 4)
        assert fault.message.startswith("yard.stackplan, line 2:")
        assert fault.related_information[0].location.uri == editor.uri("yard.stackplan")
        assert fault.related_information[0].location.range.start == types.Position(1, 7)

    assert session(yard, script) == 0


def test_house_rules_that_are_open_judge_the_plan(yard):
    async def script(editor: Session) -> None:
        editor.open("first.stackplan", EXAMPLE)
        assert any(each.code == "cover-too-short" for each in await editor.findings("first.stackplan"))
        editor.open("house.rules", 'skip cover-too-short because "a roof stands over it"\n', "stackplan-rules")
        assert all(each.code != "cover-too-short" for each in await editor.findings("first.stackplan"))
        editor.change("house.rules", "skip cover-too-short\n")
        faults = await editor.findings("house.rules", 2)
        assert "without a reason" in faults[0].message
        again = await editor.findings("first.stackplan")
        assert any(each.code == "cover-too-short" for each in again)
        assert any("house rules are set aside" in each.message for each in again)

    assert session(yard, script) == 0


def test_a_rule_file_is_completed_and_told_of(yard):
    text = "rule x\n  title X\n  for each span\n  error when span.\n"

    async def script(editor: Session) -> None:
        editor.open("house.rules", text, "stackplan-rules")
        assert await editor.findings("house.rules")
        offers = await editor.client.text_document_completion_async(
            types.CompletionParams(**editor.place("house.rules", text, "span.\n", 5))
        )
        sag = next(item for item in offers.items if item.label == "sag")
        after = edited(text, [sag.text_edit])
        assert "when span.sag\n" in after
        editor.change("house.rules", after)
        hover = await editor.client.text_document_hover_async(
            types.HoverParams(**editor.place("house.rules", after, "span.sag", 6))
        )
        assert "a length" in hover.contents.value
        symbols = await editor.client.text_document_document_symbol_async(
            types.DocumentSymbolParams(text_document=types.TextDocumentIdentifier(uri=editor.uri("house.rules")))
        )
        assert [each.name for each in symbols] == ["x"]

    assert session(yard, script) == 0


def test_symbols_and_folds_are_given(yard):
    async def script(editor: Session) -> None:
        given = types.TextDocumentIdentifier(uri=editor.open("first.stackplan", EXAMPLE))
        asked = types.DocumentSymbolParams(text_document=given)
        symbols = await editor.client.text_document_document_symbol_async(asked)
        assert [each.name for each in symbols] == ["Ash 1"]
        assert [each.name for each in symbols[0].children] == ["a", "b"]
        folds = await editor.client.text_document_folding_range_async(types.FoldingRangeParams(text_document=given))
        lead = EXAMPLE.split("\n").index('pile "Ash 1" "Ash for flooring"')
        assert any(fold.start_line == lead for fold in folds)

    assert session(yard, script) == 0


def test_an_editor_that_can_do_little_is_answered_in_plain_text(yard):
    async def script(editor: Session) -> None:
        assert editor.capabilities.position_encoding == types.PositionEncodingKind.Utf16
        given = types.TextDocumentIdentifier(uri=editor.open("first.stackplan", EXAMPLE))
        hover = await editor.client.text_document_hover_async(
            types.HoverParams(**editor.place("first.stackplan", EXAMPLE, "boards a"))
        )
        assert hover.contents.kind == types.MarkupKind.PlainText
        assert "**" not in hover.contents.value and "\\" not in hover.contents.value
        asked = types.DocumentSymbolParams(text_document=given)
        symbols = await editor.client.text_document_document_symbol_async(asked)
        assert symbols[0].location.uri == given.uri

    assert session(yard, script, client=types.ClientCapabilities()) == 0


@pytest.mark.parametrize(
    "encoding, character",
    [
        (types.PositionEncodingKind.Utf8, 18),
        (types.PositionEncodingKind.Utf16, 14),
        (types.PositionEncodingKind.Utf32, 12),
    ],
)
def test_places_are_counted_as_client_and_server_agree(yard, encoding, character):
    # Behind the emoji, which is one character, two units of UTF-16 and four bytes of UTF-8, twice: 🪵🪵.
    text = 'charge "🪵🪵" in kiln "Nowhere"\n  boards a: 6 of white ash 4/4 x 6 in x 8 ft\n'

    async def script(editor: Session) -> None:
        assert editor.capabilities.position_encoding == encoding
        editor.open("wood.stackplan", text)
        (found,) = [each for each in await editor.findings("wood.stackplan") if each.code == "unknown-kiln"]
        assert found.range.start == types.Position(0, character + 8)
        place = types.Position(0, found.range.end.character - 1)
        given = types.TextDocumentIdentifier(uri=editor.uri("wood.stackplan"))
        asked = types.PrepareRenameParams(text_document=given, position=place)
        able = await editor.client.text_document_prepare_rename_async(asked)
        assert able.placeholder == "Nowhere"

    client = everything()
    client.general.position_encodings = [encoding]
    assert session(yard, script, client=client) == 0


def test_typing_on_is_checked_once_at_the_end(yard):
    async def script(editor: Session) -> None:
        editor.open("first.stackplan", EXAMPLE)
        await editor.findings("first.stackplan")
        for version in range(2, 12):
            editor.change("first.stackplan", EXAMPLE + "#" * version + "\n", version)
        await editor.findings("first.stackplan", 11)
        assert editor.published.empty()

    assert session(yard, script) == 0


def test_a_changed_file_on_disk_is_read_again(yard):
    async def script(editor: Session) -> None:
        editor.open("ash.stackplan", PLAN.replace("wite", "white"))
        await editor.findings("ash.stackplan")
        (yard / "yard.stackplan").write_text('kiln "North box"\n', encoding="utf-8")
        event = types.FileEvent(uri=editor.uri("yard.stackplan"), type=types.FileChangeType.Changed)
        editor.client.workspace_did_change_watched_files(types.DidChangeWatchedFilesParams(changes=[event]))
        assert any(each.code == "unknown-place" for each in await editor.findings("ash.stackplan"))

    assert session(yard, script) == 0
