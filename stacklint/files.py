"""Finds and reads the files that a check is given: plans, the files they use, and house rules.

A project ends at its root: the nearest folder upward that is under version control (it holds ``.git``,
``.hg`` or ``.svn``). Without one it is the folder that was given to be searched, or else the folder
of the plan itself. Nothing above the root is read on a plan's behalf: no used file, no house rules; and below it
nothing but plans and house rules, whatever a link is called.
"""

from __future__ import annotations

import os
import stat
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from enum import Enum
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from stacklint.where import Where

if TYPE_CHECKING:
    from stacklint.language import UsedText, UseRefused, UseText

PLAN_SUFFIX = ".stackplan"
HOUSE_RULES = "house.rules"
RULES_SUFFIX = ".rules"
STANDARD_INPUT = "-"
LARGEST = 10_000_000
"""Bytes. A plan of a thousand stacks is about a tenth of it; more is some other file, named by mistake."""
MOST_PLANS = 100_000
"""Plans and rule files in a folder and below it. A large co-op has ten thousand; more is a disk, named by mistake."""

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

    Folders are searched to any depth, but for hidden folders and links to folders. Links to files outside the project
    are not followed but told; a link that is named by itself is. Plans that rule files name as examples are passed
    over.
    """
    seen: set[str] = set()
    for name in names:
        if name == STANDARD_INPUT:
            if name not in seen:
                seen.add(name)
                yield _standard_input()
        elif is_folder(name):
            yield from _in_folder(name, seen)
        elif (identity := _identity(name)) not in seen:
            seen.add(identity)
            yield _plan(name, None)


def read(path: str | Path, *, by_link: bool = True) -> str | Trouble:
    """The text of a file: UTF-8, with or without a byte order mark, line ends made ``\\n``."""
    text = as_it_stands(path, by_link=by_link)
    return text if isinstance(text, Trouble) else _plain(text)


def as_it_stands(path: str | Path, *, by_link: bool = True) -> str | Trouble:
    """The text of a file, UTF-8, with its byte order mark and its line ends: what a changed text is made from.

    ``by_link``: the name may be that of a symbolic link. One that was :func:`found_below` is none, and if it has become
    one since, it leads who knows where.
    """
    shown = str(path)
    try:
        refusal = _unreadable(shown, Path(path).stat())
        if refusal is not None:
            return refusal
        # Another file may have taken the name since: what is open is looked at anew, and a pipe is not waited for.
        with open(path, "rb", opener=_opener(by_link)) as file:
            refusal = _unreadable(shown, os.fstat(file.fileno()))
            if refusal is not None:
                return refusal
            raw = file.read(LARGEST + 1)
    except (OSError, ValueError) as error:
        return Trouble(shown, _reason(error))
    return _decoded(shown, raw)


def _opener(by_link: bool) -> Callable[[str, int], int]:
    further = getattr(os, "O_NONBLOCK", 0) | (0 if by_link else getattr(os, "O_NOFOLLOW", 0))
    return lambda path, flags: os.open(path, flags | further)


def _unreadable(shown: str, status: os.stat_result) -> Trouble | None:
    if stat.S_ISDIR(status.st_mode):
        return Trouble(shown, "is a folder, not a file")
    if not stat.S_ISREG(status.st_mode):
        return Trouble(shown, "is a device or a pipe, not a file that can be read again")
    return _too_large(shown) if status.st_size > LARGEST else None


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


class Astray(Enum):
    """Why a file is not read on a plan's behalf, as a sentence's end."""

    OUTSIDE = "lies outside the project, and nothing outside it is read"
    OTHER = "is no plan by its name, and no other file is read"
    NAMELESS = "cannot be read"


def found_below(path: Path, root: Path, suffix: str) -> Path | Astray:
    """The file itself, with all links followed, if it lies below ``root`` and is of that kind by its name.

    Of another file of the project the faults would quote what is not meant for the readers of a report.
    """
    try:
        resolved = path.resolve()
    except (OSError, ValueError, RuntimeError):
        return Astray.NAMELESS
    if not resolved.is_relative_to(root):
        return Astray.OUTSIDE
    return resolved if resolved.name.lower().endswith(suffix) else Astray.OTHER


def shown(path: Path) -> str:
    """``path`` as people read it: from the current folder where it lies below it, whole otherwise."""
    here = Path.cwd().resolve()
    return str(path.relative_to(here)) if path.is_relative_to(here) else str(path)


def lending(root: Path) -> UseText:
    """What finds the texts that plans of a project ``use``.

    A name counts from the folder of the text that uses it. Links are followed before it is judged
    whether the file lies below ``root``. A file has one path, whatever names lead to it.
    """
    from stacklint.language import UsedText, UseRefused

    paths: dict[tuple[int, int] | Path, str] = {}

    def lend(name: str, using: str) -> UsedText | UseRefused:
        folder = Path() if using == STANDARD_INPUT else Path(using).parent
        path = folder / name
        found = found_below(path, root, PLAN_SUFFIX)
        if isinstance(found, Astray):
            return UseRefused(f"The file {name} {found.value}.", _INSTEAD[found])
        text = read(found, by_link=False)
        if isinstance(text, Trouble):
            return UseRefused(f"The file {name} {_in_a_sentence(text.message)}.", "Write its path from this file.")
        return UsedText(paths.setdefault(_identity_of(found), os.path.normpath(path)), text)

    return lend


_INSTEAD = MappingProxyType(
    {
        Astray.OUTSIDE: "Copy it below the project's first folder, and write its path from this file.",
        Astray.OTHER: f"Put what plans share into a file that ends in {PLAN_SUFFIX}.",
        Astray.NAMELESS: "Write the path of a plan in this project.",
    }
)


def _identity_of(path: Path) -> tuple[int, int] | Path:
    """What a disk knows a file by, be its name spelled in small or in capital letters."""
    try:
        status = path.stat()
    except OSError:
        return path
    return status.st_dev, status.st_ino


def _in_a_sentence(message: str) -> str:
    return "is not there" if message == _MISSING else message


def is_folder(name: str) -> bool:
    """There is such a folder; a name that no file can have is that of none."""
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


def real_paths() -> Callable[[str], str]:
    """What gives each file one path, all links followed; folders are looked up once."""
    folders: dict[str, str] = {}

    def real(path: str) -> str:
        if os.path.islink(path):  # noqa: PTH114 - a path's text is looked up sooner than a path
            return _identity(path)
        folder, name = os.path.split(path)
        if folder not in folders:
            folders[folder] = _identity(folder or ".")
        return os.path.join(folders[folder], name)  # noqa: PTH118 - likewise

    return real


class Found(NamedTuple):
    """What lies in a folder and below it, hidden folders and links to folders left out; each kind sorted by path."""

    plans: tuple[Path, ...]
    rules: tuple[Path, ...]
    troubles: tuple[Trouble, ...]


def found_in(name: str) -> Found:
    """The plans and the rule files of a folder; nothing of them is read."""
    troubles: list[Trouble] = []
    found: list[Path] = []

    def refused(error: OSError) -> None:
        troubles.append(Trouble(str(error.filename), _reason(error)))

    for folder, below, files in os.walk(name, onerror=refused):
        below[:] = [each for each in below if not each.startswith(".")]
        found.extend(Path(folder, each) for each in files if each.lower().endswith((PLAN_SUFFIX, RULES_SUFFIX)))
        if len(found) > MOST_PLANS:
            troubles.append(_too_many(name))
            return Found((), (), tuple(troubles))
    found.sort(key=lambda each: each.parts)
    plans, rules = (
        tuple(each for each in found if each.name.lower().endswith(suffix)) for suffix in (PLAN_SUFFIX, RULES_SUFFIX)
    )
    return Found(plans, rules, tuple(troubles))


def how_many(names: Iterable[str]) -> int:
    """About how many plans the command line names: none is read, and two names of one are two."""
    return sum(len(found_in(name).plans) if is_folder(name) else 1 for name in names)


def _in_folder(name: str, seen: set[str]) -> Iterator[PlanFile | Trouble]:
    given = Path(name).resolve()
    found = found_in(name)
    yield from found.troubles
    examples = _examples((*house_rules(given.parent, project_root(given)), *found.rules), given)
    folders = _Folders(given)
    of_the_yard = [(path, identity) for path in found.plans if (identity := folders.identity(path)) not in examples]
    if not of_the_yard and not found.troubles:
        but = " but the examples of rule files" if found.plans else f": no file in it or below it ends in {PLAN_SUFFIX}"
        yield Trouble(name, f"holds no plan{but}")
    for path, identity in of_the_yard:
        if identity not in seen:
            seen.add(identity)
            yield folders.plan(path)


class _Folders:
    """The folders of the plans that are found below a folder, each looked up once: what lies in one are hundreds."""

    def __init__(self, given: Path) -> None:
        self._given = given
        self._known: dict[str, tuple[Path, Path]] = {}

    def identity(self, path: Path) -> str:
        """The same for two names of one file."""
        if path.is_symlink():
            return _identity(str(path))
        folder, _ = self._of(path)
        return os.path.join(folder, path.name)  # noqa: PTH118 - as os.path.realpath has it

    def plan(self, path: Path) -> PlanFile | Trouble:
        if path.is_symlink():
            refusal = _link_astray(path, self._given)
            return refusal if refusal is not None else _plan(str(path), self._given)
        text = read(path, by_link=False)
        return text if isinstance(text, Trouble) else PlanFile(str(path), text, *self._of(path))

    def _of(self, path: Path) -> tuple[Path, Path]:
        """The folder of a file, and the root of its project."""
        folder = os.path.dirname(path)  # noqa: PTH120 - a path's text is looked up sooner than a path
        if folder not in self._known:
            resolved = path.parent.resolve()
            self._known[folder] = resolved, project_root(resolved, self._given)
        return self._known[folder]


def _examples(rule_files: Iterable[Path], given: Path) -> frozenset[str]:
    """The plans by which rule files show what their rules are to do: they are no plans of the yard."""
    named: set[str] = set()
    for path in rule_files:
        found = found_below(path, project_root(path.parent.resolve(), given), RULES_SUFFIX)
        text = read(found, by_link=False) if isinstance(found, Path) else None
        if isinstance(text, str):
            from stacklint.rulebook.examples import plans_named

            named.update(_identity(str(path.parent / plan)) for plan in plans_named(text))
    return frozenset(named)


def _link_astray(path: Path, given: Path) -> Trouble | None:
    """A link that nobody named, met in a folder, is followed within the project alone."""
    if not path.is_symlink():
        return None
    found = found_below(path, project_root(path.parent.resolve(), given), PLAN_SUFFIX)
    return Trouble(str(path), f"is a link to a file that {found.value}") if isinstance(found, Astray) else None


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


def _too_many(folder: str) -> Trouble:
    told = f"holds more than {MOST_PLANS:,} plans and rule files; none was read"
    return Trouble(folder, f"{told}: name its folders one by one, or the folder that was meant")


def _reason(error: OSError | ValueError) -> str:
    if isinstance(error, FileNotFoundError):
        return _MISSING
    if isinstance(error, PermissionError):
        return "may not be read: permission is lacking"
    if isinstance(error, OSError) and error.strerror:
        return f"cannot be read: {error.strerror.lower()}"
    return f"cannot be read: {error}"
