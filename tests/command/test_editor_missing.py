"""Without its extra the editor's server says in one line what to install."""

from __future__ import annotations

import subprocess
import sys

import pytest

WITHOUT = "import sys; sys.modules[{!r}] = None; from stacklint.command.main import main; sys.exit(main(['editor']))"


@pytest.mark.parametrize("missing", ["pygls", "lsprotocol"])
def test_a_missing_extra_is_told_in_one_line(missing):
    done = subprocess.run([sys.executable, "-c", WITHOUT.format(missing)], capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.splitlines() == ["stacklint editor: pygls is missing; write: pip install 'stacklint[editor]'"]


def test_the_other_commands_need_no_extra():
    words = (
        "import sys; sys.modules['pygls'] = None; from stacklint.command.main import main; sys.exit(main(['--help']))"
    )
    done = subprocess.run([sys.executable, "-c", words], capture_output=True, text=True, check=False)
    assert done.returncode == 0
    assert "editor" in done.stdout
