"""Projects under version control by git, made in a folder of a test."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest

needs_git = pytest.mark.skipif(shutil.which("git") is None, reason="git is not installed")


def git(folder: Path, *words: str) -> str:
    """Asks git, with nothing of the person's own settings."""
    names = dict.fromkeys(("GIT_AUTHOR_NAME", "GIT_COMMITTER_NAME"), "A Sawyer")
    names |= dict.fromkeys(("GIT_AUTHOR_EMAIL", "GIT_COMMITTER_EMAIL"), "sawyer@mill.example")
    names |= {"GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull}
    done = subprocess.run(
        ["git", "-c", "init.defaultBranch=main", "-c", "protocol.file.allow=always", *words],
        cwd=folder,
        env=os.environ | names,
        check=True,
        capture_output=True,
        text=True,
    )
    return done.stdout


def committed(folder: Path, words: str = "what was changed") -> None:
    """All that lies in the folder becomes a commit."""
    git(folder, "add", "--all")
    git(folder, "commit", "--quiet", "--no-verify", "--allow-empty", "-m", words)


def project(folder: Path, files: dict[str, str]) -> Path:
    """A new project whose branch main has these files, and a branch work, which it is on, that begins there."""
    folder.mkdir(parents=True, exist_ok=True)
    git(folder, "init", "--quiet")
    write(folder, files)
    committed(folder)
    git(folder, "switch", "--quiet", "--create", "work")
    return folder


def write(folder: Path, files: dict[str, str]) -> None:
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
