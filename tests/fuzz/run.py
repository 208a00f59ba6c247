"""Fuzzes one target for a while: ``python tests/fuzz/run.py TARGET --seconds N``.

Guided by coverage where the library atheris is installed (``pip install -e '.[fuzz]'``); ``--unguided`` does without.
Every input that breaks a promise is kept in ``tests/fuzz/found/TARGET/``, one a fault, where the tests replay it from
then on. An input slower than all before is told of. The exit code is 1 if anything was found.
"""

from __future__ import annotations

import argparse
import hashlib
import sys
import tempfile
import time
import traceback
from collections.abc import Callable, Sequence
from multiprocessing import Process
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1]))

from fuzz.mutator import spoiled
from fuzz.targets import NAMES, target

FOUND = Path(__file__).parent / "found"

LONGEST = 8192
"""Bytes of an input. What is slow shows in a short one already; long ones are for ``tests/bench/bench_growth.py``."""
_LEAST = 64
"""Bytes that an input counts for at least, where time a byte is reckoned."""
_NOTABLY = 1.2
"""So many times slower than the slowest before, an input is told of."""
_BY_WORDS = 0.6
"""The share of inputs that are spoiled word by word; the others are by the library, byte by byte."""


class Watch:
    """Examines inputs one by one, keeps those that break a promise, and remembers the slowest."""

    def __init__(self, examine: Callable[[bytes], None], folder: Path) -> None:
        self._examine = examine
        self._folder = folder
        self.found: set[str] = set()
        self.count = 0
        self.slowest = self.slowest_a_byte = 0.0

    def take(self, data: bytes) -> None:
        self.count += 1
        start = time.process_time()
        try:
            self._examine(data)
        except Exception as error:
            self._keep(data, error)
        taken = time.process_time() - start
        if taken > self.slowest * _NOTABLY:
            self.slowest = taken
            print(f"slowest of {self.count:,}: {taken * 1e3:.0f} ms, {len(data)} bytes: {data[:300]!r}", flush=True)
        a_byte = taken / max(len(data), _LEAST)
        if a_byte > self.slowest_a_byte * _NOTABLY:
            self.slowest_a_byte = a_byte
            print(f"slowest a byte: {a_byte * 1e6:.0f} us, {len(data)} bytes: {data[:300]!r}", flush=True)

    def _keep(self, data: bytes, error: Exception) -> None:
        frames = traceback.extract_tb(error.__traceback__)
        last = next((each for each in reversed(frames) if "stacklint" in Path(each.filename).parts), frames[-1])
        fault = f"{type(error).__name__} {Path(last.filename).name}:{last.lineno} {str(error)[:60]}"
        place = f"{type(error).__name__} {Path(last.filename).name}:{last.lineno} {frames[-1].lineno}"
        if place in self.found:
            return
        self.found.add(place)
        self._folder.mkdir(parents=True, exist_ok=True)
        (self._folder / hashlib.sha256(data).hexdigest()[:12]).write_bytes(data)
        print(f"found: {fault}", flush=True)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("target", choices=NAMES)
    parser.add_argument("--seconds", type=int, default=600)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--unguided", action="store_true", help="do without atheris")
    parser.add_argument("--found", type=Path, default=FOUND, help="where inputs that break a promise are kept")
    parser.add_argument("--corpus", type=Path, help="a folder where inputs that reach new code are kept between runs")
    options = parser.parse_args()
    folder = options.found / options.target
    before = set(folder.glob("*"))
    # The library ends its process by itself, so it is given one of its own.
    fuzz = Process(target=_unguided if options.unguided else _guided, args=(options, folder))
    fuzz.start()
    fuzz.join()
    new = set(folder.glob("*")) - before
    print(f"{len(new)} found")
    return int(bool(new) or fuzz.exitcode != 0)


def _unguided(options: argparse.Namespace, folder: Path) -> None:
    chosen, random = target(options.target), Random(options.seed)
    seeds, words = list(chosen.seeds()), chosen.words()
    chosen.examine(seeds[0])
    watch = Watch(chosen.examine, folder)
    end = time.monotonic() + options.seconds
    while time.monotonic() < end:
        watch.take(spoiled(random.choice(seeds), random, words, seeds, LONGEST))
    print(f"{watch.count:,} inputs")


def _guided(options: argparse.Namespace, folder: Path) -> None:
    try:
        import atheris
    except ModuleNotFoundError:
        sys.exit("atheris is missing: pip install -e '.[fuzz]', or say --unguided")
    with atheris.instrument_imports(include=["stacklint"]):
        chosen = target(options.target)
    seeds, words = [seed[:LONGEST] for seed in chosen.seeds()], chosen.words()
    chosen.examine(seeds[0])
    watch = Watch(chosen.examine, folder)

    def mutated(data: bytes, longest: int, seed: int) -> bytes:
        random = Random(seed)
        by_bytes: bytes = atheris.Mutate(data, longest)
        return spoiled(data, random, words, seeds, longest) if random.random() < _BY_WORDS else by_bytes

    with tempfile.TemporaryDirectory() as room:
        begin, words_file = Path(room, "seeds"), Path(room, "words")
        begin.mkdir()
        for number, seed in enumerate(seeds):
            (begin / str(number)).write_bytes(seed)
        words_file.write_text(_dictionary(words), encoding="ascii")
        corpus: Path = options.corpus or Path(room, "corpus")
        corpus.mkdir(parents=True, exist_ok=True)
        limits = (f"-max_total_time={options.seconds}", f"-max_len={LONGEST}", "-timeout=60", "-rss_limit_mb=4096")
        given = [sys.argv[0], str(corpus), str(begin), f"-dict={words_file}", f"-seed={options.seed}", *limits]
        atheris.Setup(given, watch.take, custom_mutator=mutated)
        atheris.Fuzz()


def _dictionary(words: Sequence[str]) -> str:
    """Words as the library reads them: each in quotation marks, odd bytes as hexadecimal escapes."""
    lines = []
    for word in dict.fromkeys(words):
        if 0 < len(word.encode()) <= 60:
            lines.append(f'"{"".join(map(_escaped, word.encode()))}"')
    return "\n".join(lines) + "\n"


def _escaped(byte: int) -> str:
    return chr(byte) if 32 < byte < 127 and byte not in b'"\\' else f"\\x{byte:02x}"


if __name__ == "__main__":
    sys.exit(main())
