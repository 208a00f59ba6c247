"""What a waive statement keeps silent, in words."""

from __future__ import annotations

from stacklint.checked import Waived


def waived_words(waived: Waived) -> str:
    """*Waived for B2, stickers-wet: dry sticks arrive on Friday (until 2026-05-01).*"""
    finding, waiver = waived
    reason = f": {waiver.reason}" if waiver.reason else ""
    until = f" (until {waiver.until.date.isoformat()})" if waiver.until else ""
    stack = f" for {finding.stack}" if finding.stack else ""
    return f"Waived{stack}, {finding.rule}{reason}{until}."
