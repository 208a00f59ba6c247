"""Spoils an input as a slip, a bad file or an enemy would: the same spoiling for the same seed, on any machine."""

from __future__ import annotations

import re
from collections.abc import Sequence
from random import Random

_PIECES = re.compile(rb"\w+|\s+|[^\w\s]")


def spoiled(data: bytes, random: Random, words: Sequence[str], others: Sequence[bytes], longest: int) -> bytes:
    """``data`` after one to four changes, never longer than ``longest`` bytes."""
    for _ in range(random.randint(1, 4)):
        data = random.choice(_WAYS)(data, random, words, others)[:longest]
    return data


def _word_in_place(data: bytes, random: Random, words: Sequence[str], _others: Sequence[bytes]) -> bytes:
    pieces = _PIECES.findall(data) or [b""]
    pieces[random.randrange(len(pieces))] = random.choice(words).encode()
    return b"".join(pieces)


def _word_between(data: bytes, random: Random, words: Sequence[str], _others: Sequence[bytes]) -> bytes:
    pieces = _PIECES.findall(data)
    pieces.insert(random.randint(0, len(pieces)), random.choice(words).encode() + random.choice((b" ", b"")))
    return b"".join(pieces)


def _piece_lost(data: bytes, random: Random, _words: Sequence[str], _others: Sequence[bytes]) -> bytes:
    pieces = _PIECES.findall(data) or [b""]
    del pieces[random.randrange(len(pieces))]
    return b"".join(pieces)


def _pieces_swapped(data: bytes, random: Random, _words: Sequence[str], _others: Sequence[bytes]) -> bytes:
    pieces = _PIECES.findall(data) or [b""]
    one, other = random.randrange(len(pieces)), random.randrange(len(pieces))
    pieces[one], pieces[other] = pieces[other], pieces[one]
    return b"".join(pieces)


def _line_twice(data: bytes, random: Random, _words: Sequence[str], _others: Sequence[bytes]) -> bytes:
    lines = data.split(b"\n")
    line = random.choice(lines)
    for _ in range(random.choice((1, 1, 2, 30))):
        lines.insert(random.randint(0, len(lines)), line)
    return b"\n".join(lines)


def _line_lost(data: bytes, random: Random, _words: Sequence[str], _others: Sequence[bytes]) -> bytes:
    lines = data.split(b"\n")
    del lines[random.randrange(len(lines))]
    return b"\n".join(lines)


def _line_of_another(data: bytes, random: Random, _words: Sequence[str], others: Sequence[bytes]) -> bytes:
    lines = data.split(b"\n")
    lines.insert(random.randint(0, len(lines)), random.choice(random.choice(others).split(b"\n")))
    return b"\n".join(lines)


def _stretch_again(data: bytes, random: Random, _words: Sequence[str], _others: Sequence[bytes]) -> bytes:
    start = random.randint(0, len(data))
    end = min(len(data), start + random.randint(1, 60))
    return data[:end] + data[start:end] * random.choice((1, 2, 40)) + data[end:]


def _figure_changed(data: bytes, random: Random, _words: Sequence[str], _others: Sequence[bytes]) -> bytes:
    figures = list(re.finditer(rb"\d+(?:\.\d+)?", data))
    if not figures:
        return data
    found = random.choice(figures)
    anew = random.choice((b"0", b"1", b"0.001", b"1e9", b"9" * 400, b"-1", b"100000", b"1/0", b"0.5", b"7"))
    return data[: found.start()] + anew + data[found.end() :]


def _byte_changed(data: bytes, random: Random, _words: Sequence[str], _others: Sequence[bytes]) -> bytes:
    at = random.randrange(len(data) + 1)
    return data[:at] + bytes([random.randrange(256)]) + data[at + 1 :]


_WAYS = (
    _word_in_place,
    _word_between,
    _piece_lost,
    _pieces_swapped,
    _line_twice,
    _line_lost,
    _line_of_another,
    _stretch_again,
    _figure_changed,
    _byte_changed,
)
