"""What ``import stacklint`` offers, and what it costs."""

from __future__ import annotations

import subprocess
import sys

import pytest

import stacklint


def _python(script: str) -> str:
    return subprocess.run([sys.executable, "-c", script], check=True, capture_output=True, text=True, timeout=60).stdout


@pytest.mark.parametrize("name", stacklint.__all__)
def test_every_name_that_is_offered_is_there_and_told_of(name: str) -> None:
    offered = getattr(stacklint, name)
    assert name in dir(stacklint)
    assert name == "__version__" or offered.__doc__


@pytest.mark.parametrize("name", [name for name in stacklint.__all__ if name != "__version__"])
def test_a_name_means_the_same_whatever_was_imported_before(name: str) -> None:
    # A module of the name of a function would stand in its place once it is imported.
    home = getattr(stacklint, name).__module__
    assert _python(f"import {home}, stacklint; print(stacklint.{name}.__qualname__)").strip() == name
    with pytest.raises(ModuleNotFoundError):
        __import__(f"stacklint.{name}")


def test_a_name_that_is_not_offered_is_refused() -> None:
    with pytest.raises(AttributeError, match="no attribute 'chekc'"):
        stacklint.chekc  # noqa: B018 - the look-up is what is tested


def test_importing_the_package_imports_nothing_else_of_it_and_no_library() -> None:
    loaded = _python("import sys, stacklint; print('\\n'.join(sys.modules))").split()
    assert [name for name in loaded if name.startswith("stacklint")] == ["stacklint"]
    assert not {"pydantic", "lark", "rich", "jinja2"} & set(loaded)


def test_a_check_by_the_front_is_the_check_itself() -> None:
    from stacklint.checking import check

    assert stacklint.check is check
    assert stacklint.check('pile "B2"\n').worst is stacklint.Level.ERROR
