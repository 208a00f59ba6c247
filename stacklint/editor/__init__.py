"""A language server for plans and rule files: what an editor asks, answered by pure functions of a text and a place."""
