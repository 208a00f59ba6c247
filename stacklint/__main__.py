"""``python -m stacklint`` does what the command ``stacklint`` does."""

from stacklint.command.main import run

run()
