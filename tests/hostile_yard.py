"""A yard on disk whose writer means harm: whatever a person can name in it bears a mark."""

from __future__ import annotations

import contextlib
import io
import unicodedata
from pathlib import Path
from typing import NamedTuple

from stacklint.command.main import main

NOTHING_SHOWN = "\u3164\u115f\uffa0\u2800\u034f\u17b4"
"""Letters and marks that count as printable, and of which nothing is seen."""
UNSEEN = "".join(
    (
        "\x7f\x85\x9b31m\x9d0;title\x9c",  # delete, and C1 controls that begin sequences as ESC does (ECMA-48)
        "\u200b\u200e\u2060\ufeff\u00ad",  # no width at all
        "\u202e\u202a\u2066\u2067\u2068\u2069",  # they turn the writing direction round (UAX #9)
        "\u2028\u2029",  # they end a line
        NOTHING_SHOWN,
        "\U000e0041\U000e007f",  # tags
    )
)
JOINERS = "\u200c\u200d\ufe0f"
"""The only letters without a shape of their own that a name may hold."""
ESCAPES = "\x1b[31m\x1b]0;title\x07\x1b[2J\x08\r\x0b\x0c\x7f"
MARKUP = "'><img src=x onerror=alert(1)><!--]]>${7*7}{{7*7}}{0}[red]x[/red]:bomb:`b`**c**"
LINKS = "[click](http://evil.example/) <http://evil.example/> www.evil.example javascript:alert(1) &lt;b&gt;"
FORMULA = "=cmd|' /C calc'!A0;=1+1"
MARKS = {"unseen": UNSEEN, "joiners": JOINERS, "escapes": ESCAPES, "markup": MARKUP, "links": LINKS, "formula": FORMULA}
TODAY = ("--today", "2026-06-01")


class Yard(NamedTuple):
    """The folder, which is a project, and the names of the files in it."""

    folder: Path
    plan: str
    faulty: str
    tally: str
    rules: str


def hostile_yard(folder: Path, mark: str) -> Yard:
    """The yard, its files named by the mark too, as far as a disk takes such names."""
    (folder / ".git").mkdir(parents=True)
    named = mark.replace("/", "")[:60]
    shared = f"shared{named}.stackplan"
    yard = Yard(
        folder, f"{named}plan.stackplan", f"{named}faulty.stackplan", f"{named}tally.csv", f"{named}extra.rules"
    )
    for name, text in (
        (yard.plan, plan_text(mark, shared)),
        (shared, shared_text(mark)),
        (yard.faulty, faulty_text(mark)),
        (yard.tally, tally_text(mark)),
        ("house.rules", rules_text(mark)),
        (yard.rules, rules_text(mark) + f"nonsense {mark}\nskip no-rule{mark} because 'x'\n"),
    ):
        (folder / name).write_bytes(text.encode())
    return yard


def plan_text(mark: str, shared: str) -> str:
    """A plan that draws many findings, and no fault in its writing unless the mark is one."""
    return f"""\
use "{shared}"

pile "{mark}P" "{mark} title"
  place open yard, site "{mark}S"
  spot "{mark} spot"
  sawn 2026-03-30
  stacked 2026-04-02
  boards a: 60 of "{mark} wood" 4/4 x 6 in x 8 ft, green
  boards b: 40 of white ash 4/4 x 6 in x 4 ft, 60%
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 36 in, 8 in from ends, of "{mark} wood"
  bearers 4 in x 6 in of "{mark} wood", every 36 in
  clearance 6 in
  ground gravel
  cover none
  want 12% for "{mark} use" by 2026-05-01
  waive no-cover because "{mark} reason" until 2026-12-01
  waive pile-too-tall because "{mark} unused"

pile "{mark}Q"
  place open yard, site "{mark}S"
  spot "{mark} spot"
  stacked 2026-04-03
  boards c: 60 of white ash 4/4 x 6 in x 8 ft, green
  stack 8 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 24 in
  want 12%

charge "{mark}C" "{mark} title" in kiln "{mark}K"
  starts 2026-09-01
  boards d: 60 of white ash 4/4 x 6 in x 8 ft, 30%
  stack 16 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 24 in
  schedule "{mark}T"
  want 8% for "{mark} use"

charge "{mark} from" in kiln "{mark}K"
  from pile "{mark}Q"
  starts 2026-09-02
  want 8%
"""


def shared_text(mark: str) -> str:
    return f"""\
site "{mark}S"
  near "Columbus, OH"
kiln "{mark}K"
  type dehumidification
  inside 17 ft x 5 ft x 6 ft
  holds 300 bf
  carries 900 lb
  heats to 120 F
  removes 60 pt/day
  fans 4 of 2400 cfm
wood "{mark} wood"
  like white ash
  source "{mark} source"
"""


def faulty_text(mark: str) -> str:
    """Every kind of name where it cannot stand, so that faults quote it."""
    return f"""\
use "../outside{mark}.stackplan"
use "{mark}gone.stackplan"
use "{mark}"
site "{mark}S"
  near "{mark} nowhere"
pile "{mark}P"
  place open yard, site "{mark} none"
  boards a: 60 of "{mark} no wood" 4/4 x 6 in x 8 ft, {mark}
  boards {mark}: 60 of white ash 4/4 x 6 in x 8 ft
  boards b: 60 of white {mark} 4/4 x 6 in x 8 ft
  stack {mark} x 4 ft
  stickers 3/4 in x 1 1/4 in, {mark}
  ground {mark}
  waive no-rule{mark} because {mark}
  waive {mark}
  {mark} 12
  want 8% for {mark}
pile "{mark}P"
charge "{mark}C" in kiln "{mark} no kiln"
  from pile "{mark} no pile"
  schedule "{mark} no schedule"
  starts {mark}
"""


def tally_text(mark: str) -> str:
    cell = mark.replace('"', '""').replace("\r", "")
    return (
        f'species,thickness,width,length,count,notes,"{cell}"\n'
        f'white ash,4/4,6 in,8 ft,10,"{cell} note","{cell}"\n'
        f'"{cell}",4/4,6 in,8 ft,10,,\n'
        f'white ash,"{cell}",6 in,8 ft,10,,\n'
        f'white ash,4/4,6 in,8 ft,"{cell}",,\n'
    )


def rules_text(mark: str) -> str:
    """House rules whose every text bears the mark, but for what a text cannot hold."""
    text = mark.replace('"', "").replace("{", "{{").replace("}", "}}").replace("#", "").replace("\r", "")
    bare = text.replace("{{", "{").replace("}}", "}").replace("'", "")
    return f"""\
rule house-says
  title   "{text} title"
  card    "{text} card"
  for each group
  limit   most = 1 in source "{text} source"
  let     named = group.label & '{bare}'
  warning when group.thickness > most * 0.5 and named != '{bare}'
  say     "{{named}} says {text}."
  instead "{text} instead"
  why     "{text} why"
  caution "{text} caution"

skip pile-too-wide because "{text} reason"
"""


def told(words: list[str]) -> tuple[str, str]:
    """What a command says on standard output and on standard error."""
    out, errors = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(errors):
        main(words)
    return out.getvalue(), errors.getvalue()


def harmful(text: str) -> set[str]:
    """The characters of an output, line ends apart, that steer a terminal, hide, or turn text round."""
    categories = ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")
    found = {each for each in set(text) - {"\n"} if unicodedata.category(each) in categories}
    return found | (set(text) & set(NOTHING_SHOWN))
