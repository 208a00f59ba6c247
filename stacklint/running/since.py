"""What a change of files can affect, in a project under version control by git."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path
from typing import NamedTuple

from stacklint.files import HOUSE_RULES, STANDARD_INPUT
from stacklint.running.job import Done, Job

_PATIENCE = 60.0
"""Seconds."""


class NoHistoryError(Exception):
    """It cannot be told what changed; the text says why, as a sentence's end, and what to do."""


class Changed(NamedTuple):
    """The files, by their real paths, that were changed, added, renamed or taken away."""

    paths: frozenset[str]

    def can_affect(self, job: Job, done: Done) -> bool:
        """A plan is affected by a change of its own text, of a text that it uses or asks for, and of house rules in its
        folder or above."""
        folders = {job.plan.folder, *(each for each in job.plan.folder.parents if each.is_relative_to(job.plan.root))}
        if any(str(folder / HOUSE_RULES) in self.paths for folder in folders):
            return True
        if job.plan.path == STANDARD_INPUT:
            return True
        texts = (job.plan.path, *(each.path for each in done.readings), *(house.name for house in job.houses))
        return any(os.path.realpath(text) in self.paths or _as_named(text) in self.paths for text in texts)


def changed_since(revision: str, root: Path) -> Changed:
    """What differs between the files of the project at ``root`` and the last state that they share with ``revision``.

    Raises:
        NoHistoryError: if the project is not under version control by git, or there is no such revision.
    """
    if revision.startswith("-") or not revision.strip():
        raise NoHistoryError(f"{revision!r} is no revision; name a branch, a tag or a commit, such as main")
    top = Path(_git(root, "rev-parse", "--show-toplevel").removesuffix("\n"))
    base = _shared(top, revision)
    named = _git(top, "diff", "--name-only", "--no-renames", "--no-ext-diff", "-z", base, "--")
    named += _git(top, "ls-files", "--others", "--exclude-standard", "-z")
    return Changed(frozenset(_as_named(str(top / name)) for name in named.split("\0") if name))


def _as_named(path: str) -> str:
    """The path whole, the links of its folders followed, itself not: a link that was changed is a change."""
    return str(Path(path).parent.resolve() / Path(path).name)


def _shared(top: Path, revision: str) -> str:
    """The newest commit that both have. In a copy without its whole history there may be none: then the revision."""
    commit = _git(top, "rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}").strip()
    try:
        return _git(top, "merge-base", commit, "HEAD").strip() or commit
    except NoHistoryError:
        return commit


def _git(folder: Path, *words: str) -> str:
    try:
        # No pager, no prompt, no lock: only a question is asked.
        found = subprocess.run(
            ["git", "-C", str(folder), "--no-pager", "--no-optional-locks", *words],
            capture_output=True,
            check=False,
            timeout=_PATIENCE,
            env=os.environ | {"LC_ALL": "C", "GIT_TERMINAL_PROMPT": "0"},
        )
    except FileNotFoundError:
        raise NoHistoryError("needs git, which is not installed") from None
    except (OSError, subprocess.TimeoutExpired) as error:
        raise NoHistoryError(f"could not ask git: {error}") from None
    if found.returncode == 0:
        return os.fsdecode(found.stdout)
    if words[0] == "rev-parse" and "--verify" in words:
        wanted = words[-1].removesuffix("^{commit}")
        raise NoHistoryError(
            f"finds no revision {wanted} in {folder}; fetch it (git fetch origin {wanted}), or name another"
        )
    said = os.fsdecode(found.stderr).strip().split("\n")[0]
    raise NoHistoryError(f"cannot tell what changed in {folder}: {said or 'git failed'}")
