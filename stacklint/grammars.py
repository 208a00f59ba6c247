"""Parsers of the two languages, from the grammars or from tables made of them beforehand.

Making an LALR parser from a grammar takes longer than checking a plan. So the tables that lark works out
are kept beside each grammar as JSON, and are used where they were made by the same release of lark from the
same grammar; otherwise the parser is made afresh, which is slower and otherwise the same.

``python -m stacklint.grammars`` makes the tables anew.
"""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import lark
from lark import Lark
from lark.grammar import Rule
from lark.lexer import Lexer, TerminalDef

from stacklint.data import folder

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

_PAIRS = "pairs"
"""Marks a mapping whose keys are not texts, which JSON does not have."""


class Grammar(NamedTuple):
    """A grammar by its name in ``grammar/``, the rule that it starts from, its lexer, and whether it keeps tokens."""

    name: str
    start: str
    lexer: str | type[Lexer]
    keep_all_tokens: bool = False

    @property
    def text(self) -> str:
        return (folder("grammar") / f"{self.name}.lark").read_text(encoding="utf-8")


def parser(grammar: Grammar) -> Lark:
    """The LALR parser of a grammar, from its tables if they fit."""
    tables = _tables(folder("grammar") / f"{grammar.name}.tables.json", grammar.text)
    if tables is None:
        return made(grammar)
    data = tables["data"]
    data["options"]["lexer"] = data["parser"]["lexer_conf"]["lexer_type"] = grammar.lexer
    return Lark._load_from_dict(data, tables["memo"])  # type: ignore[no-any-return, no-untyped-call]


def made(grammar: Grammar) -> Lark:
    """The LALR parser of a grammar, made afresh."""
    return Lark(
        grammar.text,
        parser="lalr",
        lexer=grammar.lexer,
        start=grammar.start,
        maybe_placeholders=False,
        keep_all_tokens=grammar.keep_all_tokens,
    )


def tables_of(grammar: Grammar) -> str:
    """The tables of a grammar as the text of a file."""
    data, memo = made(grammar).memo_serialize([TerminalDef, Rule])
    data["options"]["lexer"] = data["parser"]["lexer_conf"]["lexer_type"] = None
    kept = {"lark": lark.__version__, "grammar": _fingerprint(grammar.text), "data": data, "memo": memo}
    return json.dumps(_plain(kept), separators=(",", ":")) + "\n"


def _tables(file: Traversable, text: str) -> dict[str, Any] | None:
    """The kept tables, if they were made by this lark from this grammar."""
    try:
        kept = json.loads(file.read_text(encoding="utf-8"), object_pairs_hook=_restored)
    except (OSError, ValueError):
        return None
    if kept.get("lark") != lark.__version__ or kept.get("grammar") != _fingerprint(text):
        return None
    return kept  # type: ignore[no-any-return]


def _fingerprint(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def _plain(value: Any) -> Any:
    """``value`` in what JSON has. Mappings with other keys than texts become lists of pairs."""
    if isinstance(value, dict):
        if all(isinstance(key, str) for key in value):
            return {key: _plain(part) for key, part in value.items()}
        return {_PAIRS: [[key, _plain(part)] for key, part in value.items()]}
    if isinstance(value, list | tuple):
        return [_plain(part) for part in value]
    return value


def _restored(pairs: list[tuple[str, Any]]) -> dict[Any, Any]:
    if len(pairs) == 1 and pairs[0][0] == _PAIRS:
        return dict(pairs[0][1])
    return dict(pairs)


def main() -> None:
    """Writes the tables of both grammars into the checkout, where those that are there no longer fit."""
    from stacklint.language.parse import GRAMMAR as PLAN
    from stacklint.rulebook.grammar import GRAMMAR as EXPRESSIONS

    for grammar in (PLAN, EXPRESSIONS):
        file = Path(str(folder("grammar"))) / f"{grammar.name}.tables.json"
        if _tables(file, grammar.text) is None:
            file.write_text(tables_of(grammar), encoding="utf-8")


if __name__ == "__main__":
    main()
