"""The report on a screen: what a person reads, at any width, with and without colour and block elements."""

import dataclasses
import io
import re

import pytest

from stacklint.checked import CheckedStack
from stacklint.findings import Level
from stacklint.report.kept import kept
from stacklint.report.screen import CAUTION, Screen, drawn, look_of

STYLING = re.compile(r"\x1b\[[0-9;]*m")


class Terminal(io.TextIOWrapper):
    def __init__(self, encoding="utf-8"):
        super().__init__(io.BytesIO(), encoding=encoding, errors="backslashreplace", write_through=True)

    def isatty(self):
        return True

    @property
    def shown(self):
        return self.buffer.getvalue().decode(self.encoding)


@pytest.fixture
def screen(book, monkeypatch):
    for name in ("NO_COLOR", "FORCE_COLOR", "COLUMNS", "LC_ALL", "TTY_COMPATIBLE"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TERM", "xterm")

    def shown(*plans, width=80, encoding="utf-8", environ=None):
        terminal = Terminal(encoding)
        look = look_of(terminal, width=width, environ=environ or {})
        printed = Screen(terminal, look)
        for plan in plans:
            printed.plan(kept(plan), drawn(plan, len(book.rules), look))
        printed.close()
        return terminal.shown

    return shown


def words(text):
    return " ".join(STYLING.sub("", text).split())


def test_a_finding_is_told_with_its_letter_level_and_what_to_do(yard, screen):
    text = words(screen(yard.checked(yard.finding())))
    assert "A error The end of 4 of white ash 4/4 x 6 in x 12 ft hangs 2 ft past its last sticker." in text
    assert "Set a sticker within 3 in of that end. line 14, end-sticker-missing, and 3 more like it" in text


def test_the_letter_of_a_finding_stands_in_the_drawing(yard, screen):
    assert "░░A░░" in STYLING.sub("", screen(yard.checked(yard.finding())))


def test_the_gravest_findings_come_first(yard, screen):
    note = yard.finding(level=Level.NOTE, message="A small thing.", where=yard.where(6))
    text = words(screen(yard.checked(note, yard.finding())))
    assert text.index("A error") < text.index("B note A small thing.")


def test_a_stack_without_findings_is_answered_with_what_was_checked_and_its_figures(yard, screen):
    text = words(screen(yard.checked()))
    assert "Nothing to change. Looked at 6 courses, 192 board ends, 1 bearer, 1 footing by 1 rule." in text
    assert "384 bf, 96 boards" in text
    assert "1,600 lb now, 1,700 lb green, 1,200 lb at 12%, 400 lb of water to take out" in text
    assert "54 to cut of 48 in, 9 lines, 24 in apart at the widest" in text
    assert "at the most between supports" in text
    assert "no findings" in text


def test_every_report_ends_with_the_caution(yard, screen):
    assert words(screen(yard.checked())).endswith(CAUTION)


def test_a_safety_sentence_of_a_finding_is_shown(yard, screen):
    text = words(screen(yard.checked(yard.finding(caution="Keep clear of its long sides."))))
    assert "Caution: Keep clear of its long sides." in text


@pytest.mark.parametrize("width", [24, 40, 60, 80, 99, 100, 160])
def test_no_line_is_wider_than_the_screen(yard, screen, width):
    text = STYLING.sub("", screen(yard.checked(yard.finding(), yard.finding(marks=()), courses=30), width=width))
    assert max(len(line) for line in text.splitlines()) <= width
    assert "hangs" in text


def test_a_wide_screen_has_the_findings_beside_the_drawing(yard, screen):
    def beside(width):
        lines = STYLING.sub("", screen(yard.checked(yard.finding()), width=width)).splitlines()
        return any("█" in line and "line 14" in line for line in lines)

    assert beside(100)
    assert not beside(99)


def test_without_colour_the_words_are_the_same(yard, screen, monkeypatch):
    coloured = screen(yard.checked(yard.finding()))
    assert re.search(r"\x1b\[[0-9;]*3[0-7]m", coloured)
    monkeypatch.setenv("NO_COLOR", "1")
    bare = screen(yard.checked(yard.finding()))
    assert not re.search(r"\x1b\[[0-9;]*[34][0-7]m", bare)
    assert STYLING.sub("", bare) == STYLING.sub("", coloured)


def test_a_dumb_terminal_gets_no_control_at_all(yard, screen, monkeypatch):
    monkeypatch.setenv("TERM", "dumb")
    assert "\x1b" not in screen(yard.checked(yard.finding()))


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp1252"])
def test_an_output_that_cannot_carry_block_elements_gets_ascii(yard, screen, encoding):
    text = STYLING.sub("", screen(yard.checked(yard.finding()), encoding=encoding))
    assert text.isascii()
    assert "!!A!!" in text


def test_the_c_locale_gets_ascii(yard, screen):
    assert STYLING.sub("", screen(yard.checked(yard.finding()), environ={"LC_ALL": "C"})).isascii()


@pytest.mark.parametrize(
    "name",
    [
        "[red]x[/red]",
        "[/]",
        ":bomb:",
        "[link=file:///a]b[/link]",
        "\x1b]0;title\x07",
        "\x1b[31mred",
        "\u202ekcab",
        "a\x9b2Jb",
    ],
)
def test_what_a_plan_says_is_never_markup_nor_a_control(yard, screen, name):
    plan = yard.checked(
        yard.finding(stack=name, message=f"{name} leans.", instead=f"Prop {name}.", caution=name),
        stack=yard.pile(name, title=name),
        path=f"{name}.stackplan",
    )
    text = STYLING.sub("", screen(plan, width=200))
    visible = "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in name)
    assert text.count(visible) >= 5
    assert text.replace("\n", "").isprintable()


def test_a_text_without_stacks_is_told_so(yard, screen):
    text = words(screen(yard.checked(stacks=())))
    assert "This text holds no pile and no charge" in text


def test_a_fault_of_the_text_is_told_under_the_plan(yard, screen):
    fault = yard.finding("plan-text", stack=None, message="No statement begins with bords.", marks=())
    text = words(screen(yard.checked(fault, stacks=(CheckedStack(yard.pile(), None, None),))))
    assert text.index("No statement begins with bords.") < text.index("Pile B2")
    assert "Not drawn and not reckoned" in text


def test_of_two_piles_with_one_name_each_has_its_own_findings(yard, screen):
    first = CheckedStack(yard.pile(where=yard.where(5)), None, yard.facts())
    second = CheckedStack(yard.pile(where=yard.where(20)), None, yard.facts())
    plan = yard.checked(
        yard.finding(message="The upper one leans.", where=yard.where(8)),
        yard.finding(message="The lower one leans.", where=yard.where(22)),
        stacks=(first, second),
    )
    text = words(screen(plan))
    assert text.count("leans.") == 2
    assert text.index("line 5") < text.index("The upper one") < text.index("line 20") < text.index("The lower one")


def test_what_is_waived_is_told_with_its_reason(yard, screen):
    text = words(screen(yard.checked(waived=(yard.waived(),))))
    assert "Waived for B2, stickers-wet: kiln-dried sticks arrive Friday (until 2026-05-01)." in text


def test_more_findings_than_letters_are_still_all_told(yard, screen):
    plan = yard.checked(*(yard.finding(message=f"Fault {i}.") for i in range(60)))
    text = words(screen(plan))
    assert all(f"Fault {i}." in text for i in range(60))


def test_a_metric_plan_is_told_in_metric(yard, screen):
    from stacklint.units import System

    facts = dataclasses.replace(yard.facts(), system=System.METRIC)
    plan = yard.checked(stacks=(CheckedStack(yard.pile(), None, facts),), system=System.METRIC)
    text = words(screen(plan))
    assert "0.9 mm at the most" in text
    assert " lb" not in text


def test_a_sag_that_nobody_sees_is_not_given_to_five_places(yard, screen):
    facts = dataclasses.replace(yard.facts(), sag_max=0.000003)
    plan = yard.checked(stacks=(CheckedStack(yard.pile(), None, facts),))
    assert "sag next to nothing between supports" in words(screen(plan))


def test_a_figure_that_is_unknown_is_left_out(yard, screen):
    facts = dataclasses.replace(yard.facts(), mass_target=None, clearance=0.0)
    plan = yard.checked(stacks=(CheckedStack(yard.pile(), None, facts),))
    text = words(screen(plan))
    assert "None" not in text
    assert "off the ground" not in text
