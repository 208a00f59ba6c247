"""What all tests share: random checks take the time they need, whatever else the machine is doing."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")
