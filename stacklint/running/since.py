"""What a change of files can affect, in a project under version control by git."""

from __future__ import annotations

import hashlib
import os
import subprocess
from collections.abc import Mapping
from pathlib import Path

from stacklint.files import HOUSE_RULES, PLAN_SUFFIX, RULES_SUFFIX, STANDARD_INPUT
from stacklint.running.job import Done, Job

_PATIENCE = 60.0
"""Seconds."""
_ELSEWHERE = ("GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX")
"""What git tells its hooks of the repository that they run in; a plan may lie in another."""
_NO_COMMON = 1
"""With which git merge-base ends where there is no common commit."""


class NoHistoryError(Exception):
    """It cannot be told what changed; the text says why, as a sentence's end, and what to do."""


class Changed:
    """Which texts differ from those of a commit. ``top`` is the folder that all paths of the commit count from.

    The files are read and compared here, so that git opens no file of the project: filters and watchers that a
    repository may ask for are programs.
    """

    def __init__(self, top: Path, before: Mapping[str, str]) -> None:
        self._top = top
        self._before = before
        self._differs: dict[str, bool] = {}

    def can_affect(self, job: Job, done: Done) -> bool:
        """A plan is affected by a change of its own text, of a text that it uses or asks for, and of house rules in its
        folder or above."""
        plan = job.plan
        if plan.path == STANDARD_INPUT:
            return True
        folders = [each for each in (plan.folder, *plan.folder.parents) if each.is_relative_to(plan.root)]
        texts = (plan.path, *(each.path for each in done.readings), *(house.name for house in job.houses))
        return any(map(self.differs, (*texts, *(str(each / HOUSE_RULES) for each in folders))))

    def differs(self, path: str) -> bool:
        """Whether a file was changed, added or taken away, or of a link what it leads to. One that lies outside of the
        repository is none of its files."""
        if path not in self._differs:
            names = {str(Path(path).parent.resolve() / Path(path).name), os.path.realpath(path)}
            self._differs[path] = any(map(self._file_differs, names))
        return self._differs[path]

    def _file_differs(self, name: str) -> bool:
        path = Path(name)
        if not path.is_relative_to(self._top):
            return False
        before = self._before.get(path.relative_to(self._top).as_posix())
        try:
            content = os.fsencode(path.readlink()) if path.is_symlink() else path.read_bytes()
        except OSError:
            return before is not None
        # A checkout may have made the line ends its own.
        return before is None or before not in (_name(content, before), _name(content.replace(b"\r\n", b"\n"), before))


def changed_since(revision: str, root: Path) -> Changed:
    """What differs between the files of the project at ``root`` and the last state that they share with ``revision``.

    Raises:
        NoHistoryError: if the project is not under version control by git, or there is no such revision.
    """
    if revision.startswith("-") or not revision.strip() or "\0" in revision:
        raise NoHistoryError(f"{revision!r} is no revision; name a branch, a tag or a commit, such as main")
    top = Path(_git(root, "rev-parse", "--show-toplevel").removesuffix("\n")).resolve()
    tree = _git(top, "ls-tree", "-r", "-z", "--full-tree", _shared(top, revision))
    before = {}
    for entry in filter(None, tree.split("\0")):
        kind, _, name = entry.partition("\t")
        if name.lower().endswith((PLAN_SUFFIX, RULES_SUFFIX)):
            before[name] = kind.split()[-1]
    return Changed(top, before)


def _name(content: bytes, alike: str) -> str:
    """What git calls a file of this content, in a repository in which another is called ``alike``."""
    said = b"blob %d\0" % len(content) + content
    if len(alike) == hashlib.sha1(usedforsecurity=False).digest_size * 2:
        return hashlib.sha1(said, usedforsecurity=False).hexdigest()
    return hashlib.sha256(said).hexdigest()


def _shared(top: Path, revision: str) -> str:
    """The newest commit that both have. In a copy without its whole history there may be none: then the revision."""
    found = _asked(top, "rev-parse", "--verify", "--quiet", f"{revision}^{{commit}}")
    if found.returncode:
        fetched = revision.removeprefix("origin/")
        raise NoHistoryError(
            f"finds no revision {revision} in {top}; fetch it (git fetch origin {fetched}), or name another"
        )
    commit = os.fsdecode(found.stdout).strip()
    shared = _asked(top, "merge-base", commit, "HEAD")
    return commit if shared.returncode == _NO_COMMON else _said(top, shared).strip()


def _git(folder: Path, *words: str) -> str:
    return _said(folder, _asked(folder, *words))


def _said(folder: Path, found: subprocess.CompletedProcess[bytes]) -> str:
    if found.returncode == 0:
        return os.fsdecode(found.stdout)
    said = os.fsdecode(found.stderr).strip().split("\n")[0].removeprefix("fatal: ")
    trusted = f"; if you trust it: git config --global --add safe.directory {folder}" if "ownership" in said else ""
    raise NoHistoryError(f"cannot tell what changed in {folder}: {said or 'git failed'}{trusted}")


def _asked(folder: Path, *words: str) -> subprocess.CompletedProcess[bytes]:
    """Asks git of the history alone: nothing is fetched, nothing is written, and no hook, pager or prompt comes up."""
    environment = {name: value for name, value in os.environ.items() if name not in _ELSEWHERE}
    try:
        return subprocess.run(
            ["git", "-C", str(folder), "--no-pager", "--no-optional-locks", "-c", "core.fsmonitor=false", *words],
            capture_output=True,
            check=False,
            timeout=_PATIENCE,
            env=environment | {"LC_ALL": "C", "GIT_TERMINAL_PROMPT": "0", "GIT_ALLOW_PROTOCOL": ""},
        )
    except FileNotFoundError:
        raise NoHistoryError("needs git, which is not installed") from None
    except subprocess.TimeoutExpired:
        raise NoHistoryError(f"has asked git in {folder} and got no answer in {_PATIENCE:.0f} seconds") from None
    except OSError as error:
        raise NoHistoryError(f"cannot ask git: {(error.strerror or str(error)).lower()}") from None
