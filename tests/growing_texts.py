"""Texts that grow with a number: so many of each statement, clause, row, name, word or bracket."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

Growing = Callable[[int], str]

PILE = 'pile "P{n}"\n  boards a: 6 of white ash 4/4 x 6 in x 8 ft, green\n  stickers 3/4 in x 1 1/4 in, every 24 in\n'
_BARE_PILE = 'pile "P{n}"\n  boards a: 6 of white ash 4/4 x 6 in x 8 ft\n'
_ONE_EACH = {
    "site": (
        'near "Burlington, VT"',
        "month jan 30 F 74%",
        "stock 200 stickers of 4 ft",
    ),
    "kiln": (
        *("type solar", "inside 17 ft x 5 ft x 6 ft", "holds 800 bf", "carries 9000 lb", "heats to 120 F"),
        *("removes 60 pt/day", "fans 4 of 2400 cfm", "plenum 18 in", "collector 120 ft2"),
    ),
    "wood": (
        *("like white ash", "hardwood", "specific gravity 0.55", "stiffness 1,660,000 psi dry", "crushing 900 psi"),
        *("green moisture 60%", "shrinks 4% radial", 'source "a book"'),
    ),
    "pile": (
        *("place open shed", 'spot "row 1"', "sawn 2026-03-30", "stacked 2026-04-02", "stack 16 ft x 4 ft"),
        *("course 1: 2 rows of a + a", "bearers 4 in x 6 in of white oak, every 24 in, on 8 in x 16 in pads"),
        *("stickers 3/4 in x 1 1/4 in, every 24 in, dry", "clearance 14 in", "ground gravel, flat"),
        *("cover sheet metal, overhang 12 in, tied", "sides shade cloth", "wind across", "top load 50 psf"),
        *("ends coated", "fan 2 of 1500 cfm", "want 12% by 2027-02-01", "wanted 13/16 in thick"),
        *("reading 2026-05-10 41%", "waive stickers-wet because \"dry ones come\""),
    ),
    "charge": (
        *("starts 2026-06-01", 'schedule "T8-D4"', "baffles top, ends", "sterilize", "runs at 110 F / 102 F"),
        *("hold 150 F for 4 h", "fans 12 h/day"),
    ),
}  # fmt: skip


def _many(line: str) -> Growing:
    return lambda n: "".join(line.replace("{n}", str(number)) for number in range(n))


def _in_pile(line: str) -> Growing:
    """A pile with so many of a statement."""
    return lambda n: _BARE_PILE.replace("{n}", "") + _many(f"  {line}\n")(n)


def _blocks_with(block: str, statement: str) -> Growing:
    head = _BARE_PILE.replace("pile", block) if block in ("pile", "charge") else f'{block} "B{{n}}"\n'
    return _many(f"{head}  {statement}\n")


def _one_line(before: str, again: str, after: str = "") -> Growing:
    return lambda n: before + again * n + after + "\n"


PLANS: Mapping[str, Growing] = MappingProxyType(
    {
        **{
            f"{block}s with {statement.split('  ')[0]}": _blocks_with(block, statement)
            for block, statements in _ONE_EACH.items()
            for statement in statements
        },
        "boards in a pile": _in_pile("boards a{n}: 6 of white ash 4/4 x 6 in x 8 ft"),
        "boards of one label": _in_pile("boards b: 6 of white ash 4/4 x 6 in x 8 ft"),
        "boards of different sizes": _in_pile("boards a{n}: {n}6 mm of white ash 4/4 x 6 in x 8.{n} ft"),
        "courses in a pile": _in_pile("course {n}: 1 rows of a"),
        "readings in a pile": _in_pile("reading 2026-05-10 41%"),
        "waivers in a pile": _in_pile('waive stickers-wet because "x"'),
        "wanted in a pile": _in_pile("wanted 13/16 in thick"),
        "runs in a charge": lambda n: 'charge "C"\n' + "  runs at 110 F / 102 F\n" * n,
        "piles that a charge takes": lambda n: _many(_BARE_PILE)(n) + 'charge "C"\n' + _many('  from pile "P{n}"\n')(n),
        "charges from one pile": lambda n: PILE.replace("{n}", "") + _many('charge "C{n}"\n  from pile "P"\n')(n),
        "piles": _many(PILE),
        "piles of one name": _many(PILE.replace("{n}", "")),
        "piles of one site": lambda n: (
            'site "S"\n  near "Burlington, VT"\n'
            + _many(
                PILE + '  place open yard, site "S"\n  spot "row {n}"\n  stacked 2026-04-02\n  stack 16 ft x 4 ft\n'
            )(n)
        ),
        "piles in one spot": lambda n: (
            'site "S"\n  near "Burlington, VT"\n'
            + _many(PILE + '  place open yard, site "S"\n  spot "row"\n  stacked 2026-04-02\n  stack 16 ft x 4 ft\n')(n)
        ),
        "charges in one kiln": lambda n: (
            'kiln "K"\n  type solar\n'
            + _many(
                PILE.replace('pile "P{n}"', 'charge "C{n}" in kiln "K"') + "  starts 2026-04-02\n  stack 16 ft x 4 ft\n"
            )(n)
        ),
        "sites": _many('site "S{n}"\n'),
        "kilns": _many('kiln "K{n}"\n'),
        "woods": _many('wood "W{n}"\n  like white ash\n'),
        "piles of own woods": lambda n: (
            _many('wood "W{n}"\n  like white ash\n')(n) + _many(PILE.replace("white ash", '"W{n}"'))(n)
        ),
        "unknown woods": _many('pile "P{n}"\n  boards a: 6 of whiet aash{n} 4/4 x 6 in x 8 ft\n'),
        "unknown places": _many('site "S{n}"\n  near "Burlitom{n}"\n'),
        "unknown kilns": lambda n: _many('kiln "K{n}"\n')(n) + _many('charge "C{n}" in kiln "Kk{n}"\n')(n),
        "unknown sites": lambda n: _many('site "S{n}"\n')(n) + _many('pile "P{n}"\n  place shed, site "T{n}"\n')(n),
        "unknown piles": lambda n: _many(_BARE_PILE)(n) + _many('charge "C{n}"\n  from pile "Q{n}"\n')(n),
        "unknown rules": _in_pile("waive stickerss-wet{n}"),
        "unknown words": _many("stikers {n}\n"),
        "uses": _many('use "f{n}.stackplan"\n'),
        "comments": _many("# a comment {n}\n"),
        "comments in a pile": _in_pile("# a comment {n}"),
        "empty lines": _many("\n"),
        "empty lines after a comma": lambda n: 'pile "P"\n  cover none,' + "\n" * n,
        "lines that go on": lambda n: 'pile "P"\n  cover sheet metal,\n' + "    overhang 12 in,\n" * n,
        "statements after commas": lambda n: 'pile "P"\n' + "wind across,\n" * n,
        "details": _one_line('pile "P"\n  cover sheet metal', ", tied"),
        "details that are not known": _one_line('pile "P"\n  cover sheet metal', ", tyed"),
        "positions": _one_line('pile "P"\n  stickers 3/4 in x 1 1/4 in, at 1 in', ", 2 in"),
        "rows of a course": _one_line(_BARE_PILE.replace("{n}", "") + "  course 1: 1 rows of a", ", 1 rows of a"),
        "labels of a row": _one_line(_BARE_PILE.replace("{n}", "") + "  course 1: 1 rows of a", " + a"),
        "words": _one_line('pile "P"\n  place', " open"),
        "letters of a word": _one_line('pile "P"\n  place ', "o"),
        "letters of a wood": _one_line('pile "P"\n  boards a: 6 of ', "white", " 4/4 x 6 in x 8 ft"),
        "letters of a place": _one_line('site "S"\n  near "', "Burli", '"'),
        "letters of a name": _one_line('pile "', "P", '"'),
        "letters of a label": _one_line('pile "P"\n  boards ', "a", ": 6 of white ash 4/4 x 6 in x 8 ft"),
        "letters of a rule": _one_line('pile "P"\n  waive ', "stickers-"),
        "digits": _one_line('pile "P"\n  clearance ', "1", " in"),
        "digits after the point": _one_line('pile "P"\n  clearance 1.', "1", " in"),
        "thousands": _one_line('pile "P"\n  clearance 1', ",111", " in"),
        "fractions": _one_line('pile "P"\n  stack', " 1/4"),
        "figures with hyphens": _one_line('pile "P"\n  stack', " 1-1/4"),
        "quotation marks": _one_line('pile "P"\n  place ', '"'),
        "quotation marks that open": _one_line('pile "P"\n  place ', "“"),
        "inch marks and hashes": _one_line('pile "P"\n  place ', '1"#'),
        "blanks": _one_line('pile "P"\n  place', " ", "open yard"),
        "tabs before lines": _one_line('pile "P"\n', "\t", "wind across"),
        "tildes": _one_line('pile "P"\n  clearance ', "~", "14 in"),
        "commas": _one_line('pile "P"\n  cover sheet metal', ","),
        "colons": _one_line('pile "P"\n  course 1', ":"),
        "control characters": _one_line('pile "P"\n  place ', "\x01"),
        "dots and dashes in a word": _one_line('pile "P"\n  place ', "a.b-"),
        "units": _one_line('pile "P"\n  clearance 14', " square"),
        "feet and inches": _one_line('pile "P"\n  stack', " 8' 6\""),
    }
)
"""Plans by what there are many of."""


def _rules_with(clause: str) -> Growing:
    return _many(_rule(clause))


def _rule(clause: str) -> str:
    head = 'rule r{n}\n  title a rule\n  for each stack\n  say "It is so."\n  why "Because."\n'
    level = "" if clause.startswith(("warning", "error", "note")) else "  warning when stack.top > 2 ft\n"
    return f"{head}{level}  {clause}\n"


def _expression(before: str, again: str, middle: str = "stack.top > 2 ft", close: str = "", after: str = "") -> Growing:
    head = _rule("X").replace("{n}", "").replace("  warning when stack.top > 2 ft\n", "").removesuffix("  X\n")
    return lambda n: f"{head}  warning when {before}{again * n}{middle}{close * n}{after}\n"


_ONE_RULE = _rule("card a card").replace("{n}", "")

RULES: Mapping[str, Growing] = MappingProxyType(
    {
        "rules": _rules_with("card a card"),
        "rules with limits": _rules_with('limit most = 2 ft source "a book"'),
        "rules with lets": _rules_with("let twice = stack.top * 2"),
        "rules with conditions": _rules_with("where stack.top > 1 ft"),
        "rules with measures": _rules_with("measure stack.top against 2 ft"),
        "rules with cautions": _rules_with('caution "Take care."'),
        "limits of a rule": lambda n: _ONE_RULE + _many('  limit l{n} = 2 ft source "b"\n')(n),
        "lets of a rule": lambda n: _ONE_RULE + _many("  let l{n} = stack.top\n")(n),
        "lets that lean on the last": lambda n: (
            _rule("let l = stack.top").replace("{n}", "")
            + "".join(f"  let l{number} = l{number - 1 if number else ''} * 2\n" for number in range(n))
        ),
        "clauses said twice": lambda n: _ONE_RULE + "  card a card\n" * n,
        "changes": _many("change no-cover\n  never note\n"),
        "changes of limits": _many("change pile-too-tall\n  limit most = {n} ft\n"),
        "skips of one rule": _many('skip no-cover because "x"\n'),
        "skips of no rule": _many('skip no-coverr{n} because "x"\n'),
        "rules of one name": lambda n: _ONE_RULE * n,
        "clauses of no rule": _many("say nothing{n}\n"),
        "unknown clauses": lambda n: _ONE_RULE + _many("  sey nothing{n}\n")(n),
        "unknown names": _rules_with("where stack.topp > 1 ft"),
        "lines of a clause": _expression("", "stack.top > 2 ft\n    or "),
        "texts of a clause": lambda n: _rule('caution "x"').replace("{n}", "") + '    "and so on"\n' * n,
        "fillings of a text": lambda n: _ONE_RULE.replace("It is so", "{stack.top} " * n),
        "braces of a text": lambda n: _ONE_RULE.replace("It is so", "{" * n),
        "quotation marks": lambda n: _ONE_RULE + "  caution " + '"' * n + "\n",
        "hashes": lambda n: _ONE_RULE + "  caution " + "#" * n + "\n",
        "parentheses": _expression("", "(", close=")"),
        "parentheses that do not close": _expression("", "("),
        "signs": _expression("stack.top > ", "-", "2 ft"),
        "negations": _expression("", "not "),
        "ors": _expression("", "stack.top > 2 ft or "),
        "ands": _expression("", "stack.top > 2 ft and "),
        "sums": _expression("stack.top > ", "1 ft + ", "1 ft"),
        "products": _expression("stack.top > 1 ft * ", "2 * ", "1"),
        "choices": _expression("stack.top > ", "1 ft if stack.top > 2 ft else ", "1 ft"),
        "joined texts": _expression('"b" = ', '"a" & ', '"b"'),
        "members of a list": _expression("stack.top in (", "1 ft, ", "1 ft", after=")"),
        "quantifiers in one another": _expression("", "any(x in stack.courses: ", close=")"),
        "names with dots": _expression("stack.top > ", "stack.", "top"),
        "letters of a name": _expression("stack.top > ", "h", "h"),
        "digits": _expression("stack.top > ", "1", " ft"),
        "thousands": _expression("stack.top > 1", ",111", " ft"),
        "comments": _many("# a comment {n}\n"),
        "empty lines": _many("\n"),
    }
)
"""Rule texts by what there are many of."""

_HEADINGS = "species,thickness,width,length,count\n"

TALLIES: Mapping[str, Growing] = MappingProxyType(
    {
        "rows": lambda n: _HEADINGS + "white ash,4/4,6 in,8 ft,60\n" * n,
        "rows that differ": lambda n: _HEADINGS + _many("white ash,4/4,6 in,8.{n} ft,60\n")(n),
        "rows that cannot be read": lambda n: _HEADINGS + _many("whiet aash{n},4/4,6 in,8 ft,60\n")(n),
        "rows with open marks": lambda n: _HEADINGS + 'white ash,"4/4,6 in,8 ft,60\n' * n,
        "columns": lambda n: _HEADINGS.strip() + ",x" * n + "\nwhite ash,4/4,6 in,8 ft,60" + "," * n + "\n",
        "columns of one heading": lambda n: _HEADINGS.strip() + ",notes" * n + "\nwhite ash,4/4,6 in,8 ft,60\n",
        "lines above the headings": lambda n: "a title\n" * n + _HEADINGS,
        "letters of a cell": lambda n: _HEADINGS + "white" * n + ",4/4,6 in,8 ft,60\n",
        "letters of a heading": lambda n: _HEADINGS.strip() + "," + "x " * n + "\n",
        "digits": lambda n: _HEADINGS + "white ash,4/4,6 in,8 ft," + "1" * n + "\n",
        "empty lines": lambda n: _HEADINGS + "\n" * n,
        "commas": lambda n: _HEADINGS + "," * n + "\n",
    }
)
"""Tallies by what there are many of."""
