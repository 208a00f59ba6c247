"""Where the boards, stickers and bearers of a stack stand."""

from stacklint.layout.arrangement import Arrangement
from stacklint.layout.stacking import arrange
from stacklint.layout.supports import PieceSupports, supports_of

__all__ = ["Arrangement", "PieceSupports", "arrange", "supports_of"]
