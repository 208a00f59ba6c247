"""The standard layout of a plan's text: the same plan, with every comment, as everybody's plans are laid out."""

from stacklint.tidying.layout import Tidied, tidied, tidy

__all__ = ["Tidied", "tidied", "tidy"]
