"""``stacklint editor``: a language server over standard input and output, for an editor to start."""

from __future__ import annotations

import argparse
from pathlib import Path

from stacklint.command.usage import Parser, UsageError, day

SUMMARY = "a language server: findings as you type, completion, quick fixes"


def parser() -> Parser:
    parser = Parser(
        "editor",
        "Speaks the Language Server Protocol 3.17 over standard input and output. An editor\n"
        "starts it for files *.stackplan and *.rules, and shows findings as one types,\n"
        "completes words, tells of stacks, boards, rules and facts, offers changes that\n"
        "clear findings, and lays plans out. It needs: pip install 'stacklint[editor]'\n\n"
        "exit code: 0 the editor ended the session, 1 it went away, 2 it cannot be run",
        "  stacklint editor",
    )
    parser.add_argument("--house", metavar="FILE", help="house rules to use in place of any house.rules")
    parser.add_argument(
        "--today", type=day, metavar="DATE", help="the day to judge by, as 2026-04-02; today if not given"
    )
    return parser


def run(options: argparse.Namespace, usage: Parser) -> int:  # noqa: ARG001 - every command is run so
    try:
        from stacklint.editor.server import serve
    except ModuleNotFoundError as error:
        if (error.name or "").partition(".")[0] not in ("pygls", "lsprotocol", "cattrs", "attrs", "attr"):
            raise
        raise UsageError("stacklint editor: pygls is missing; write: pip install 'stacklint[editor]'") from None
    return serve(Path(options.house) if options.house is not None else None, options.today)
