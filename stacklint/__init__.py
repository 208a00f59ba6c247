"""stacklint checks plans of lumber stacks and kiln charges that are written as plain text."""

__version__ = "0.1.0"
