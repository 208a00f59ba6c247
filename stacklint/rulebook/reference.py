"""Prints the facts that rules can see, from their declarations, for the reference of the rule language."""

from __future__ import annotations

from stacklint.engineering.schema import Declaration, Many, One
from stacklint.rulebook.scope import STACK_KINDS, Collection, calls_of, collections, facts_of, noun
from stacklint.units import Dimension


def facts_section() -> str:
    """Every collection and its facts, as a section in Markdown."""
    parts = [_facts("stack", "StackFacts", f"`for each` {', '.join(f'`{name}`' for name in STACK_KINDS)}")]
    parts.extend(
        _facts(one.name, one.of, _reach(one))
        for one in collections().values()
        if one.name not in STACK_KINDS
    )
    return "\n".join(parts)


def _reach(one: Collection) -> str:
    if one.of_yard:
        return f"`for each {one.name}`; of all the plans that are checked together, so there is no `stack`"
    if one.of_plan:
        return f"`for each {one.name}`; of the whole text, so there is no `stack`"
    kept = f"`stack.{one.field}`"
    if one.single:
        return f"`for each {one.name}`, or {kept}, which may be absent"
    return f"`for each {one.name}`; all of them: {kept}"


def _facts(name: str, of: str, reach: str) -> str:
    lines = [f"### {name}", "", f"{reach}.", "", "| fact | kind | meaning |", "|---|---|---|"]
    for fact, declared in facts_of(of).items():
        lines.append(f"| `{name}.{fact}` | {_kind(declared)} | {declared.means} |")
    for fact, call in calls_of(of).items():
        kind = f"{call.result.word}, asked with {call.argument.word}"
        lines.append(f"| `{name}.{fact}(...)` | {kind} | {call.means} |")
    return "\n".join([*lines, ""])


def _kind(declared: Declaration) -> str:
    kind = declared.kind
    if isinstance(kind, Dimension):
        return kind.word
    if isinstance(kind, Many):
        return f"collection of {noun(kind.of)}"
    if isinstance(kind, One):
        return f"a {noun(kind.of)}, or none"
    return kind.value


def print_anew() -> None:
    """Prints the section of facts anew into the reference of a checkout."""
    from pathlib import Path

    from stacklint.data import folder

    page = Path(str(folder("grammar"))) / "RULES.md"
    head, mark, _ = page.read_text(encoding="utf-8").partition("## Facts\n\n")
    page.write_text(head + mark + facts_section(), encoding="utf-8")


if __name__ == "__main__":
    print_anew()
