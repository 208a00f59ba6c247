"""The command ``stacklint``: finds out which of its commands is meant, and answers for its exit code."""

from __future__ import annotations

import contextlib
import gc
import os
import sys
from collections.abc import Sequence
from importlib import import_module
from types import MappingProxyType

from stacklint import __version__
from stacklint.command.output import UnwrittenError
from stacklint.command.usage import Parser, UsageError, did_you_mean
from stacklint.report.plain import plain

_COMMANDS = (
    "begin",
    "convert",
    "arrange",
    "check",
    "mend",
    "tidy",
    "sheet",
    "tally",
    "forecast",
    "calendar",
    "why",
    "rules-test",
    "editor",
    "completion",
)
MODULES = MappingProxyType({name: f"stacklint.command.{name.replace('-', '_')}" for name in _COMMANDS})
"""The module of each command: it has a ``parser``, a ``run`` and a ``SUMMARY``."""
_INTERRUPTED = 130
"""128 and the number of the interrupt signal, as shells have it (POSIX.1-2017, 2.8.2)."""


def run() -> None:
    """The console's entry: runs the command line of the process, and exits."""
    # A check makes few cycles: collecting them less often saves a tenth of its time.
    gc.set_threshold(1_000_000)
    for stream in (sys.stdout, sys.stderr):
        # What the output's encoding cannot carry is written as an escape, never a crash.
        with contextlib.suppress(AttributeError, ValueError):
            stream.reconfigure(errors="backslashreplace")  # type: ignore[union-attr]
    code = main(sys.argv[1:])
    for stream in (sys.stdout, sys.stderr):
        with contextlib.suppress(OSError, ValueError):
            stream.flush()
    # Taking the interpreter apart takes a twentieth of a check's time, and nothing is left for it to do.
    os._exit(code)


def main(words: Sequence[str]) -> int:
    """Does what ``words`` ask for. 0: nothing to fail for; 1: findings; 2: it could not be done."""
    try:
        code = _command(words)
        sys.stdout.flush()
    except UsageError as error:
        print(plain(str(error)), file=sys.stderr)
        return 2
    except UnwrittenError as error:
        print(plain(f"stacklint: {error}"), file=sys.stderr)
        return 2
    except BrokenPipeError:
        return _no_reader()
    except OSError as error:
        # Files that cannot be read are told of where they are read: this is the output, or the current folder.
        print(plain(f"stacklint: {(error.strerror or str(error)).lower()}; the report is not whole"), file=sys.stderr)
        return _no_reader()
    except KeyboardInterrupt:
        return _INTERRUPTED
    return code


def _command(words: Sequence[str]) -> int:
    if not words:
        print(_help(), file=sys.stderr)
        return 2
    name, *rest = words
    if name in ("-h", "--help"):
        print(_help())
        return 0
    if name == "--version":
        print(f"stacklint {__version__}")
        return 0
    if name not in MODULES:
        what = "the command comes first, before" if name.startswith("-") else "there is no command"
        raise UsageError(f"stacklint: {what} {name}{did_you_mean(name, MODULES)}")
    module = import_module(MODULES[name])
    parser: Parser = module.parser()
    if "-h" in rest or "--help" in rest:
        print(parser.format_help(), end="")
        return 0
    options = parser.read(rest)
    code: int = module.run(options, parser)
    return code


def _help() -> str:
    commands = "\n".join(f"  {name:<10} {import_module(module).SUMMARY}" for name, module in MODULES.items())
    return (
        "usage: stacklint COMMAND ...\n\n"
        "Checks plans of lumber stacks and kiln charges before they are built, and foretells\n"
        "how they dry.\n\n"
        f"commands:\n{commands}\n\n"
        "options:\n  -h, --help  this text; stacklint COMMAND --help tells of a command\n  --version   the version\n\n"
        "example:\n  stacklint check b2.stackplan"
    )


def _no_reader() -> int:
    """The output has no reader or no room: nothing more is written, not even at the exit (see the note on
    SIGPIPE in the documentation of Python's ``signal``)."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return 2
