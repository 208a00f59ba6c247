"""Finds and reads the files that a check is given: plans, the files they use, and house rules.

A project ends at its root: the nearest folder upward that is under version control (it holds ``.git``,
``.hg`` or ``.svn``). Without one it is the folder that was given to be searched, or else the folder
of the plan itself. Nothing above the root is read on a plan's behalf: no used file, no house rules.
"""

from __future__ import annotations

import os
import stat
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from stacklint.where import Where

if TYPE_CHECKING:
    from stacklint.language import UsedText, UseRefused, UseText

PLAN_SUFFIX = ".stackplan"
HOUSE_RULES = "house.rules"
STANDARD_INPUT = "-"
LARGEST = 10_000_000
"""Bytes. A plan of a thousand stacks is about a tenth of it; more is some other file, named by mistake."""

_MISSING = "there is no such file or folder"
_VERSION_CONTROL = (".git", ".hg", ".svn")


class Trouble(NamedTuple):
    """Why a file could not be read, as a sentence's end: *b2.stackplan: there is no such file*.

    Where one place in the file is at fault, ``where`` is that place and ``message`` whole sentences.
    """

    path: str
    message: str
    where: Where | None = None


class PlanFile(NamedTuple):
    """A plan that was read. ``path`` is shown to people; ``folder`` and ``root`` are resolved."""

    path: str
    text: str
    folder: Path
    root: Path


def plans(names: Sequence[str]) -> Iterator[PlanFile | Trouble]:
    """Each plan that the command line names, once, in the order named; a folder's plans sorted by path.

    Folders are searched to any depth, but for hidden folders and links to folders.
    """
    seen: set[str] = set()
    for name in names:
        if name == STANDARD_INPUT:
            if name not in seen:
                seen.add(name)
                yield _standard_input()
        elif _is_folder(name):
            yield from _in_folder(name, seen)
        elif (identity := _identity(name)) not in seen:
            seen.add(identity)
            yield _plan(name, None)


def read(path: str | Path) -> str | Trouble:
    """The text of a file: UTF-8, with or without a byte order mark, line ends made ``\\n``."""
    text = as_it_stands(path)
    return text if isinstance(text, Trouble) else _plain(text)


def as_it_stands(path: str | Path) -> str | Trouble:
    """The text of a file, UTF-8, with its byte order mark and its line ends: what a changed text is made from."""
    shown = str(path)
    try:
        status = Path(path).stat()
        if stat.S_ISDIR(status.st_mode):
            return Trouble(shown, "is a folder, not a file")
        if not stat.S_ISREG(status.st_mode):
            return Trouble(shown, "is a device or a pipe, not a file that can be read again")
        if status.st_size > LARGEST:
            return _too_large(shown)
        with Path(path).open("rb") as file:
            raw = file.read(LARGEST + 1)
    except (OSError, ValueError) as error:
        return Trouble(shown, _reason(error))
    return _decoded(shown, raw)


def project_root(folder: Path, given: Path | None = None) -> Path:
    """Where the project of ``folder`` begins; see the module's words. All paths resolved."""
    for above in (folder, *folder.parents):
        if any((above / name).exists() for name in _VERSION_CONTROL):
            return above
    return given or folder


def house_rules(folder: Path, root: Path) -> tuple[Path, ...]:
    """Each ``house.rules`` that holds in ``folder``, from the one at ``root`` down to the nearest."""
    within = [each for each in (folder, *folder.parents) if each.is_relative_to(root)]
    return tuple(each / HOUSE_RULES for each in reversed(within) if (each / HOUSE_RULES).is_file())


def shown(path: Path) -> str:
    """``path`` as people read it: from the current folder where it lies below it, whole otherwise."""
    here = Path.cwd().resolve()
    return str(path.relative_to(here)) if path.is_relative_to(here) else str(path)


def lending(root: Path) -> UseText:
    """What finds the texts that plans of a project ``use``.

    A name counts from the folder of the text that uses it. Links are followed before it is judged
    whether the file lies below ``root``.
    """
    from stacklint.language import UsedText, UseRefused

    def lend(name: str, using: str) -> UsedText | UseRefused:
        folder = Path() if using == STANDARD_INPUT else Path(using).parent
        path = folder / name
        try:
            below = path.resolve().is_relative_to(root)
        except (OSError, ValueError, RuntimeError):
            return UseRefused(f"The file {name} cannot be read.", "Write the path of a plan in this project.")
        if not below:
            return UseRefused(
                f"The file {name} lies outside the project, and nothing outside it is read.",
                "Copy it below the project's first folder, and write its path from this file.",
            )
        text = read(path)
        if isinstance(text, Trouble):
            return UseRefused(f"The file {name} {_in_a_sentence(text.message)}.", "Write its path from this file.")
        return UsedText(os.path.normpath(path), text)

    return lend


def _in_a_sentence(message: str) -> str:
    return "is not there" if message == _MISSING else message


def _is_folder(name: str) -> bool:
    try:
        return name != "" and Path(name).is_dir()
    except (OSError, ValueError):
        return False


def _identity(name: str) -> str:
    """The same for two names of one file."""
    try:
        return os.path.realpath(name)
    except (OSError, ValueError):
        return name


def _in_folder(name: str, seen: set[str]) -> Iterator[PlanFile | Trouble]:
    troubles: list[Trouble] = []
    found: list[Path] = []

    def refused(error: OSError) -> None:
        troubles.append(Trouble(str(error.filename), _reason(error)))

    for folder, below, files in os.walk(name, onerror=refused):
        below[:] = [each for each in below if not each.startswith(".")]
        found.extend(Path(folder, each) for each in files if each.lower().endswith(PLAN_SUFFIX))
    yield from troubles
    if not found and not troubles:
        yield Trouble(name, f"holds no plan: no file in it or below it ends in {PLAN_SUFFIX}")
    given = Path(name).resolve()
    for path in sorted(found, key=lambda each: each.parts):
        identity = _identity(str(path))
        if identity not in seen:
            seen.add(identity)
            yield _plan(str(path), given)


def _plan(name: str, given: Path | None) -> PlanFile | Trouble:
    text = read(name) if name else Trouble("''", "a file cannot be named by nothing")
    if isinstance(text, Trouble):
        return text
    folder = Path(name).resolve().parent
    return PlanFile(name, text, folder, project_root(folder, given))


def _standard_input() -> PlanFile | Trouble:
    text = input_as_it_stands()
    if isinstance(text, Trouble):
        return text
    folder = Path.cwd().resolve()
    return PlanFile(STANDARD_INPUT, _plain(text), folder, project_root(folder))


def input_as_it_stands() -> str | Trouble:
    """The text on standard input, likewise."""
    try:
        raw = sys.stdin.buffer.read(LARGEST + 1)
    except OSError as error:
        return Trouble("standard input", _reason(error))
    return _decoded("standard input", raw)


def _decoded(path: str, raw: bytes) -> str | Trouble:
    if len(raw) > LARGEST:
        return _too_large(path)
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return Trouble(path, "is written in UTF-16; save it as UTF-8")
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as error:
        line, column = _place(raw, error.start)
        return Trouble(
            path,
            f"is not UTF-8 text: byte {raw[error.start]:#04x} in line {line}, byte {column} of the line"
            f" ({error.start} bytes into the file); save it as UTF-8",
        )
    if "\0" in text:
        line, column = _place(raw, raw.index(b"\0"))
        return Trouble(path, f"is not text: it holds a zero byte in line {line}, byte {column} of the line")
    return text


def _plain(text: str) -> str:
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")


def _place(raw: bytes, offset: int) -> tuple[int, int]:
    before = raw[:offset]
    return before.count(b"\n") + 1, offset - (before.rfind(b"\n") + 1) + 1


def _too_large(path: str) -> Trouble:
    return Trouble(path, f"is larger than {LARGEST // 1_000_000} MB, which no plan is; it was not read")


def _reason(error: OSError | ValueError) -> str:
    if isinstance(error, FileNotFoundError):
        return _MISSING
    if isinstance(error, PermissionError):
        return "may not be read: permission is lacking"
    if isinstance(error, OSError) and error.strerror:
        return f"cannot be read: {error.strerror.lower()}"
    return f"cannot be read: {error}"
