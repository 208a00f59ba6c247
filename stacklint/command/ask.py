"""Asks for a first plan question by question, on a terminal."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path

from rich.console import Console
from rich.text import Text

from stacklint.beginning import Answers, Question, Refused, refused
from stacklint.command.usage import UsageError
from stacklint.report.plain import plain

_LEFT_OUT = {
    Question.NEAR: "left out",
    Question.SIZE: "to suit the boards",
    Question.STACKED: "left out",
    Question.WANT: "left out",
    Question.BY: "left out",
    Question.USE: "left out",
}
"""What comes of a question that nobody answers and that has no usual answer."""


class Asker:
    """Asks on standard error, so that the plan alone goes to standard output."""

    def __init__(self, today: datetime.date) -> None:
        self._today = today
        self._console = Console(stderr=True, highlight=False)

    def ask(self, answers: Answers) -> Answers:
        """``answers`` with those that were lacking; every one can stand in a plan."""
        self._say("A first plan. Answer as you would write it in a plan; Enter takes what stands in brackets.")
        for question in Question:
            if answers.to(question) is None:
                said = self._one(question, answers)
                if said is not None:
                    answers = replace(answers, **{question.field: said})
        return answers

    def where(self, out: str | None, *, overwrite: bool) -> tuple[str | None, bool]:
        """The file to write to (``None``: standard output), and whether it may be there already."""
        while True:
            if out is None:
                out = self._input("Write it to which file", "show it here") or None
                if out is None:
                    return None, overwrite
            if overwrite or not Path(out).exists():
                return out, overwrite
            if self._input(f"{out} is there already. Overwrite it", "no").casefold() in ("y", "yes"):
                return out, True
            out = None

    def _one(self, question: Question, answers: Answers) -> str | None:
        usual = question.usual(answers.system)
        while True:
            said = self._input(question.value.words, usual or _LEFT_OUT.get(question)) or usual
            if said is None and not question.value.needed:
                return None
            refusal = refused(question, said or "", self._today)
            if refusal is None:
                return said
            self._refuse(refusal)

    def _input(self, words: str, otherwise: str | None) -> str:
        prompt = Text(plain(words), style="bold")
        prompt.append(f" [{otherwise}]" if otherwise else "", style="dim").append("? ")
        try:
            return self._console.input(prompt).strip()
        except EOFError:
            self._console.print()
            raise UsageError("stacklint begin: the answers ended too early; nothing was written") from None

    def _refuse(self, refusal: Refused) -> None:
        self._say(f"{refusal.message} {refusal.instead}")

    def _say(self, words: str) -> None:
        self._console.print(Text(plain(words)))
