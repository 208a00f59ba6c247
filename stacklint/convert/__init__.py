"""Makes ``boards`` lines of a tally in comma-separated values."""

from stacklint.convert.convert import Converted, convert
from stacklint.convert.table import TableTrouble

__all__ = ["Converted", "TableTrouble", "convert"]
