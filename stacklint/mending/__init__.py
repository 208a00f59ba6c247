"""Mends: for each finding that a change of the text can clear, the smallest change that does."""

from stacklint.mending.mend import Mend, Mended, Step, Unmended, mended, mends, unmended

__all__ = ["Mend", "Mended", "Step", "Unmended", "mended", "mends", "unmended"]
