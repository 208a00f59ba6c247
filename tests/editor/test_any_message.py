"""Whatever is sent, the server goes on and answers the next question."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

PLAN = 'pile "P"\n  boards a: 6 of white ash 4/4 x 6 in x 8 ft\n'
CHANGE = {"text": "x"}
URI = "file:///nowhere/at/all/p.stackplan"


def framed(body: bytes) -> bytes:
    return b"Content-Length: %d\r\n\r\n%b" % (len(body), body)


def message(method: str, params: object = None, number: int | None = None) -> bytes:
    content: dict[str, object] = {"jsonrpc": "2.0", "method": method}
    if params is not None:
        content["params"] = params
    if number is not None:
        content["id"] = number
    return framed(json.dumps(content).encode())


def spoken(*sent: bytes) -> tuple[list[dict], subprocess.CompletedProcess]:
    """What the server says to messages within a session that begins and ends in order."""
    first = message("initialize", {"processId": None, "rootUri": None, "capabilities": {}}, 1)
    last = message("shutdown", number=999) + message("exit")
    text = first + message("initialized", {}) + b"".join(sent) + last
    done = subprocess.run(
        [sys.executable, "-m", "stacklint", "editor"], input=text, capture_output=True, timeout=60, check=False
    )
    answers, rest = [], done.stdout
    while rest:
        head, _, rest = rest.partition(b"\r\n\r\n")
        length = next(int(line.split(b":")[1]) for line in head.split(b"\r\n") if line.startswith(b"Content-Length"))
        answers.append(json.loads(rest[:length]))
        rest = rest[length:]
    return answers, done


def opened(uri: str = URI, text: str = PLAN, language: str = "stackplan") -> bytes:
    item = {"uri": uri, "languageId": language, "version": 1, "text": text}
    return message("textDocument/didOpen", {"textDocument": item})


QUESTIONS = (
    "completion",
    "hover",
    "definition",
    "prepareRename",
    "documentSymbol",
    "foldingRange",
    "formatting",
    "codeAction",
    "rename",
)


def question(name: str, number: int, uri: str = URI, line: int = 0, character: int = 0) -> bytes:
    place = {"line": line, "character": character}
    params = {
        "textDocument": {"uri": uri},
        "position": place,
        "range": {"start": place, "end": place},
        "options": {"tabSize": 2, "insertSpaces": True},
        "newName": "Q",
    }
    if name == "codeAction":
        params["context"] = {"diagnostics": []}
    return message(f"textDocument/{name}", params, number)


def answered(answers: list[dict]) -> set[int]:
    return {answer["id"] for answer in answers if "id" in answer and "method" not in answer}


ODD = [
    framed(b"{"),
    framed(b"[]"),
    framed(b'"text"'),
    framed(b'{"jsonrpc": "2.0"}'),
    framed(b"\xff\xfe\x00"),
    b"Content-Type: nothing\r\n\r\n",
    message("no/suchThing", {"a": 1}),
    message("$/cancelRequest", {"id": 12345}),
    message("textDocument/didChange", {"textDocument": {"uri": URI, "version": 2}, "contentChanges": [CHANGE]}),
    message("textDocument/didClose", {"textDocument": {"uri": URI}}),
    message("textDocument/didSave", {"textDocument": {"uri": "not a uri at all"}}),
    message("textDocument/didOpen", {"textDocument": {"uri": 5}}),
    message("textDocument/didOpen"),
    opened("untitled:Untitled-1"),
    opened("file:///%00/\x00.stackplan"),
    opened("http://[::1/x.stackplan"),
    opened(text="\x00\ud800".encode("utf-16", "surrogatepass").decode("utf-16", "replace") * 50),
    opened(text=PLAN + 'use "/etc/passwd"\nuse "../../../etc/passwd"\nuse "\x00"\n'),
    opened(text="pile\n" * 3000),
    opened("file:///x/house.rules", "rule\nchange\nskip\n  error when (((\n", "stackplan-rules"),
]  # fmt: skip


def test_after_any_message_a_question_is_answered():
    good = "file:///nowhere/q.stackplan"
    sent = [opened(good)]
    for number, odd in enumerate(ODD, 100):
        sent += [odd, question("hover", number, good, 0, 2)]
    answers, done = spoken(*sent)
    for number in range(100, 100 + len(ODD)):
        hover = next(answer for answer in answers if answer.get("id") == number)
        assert "boards" in hover["result"]["contents"]["value"], ODD[number - 100]
    assert done.returncode == 0
    assert b"Traceback" not in done.stderr


def test_every_question_is_answered_wherever_it_points():
    asked, number = [opened()], 10
    for name in QUESTIONS:
        for line, character in ((0, 0), (1, 30), (99, 99), (2**31 - 1, 2**31 - 1)):
            asked.append(question(name, number, URI, line, character))
            number += 1
    answers, done = spoken(*asked)
    assert set(range(10, number)) <= answered(answers)
    refused = [answer for answer in answers if "error" in answer]
    # LSP 3.17, ErrorCodes: what cannot be renamed has failed; what is looked for still when all ends is cancelled.
    assert {answer["error"]["code"] for answer in refused} <= {-32803, -32800}
    assert done.returncode == 0


def test_questions_about_texts_that_are_not_open_have_no_answer():
    answers, _ = spoken(*(question(name, number) for number, name in enumerate(QUESTIONS, 10)))
    for number in range(10, 10 + len(QUESTIONS)):
        assert next(answer for answer in answers if answer.get("id") == number)["result"] is None


def test_a_request_that_is_not_known_is_refused_by_its_code():
    answers, _ = spoken(message("no/suchThing", {}, 5))
    # JSON-RPC 2.0, 5.1: -32601 method not found.
    assert next(answer for answer in answers if answer.get("id") == 5)["error"]["code"] == -32601


def test_what_is_sent_before_the_session_is_begun_is_refused_or_passed_over():
    words = [sys.executable, "-m", "stacklint", "editor"]
    sent = message("initialized", {}) + opened() + question("hover", 5) + message("exit")
    done = subprocess.run(words, input=sent, capture_output=True, timeout=60, check=False)
    _, _, answer = done.stdout.partition(b"\r\n\r\n")
    # LSP 3.17, ErrorCodes: -32002 ServerNotInitialized; and nothing is said of the text that was opened too soon.
    assert json.loads(answer)["error"]["code"] == -32002
    assert done.stderr == b""


@pytest.mark.parametrize("params", [None, [], {}, {"textDocument": {"uri": URI}, "position": "here"}])
def test_a_request_that_cannot_be_read_is_refused_by_its_code(params):
    answers, _ = spoken(message("textDocument/hover", params, 5))
    # JSON-RPC 2.0, 5.1: -32602 invalid method parameters, -32603 internal error.
    assert next(answer for answer in answers if answer.get("id") == 5)["error"]["code"] in (-32602, -32603)


def test_an_editor_that_goes_away_ends_the_server():
    first = message("initialize", {"processId": None, "rootUri": None, "capabilities": {}}, 1)
    words = [sys.executable, "-m", "stacklint", "editor"]
    done = subprocess.run(words, input=first + opened(), capture_output=True, timeout=60, check=False)
    assert done.returncode == 1
    assert b"Traceback" not in done.stderr
