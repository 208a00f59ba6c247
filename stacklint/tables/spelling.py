"""Compares names as people write them: letter case, spaces, hyphens and plurals make no difference."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

_ES_ENDINGS = ("ches", "shes", "sses", "xes")
_SINGULAR_ENDINGS = ("ss", "us", "is")
_FAR_BEHIND = 0.2


def plain(name: str) -> str:
    """The letters and figures of ``name`` in lower case without spaces, the last word in the singular."""
    return "".join(_words(name))


def last_word(name: str) -> str:
    """The last word of ``name`` in lower case and in the singular: ``oak`` of ``Red Oaks``."""
    words = _words(name)
    return words[-1] if words else ""


def alike(written: str, known: Iterable[str], at_least: float) -> Iterator[tuple[float, str]]:
    """Those of ``known`` that are like a plain name, each after how like it is: ``at_least`` to 1.

    What is far too long or lacks most of the letters is passed over without being compared, so that a name of
    thousands of letters costs no more than a short one.
    """
    from difflib import SequenceMatcher

    quick = SequenceMatcher(None, "", written)
    for name in known:
        quick.set_seq1(name)
        if quick.real_quick_ratio() >= at_least and quick.quick_ratio() >= at_least:
            score = SequenceMatcher(None, written, name).ratio()
            if score >= at_least:
                yield score, name


def best(scored: Iterable[tuple[float, str]], count: int, at_least: float) -> tuple[str, ...]:
    """The names of the highest scores, each once, best first; equal scores in the order given.

    Names far behind the best are left out, however many are asked for.
    """
    ranked = sorted(scored, key=lambda pair: -pair[0])
    bar = max(at_least, ranked[0][0] - _FAR_BEHIND) if ranked else at_least
    return tuple(dict.fromkeys(name for score, name in ranked if score >= bar))[:count]


def _words(name: str) -> list[str]:
    words = "".join(sign if sign.isalnum() else " " for sign in name.lower().replace("'", "")).split()
    return [*words[:-1], _singular(words[-1])] if words else []


def _singular(word: str) -> str:
    if len(word) <= 3 or word.endswith(_SINGULAR_ENDINGS):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(_ES_ENDINGS):
        return word[:-2]
    return word.removesuffix("s")
