"""Nothing of the package runs what a file says: no code is evaluated, no object unpickled, no shell asked."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import stacklint

PACKAGE = Path(stacklint.__file__).parent
MODULES = sorted(PACKAGE.rglob("*.py"))

CALLS = {"eval", "exec", "compile", "__import__", "input", "breakpoint"}
"""Functions that are never called."""
MODULES_NEVER_IMPORTED = {
    *("pickle", "cPickle", "marshal", "shelve", "dill", "subprocess", "ctypes", "code", "codeop", "pty", "yaml"),
    *("urllib.request", "http.client", "socket", "ssl", "requests", "httpx", "ftplib", "smtplib", "webbrowser"),
    *("xml.sax", "xml.dom.minidom", "xml.dom.pulldom", "lxml", "runpy", "multiprocessing.connection"),
}
OF_OS = {"system", "popen", "execv", "execve", "execvp", "execl", "spawnl", "spawnv", "spawnvp", "startfile", "putenv"}

MARKUP = {"report/page.py", "report/coop_page.py"}
"""Where a text is declared to be markup: drawings, whose serialiser has escaped what a plan says in them; and the
script of the co-op's page, a file of the package."""
RUN_A_PROGRAM = {("running/since.py", "subprocess")}
"""Where a program is started: git, which is asked of a project's history where a person wants that, with words that
stand in the package. See ``tests/running/test_since.py``."""
IMPORTS_BY_NAME = {"__init__.py", "command/main.py", "command/shapes.py"}
"""Where a module is imported by a name: one of the tables of commands and of public names."""
FORMS = {"beginning/answers.py", "language/write_stack.py", "engineering/lacks.py"}
"""Where a form that stands in the package is filled by ``str.format``."""


def within(path: Path) -> str:
    return path.relative_to(PACKAGE).as_posix()


@pytest.fixture(scope="module")
def trees() -> dict[str, ast.Module]:
    return {within(path): ast.parse(path.read_text(encoding="utf-8")) for path in MODULES}


def calls(tree: ast.Module) -> Iterator[tuple[str, ast.Call]]:
    """Every call, with what is called as it is written."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            yield ast.unparse(node.func), node


def imports(tree: ast.Module) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module
            yield from (f"{node.module}.{name.name}" for name in node.names)


def test_no_text_is_run_as_code(trees):
    assert not [(name, called) for name, tree in trees.items() for called, _ in calls(tree) if called in CALLS]


def test_nothing_is_imported_that_loads_objects_runs_programs_or_reaches_a_network(trees):
    found = [(name, one) for name, tree in trees.items() for one in imports(tree) if one in MODULES_NEVER_IMPORTED]
    assert set(found) == RUN_A_PROGRAM


def test_no_program_is_started_through_a_shell(trees):
    started = [call for name, _ in RUN_A_PROGRAM for called, call in calls(trees[name]) if "subprocess." in called]
    assert started
    for call in started:
        assert ast.unparse(call.args[0]).startswith("['git', ")
        assert "shell" not in {keyword.arg for keyword in call.keywords}
    names = {f"os.{one}" for one in OF_OS}
    assert not [(name, called) for name, tree in trees.items() for called, _ in calls(tree) if called in names]


def test_a_module_is_imported_by_name_only_where_tables_have_the_names(trees):
    found = {name for name, tree in trees.items() for called, _ in calls(tree) if called.endswith("import_module")}
    assert found <= IMPORTS_BY_NAME


def test_templates_escape_what_they_are_given(trees):
    names = ("Environment", "Template")
    made = [call for tree in trees.values() for called, call in calls(tree) if called.split(".")[-1] in names]
    assert made
    for call in made:
        (given,) = [keyword.value for keyword in call.keywords if keyword.arg == "autoescape"]
        assert ast.unparse(given) == "True"


def test_text_is_declared_to_be_markup_where_no_plan_speaks(trees):
    found = {name for name, tree in trees.items() for called, _ in calls(tree) if called.split(".")[-1] == "Markup"}
    assert found <= MARKUP


def test_no_template_lets_a_text_through_unescaped():
    for path in (PACKAGE / "report" / "templates").iterdir():
        text = path.read_text(encoding="utf-8")
        assert "| safe" not in text and "|safe" not in text
        assert "autoescape" not in text


def test_no_string_is_formatted_by_a_format_that_a_plan_says(trees):
    """``str.format`` of a text that is no constant would let it read attributes of what it is given."""
    found = {
        name
        for name, tree in trees.items()
        for called, call in calls(tree)
        if called.split(".")[-1] in ("format", "format_map")
        and isinstance(call.func, ast.Attribute)
        and not isinstance(call.func.value, ast.Constant)
    }
    assert found <= FORMS
