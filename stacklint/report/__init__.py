"""Reports: what a check found, for a reader at a screen, for other programs, and for CI."""
