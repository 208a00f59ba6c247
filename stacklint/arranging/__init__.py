"""Courses for the boards that a plan lists, other places for them, and boards that make a good charge."""
