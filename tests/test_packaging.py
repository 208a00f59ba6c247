"""The wheel and the sdist carry grammars, rule book, examples of rules, tables, templates and the mark of types."""

from __future__ import annotations

import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with an sdist and the wheel that was built from it."""
    out = tmp_path_factory.mktemp("dist")
    subprocess.run(
        [sys.executable, "-m", "build", "--outdir", str(out), str(ROOT)], check=True, capture_output=True, timeout=600
    )
    return out


def _wheel_names(built: Path) -> set[str]:
    with zipfile.ZipFile(next(built.glob("*.whl"))) as wheel:
        return set(wheel.namelist())


def _sdist_names(built: Path) -> set[str]:
    with tarfile.open(next(built.glob("*.tar.gz"))) as sdist:
        return {name.split("/", 1)[1] for name in sdist.getnames() if "/" in name}


def test_a_wheel_built_from_the_sdist_carries_every_grammar_rule_file_table_and_template(built: Path) -> None:
    names = _wheel_names(built)
    for folder in ("grammar", "rules"):
        wanted = {f"stacklint/{folder}/{path.name}" for path in (ROOT / folder).iterdir() if path.is_file()}
        assert wanted <= names
    tables = {f"stacklint/tables/{path.name}" for path in (ROOT / "stacklint" / "tables").glob("*.csv")}
    assert tables
    assert tables <= names
    templates = {path.name for path in (ROOT / "stacklint" / "report" / "templates").iterdir() if path.is_file()}
    assert "sheet.html.jinja" in templates
    assert {f"stacklint/report/templates/{name}" for name in templates} <= names


def test_the_wheel_carries_the_example_of_every_rule_and_no_test(built: Path) -> None:
    names = _wheel_names(built)
    cases = {
        path.relative_to(ROOT / "tests" / "rules").as_posix()
        for path in (ROOT / "tests" / "rules").rglob("*.stackplan")
    }
    assert cases
    assert {f"stacklint/cases/{case}" for case in cases} <= names
    parts = {part for name in names for part in name.split("/")}
    assert not {part for part in parts if part in ("tests", "conftest.py") or part.startswith("test_")}


def test_the_wheel_says_that_the_package_is_typed(built: Path) -> None:
    # PEP 561: the mark of a package that ships its types.
    assert "stacklint/py.typed" in _wheel_names(built)


def test_the_sdist_carries_the_grammars_the_rules_the_tests_and_the_examples(built: Path) -> None:
    names = _sdist_names(built)
    for folder in ("grammar", "rules", "examples"):
        wanted = {path.relative_to(ROOT).as_posix() for path in (ROOT / folder).rglob("*") if path.is_file()}
        assert wanted
        assert wanted <= names
    assert "tests/test_packaging.py" in names


def test_the_installed_wheel_needs_no_checkout_to_check_a_plan_write_its_sheet_and_teach_a_rule(
    built: Path, tmp_path: Path
) -> None:
    site = tmp_path / "site"
    with zipfile.ZipFile(next(built.glob("*.whl"))) as wheel:
        wheel.extractall(site)
    plan = tmp_path / "p.stackplan"
    plan.write_text((ROOT / "examples" / "sound-pile.stackplan").read_text(encoding="utf-8"), encoding="utf-8")
    script = (
        f"import sys; sys.path.insert(0, {str(site)!r})\n"
        "import stacklint; from stacklint.checking import check\n"
        f"assert stacklint.__file__.startswith({str(site)!r}), stacklint.__file__\n"
        f"import pathlib; text = pathlib.Path({str(plan)!r}).read_text(encoding='utf-8')\n"
        "checked = check(text, 'p.stackplan')\n"
        "assert checked.stacks[0].facts is not None\n"
        "import datetime; from stacklint.report.sheet_page import sheet_html\n"
        "assert 'Build list' in sheet_html(checked, datetime.date(2026, 6, 1))\n"
        "from stacklint.lessons import lesson\n"
        "assert lesson('no-cover').finding.rule == 'no-cover'\n"
    )
    subprocess.run([sys.executable, "-I", "-c", script], check=True, cwd=tmp_path, timeout=120)
