"""The plan: what a text says, as frozen models in which every value knows where it was written."""
