"""The plan language: reads a text into a plan, and writes a plan as text."""

from stacklint.language.reading import ReadPlan, read
from stacklint.language.used import UsedText, UseRefused, UseText
from stacklint.language.write import write

__all__ = ["ReadPlan", "UseRefused", "UseText", "UsedText", "read", "write"]
