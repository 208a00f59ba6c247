"""How long reading takes: the parser once, then a plan of 25 lines.

Run by hand: ``python tests/bench/bench_language.py``. Times are of the processor, the best of many.
"""

from __future__ import annotations

import datetime
import time
from collections.abc import Callable

PLAN = """\
pile "B2" "Ash for flooring"
  place open yard
  spot "row 3"
  sawn 2026-03-30
  stacked 2026-04-02
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green, flatsawn
  boards b: 350 bf of white ash 4/4 x 5 to 9 in x 12 ft, 35%
  boards c: 40 of white ash 1 in x 6 in x 4 ft, air dried
  stack 16 ft x 4 ft                       # length x width
  course 1 to 6: 8 rows of a + a
  course 7: 4 rows of b + c, 2 rows of a + a
  stickers 3/4 in x 1 1/4 in, every 24 in, 1 in from ends, dry, 4 ft long
  bearers 4 in x 6 in of white oak, every 24 in, on 8 in x 16 in pads
  clearance 14 in                          # ground to the underside of the lowest board
  ground gravel, flat
  cover sheet metal, overhang 12 in, gap 4 in, slope 1 in 12, tied
  sides shade cloth
  wind across
  top load 50 psf
  ends coated
  fan 2 of 1500 cfm
  want 12% by 2027-02-01 for flooring
  reading 2026-05-10 41%
  waive stickers-wet because "kiln-dried sticks arrive Friday" until 2026-05-01
  waive ends-bare
"""


def milliseconds(work: Callable[[], object], rounds: int) -> float:
    best = float("inf")
    for _ in range(rounds):
        start = time.process_time()
        work()
        best = min(best, time.process_time() - start)
    return best * 1000


def main() -> None:
    from stacklint.language import parse, read

    def parser() -> None:
        parse._parser.cache_clear()
        parse._parser()

    print(f"the parser, the first time: {milliseconds(parser, 1):6.1f} ms")
    print(f"the parser, again:          {milliseconds(parser, 10):6.1f} ms")
    today = datetime.date(2026, 6, 1)
    assert not read(PLAN, today=today).faults
    print(f"a plan of 25 lines:        {milliseconds(lambda: read(PLAN, today=today), 200):6.2f} ms")


if __name__ == "__main__":
    main()
