"""Rules as text: loading them, changing them by house rules, and judging facts by them."""

from stacklint.rulebook.book import Loaded, RuleBook, Skipped, builtin, builtin_texts, load
from stacklint.rulebook.house import Chain, HouseRules, book_of, chained
from stacklint.rulebook.judge import Judgement, StackWaiver, judge
from stacklint.rulebook.rule import FaultyRules, Limit, Rule
from stacklint.rulebook.written import RuleFault

__all__ = [
    "Chain",
    "FaultyRules",
    "HouseRules",
    "Judgement",
    "Limit",
    "Loaded",
    "Rule",
    "RuleBook",
    "RuleFault",
    "Skipped",
    "StackWaiver",
    "book_of",
    "builtin",
    "builtin_texts",
    "chained",
    "judge",
    "load",
]
