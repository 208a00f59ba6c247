"""House rules on top of house rules: a nearer file changes, skips and keeps what a farther one has made."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stacklint.report.reasons import rule_reasons, skipped_reasons
from stacklint.rulebook import Chain, HouseRules, RuleBook, book_of, builtin, chained, load
from stacklint.rulebook.explain import amended

SKIP = 'skip no-cover because "a roof stands over the yard"\n'
KEEP = 'keep no-cover because "this corner is in the open"\n'
WIDER = "change sticker-spacing-too-wide\n  limit hardwood = {} in\n"
OWN = (
    "rule courses\n  title Too many courses\n  for each stack\n  limit most = 40\n"
    '  error when stack.courses_high > most\n  say "Too many."\n  why "The mast is short."\n'
)


def chain(*texts: str) -> Chain:
    return chained(HouseRules(f"{number}/house.rules", text) for number, text in enumerate(texts))


def reasons(book: RuleBook, name: str) -> str:
    rule = book.rule(name)
    skipped = next((each for each in book.skipped if each.rule.name == name), None)
    lines = rule_reasons(rule) if rule is not None else skipped_reasons(skipped) if skipped is not None else ()
    return " ".join(" ".join(lines).split())


def test_a_rule_that_a_farther_file_skips_is_kept_where_it_stood() -> None:
    found = chain(SKIP, KEEP)
    assert found.faults == ()
    assert found.book.names == builtin().names
    assert found.book.skipped == ()


@pytest.mark.parametrize("name", [builtin().names[0], builtin().names[-1], "sag-between-stickers"])
def test_any_rule_goes_back_to_its_place(name: str) -> None:
    assert chain(f'skip {name} because "x"\n', f'keep {name} because "y"\n').book.names == builtin().names


def test_rules_that_were_all_skipped_come_back_too() -> None:
    name = OWN.split()[1]
    assert chain(OWN, f'skip {name} because "x"\n', f'keep {name} because "y"\n').book.names[-1] == name


def test_a_kept_rule_may_be_changed_and_skipped_again_farther_down() -> None:
    wider = WIDER.format(12)
    name = "sticker-spacing-too-wide"
    keep = f'keep {name} because "small sticks here"\n'
    skip = f'skip {name} because "never mind"\n'
    book = chain(WIDER.format(20), skip, keep + wider, skip).book
    assert [each.rule.name for each in book.skipped] == [name]
    told = reasons(book, name)
    assert told.startswith("House rules skip this rule (3/house.rules, line 1): never mind")
    order = ["Changed in 0/", "Skipped in 1/", "Kept in 2/", "Changed in 2/"]
    places = [told.index(part) for part in order]
    assert places == sorted(places)


def test_a_rule_is_told_with_all_that_changed_it_in_their_order() -> None:
    rule = chain(WIDER.format(20), WIDER.format(16)).book.rule("sticker-spacing-too-wide")
    assert rule is not None
    assert [amended(said) for said in rule.history] == [
        "Changed in 0/house.rules, line 1.",
        "Changed in 1/house.rules, line 1.",
    ]
    assert [limit.source for limit in rule.limits if limit.name == "hardwood"] == ["house rules, 1/house.rules:2"]


def test_skipping_what_is_skipped_already_does_no_harm_and_the_nearer_reason_counts() -> None:
    found = chain(SKIP, 'skip no-cover because "a shed"\n')
    assert found.faults == ()
    (skipped,) = found.book.skipped
    assert (skipped.reason, skipped.where.path) == ("a shed", "1/house.rules")


def test_keeping_what_nobody_skips_does_no_harm_and_is_told() -> None:
    found = chain(KEEP)
    assert found.faults == ()
    assert "Kept in 0/house.rules, line 1: this corner is in the open" in reasons(found.book, "no-cover")


def test_a_nearer_file_changes_and_skips_a_rule_that_a_farther_one_added() -> None:
    assert chain(OWN, "change courses\n  limit most = 30\n").faults == ()
    assert chain(OWN, 'skip courses because "no forks here"\n').book.rule("courses") is None


@pytest.mark.parametrize(
    ("texts", "line", "message", "instead"),
    [
        ((SKIP, "change no-cover\n  title Bare\n"), 1, "no-cover is skipped in 0/house.rules, line 1.", "Write keep"),
        ((SKIP + KEEP,), 2, "no-cover is skipped in this file too, in line 1.", "one of the two"),
        ((SKIP, KEEP + SKIP), 2, "no-cover is kept in this file too, in line 1.", "one of the two"),
        (('keep no-covers because "x"\n',), 1, "There is no rule no-covers.", "no-cover"),
        (("keep no-cover\n",), 1, "no-cover is kept without a reason.", "because"),
        (("keep\n",), 1, "keep names no rule.", "keep RULE because"),
        ((OWN, OWN), 1, "There is a rule courses already in 0/house.rules, line 1.", "change courses"),
    ],
)
def test_a_fault_sets_the_whole_file_aside(texts: tuple[str, ...], line: int, message: str, instead: str) -> None:
    found = chain(*texts)
    (fault,) = found.faults
    assert (fault.where.path, fault.where.line) == (f"{len(texts) - 1}/house.rules", line)
    assert fault.message == message
    assert instead in fault.instead
    assert found.book is chain(*texts[:-1]).book


@pytest.mark.parametrize(
    "nearer", ["change courses\n  limit most = 30\n", 'skip courses because "x"\n', "change no-cover\n  title Bare\n"]
)
def test_a_nearer_file_holds_though_it_speaks_of_what_a_file_set_aside_had_made(nearer: str) -> None:
    found = chain(SKIP, OWN + KEEP + "skipp x\n", nearer + WIDER.format(12))
    assert {fault.where.path for fault in found.faults} == {"1/house.rules"}
    assert [house.name for house in found.accepted] == ["0/house.rules", "2/house.rules"]
    assert "Changed in 2/house.rules" in reasons(found.book, "sticker-spacing-too-wide")
    assert _told(book_of(found.accepted)) == _told(found.book)


_NAMES = ("no-cover", "pile-too-tall", "courses")
_PIECES = st.sampled_from(
    [
        OWN,
        WIDER.format(20),
        WIDER.format(12),
        "skipp x\n",
        *(f'{word} {name} because "x"\n' for word in ("skip", "keep") for name in _NAMES),
        *(f"change {name}\n  title Anew\n" for name in _NAMES),
    ]
)
_FILES = st.lists(st.lists(_PIECES, max_size=3).map("".join), max_size=5)


@given(_FILES)
def test_a_chain_is_each_faultless_file_loaded_on_top_of_the_ones_before(texts: list[str]) -> None:
    book = builtin()
    accepted = []
    aside: frozenset[str] = frozenset()
    for number, text in enumerate(texts):
        house = HouseRules(f"{number}/house.rules", text)
        loaded = load([house], base=book, house=True, aside=aside)
        if loaded.faults:
            blocks = (line.split() for line in text.splitlines() if not line.startswith(" "))
            aside |= {name for word, name, *_ in blocks if word != "skipp"}
        else:
            book = loaded.book
            accepted.append(house)
    found = chain(*texts)
    assert found.accepted == tuple(accepted)
    assert _told(found.book) == _told(book)
    assert _told(book_of(found.accepted)) == _told(book)


@given(_FILES)
def test_a_chain_loses_no_rule_and_no_house_changes_another(texts: list[str]) -> None:
    before = _told(builtin())
    book = chain(*texts).book
    assert set(builtin().names) <= {*book.names, *(each.rule.name for each in book.skipped)}
    assert _told(builtin()) == before


def _told(book: RuleBook) -> list[str]:
    return [*book.names, *(reasons(book, name) for name in (*_NAMES, "sticker-spacing-too-wide"))]
