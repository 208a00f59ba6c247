"""An invented yard on disk to run the commands in."""

import pytest

SOUND = """\
pile "Dry" "Oak for shelves"
  place heated shop
  boards a: 20 of white oak 4/4 x 6 in x 8 ft, 8%
  stack 8 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 16 in, dry, 4 ft long
  bearers 4 in x 6 in of white oak, every 16 in
  clearance 14 in
  ground concrete, flat
  cover none
  ends coated
  want 8% for furniture
"""
HANGING = """\
pile "B2"
  place open yard
  boards a: 60 of white ash 4/4 x 6 in x 8 ft, green
  stack 8 ft x 4 ft
  stickers 3/4 in x 1 1/4 in, every 24 in, 24 in from ends, dry, 4 ft long
  bearers 4 in x 6 in of white oak, every 24 in
  clearance 14 in
  ground gravel, flat
  cover sheet metal, overhang 24 in, gap 4 in, slope 1 in 12, tied
"""


@pytest.fixture
def yard(tmp_path, monkeypatch):
    """The current folder: a project under version control with a sound and a faulty plan."""
    folder = tmp_path / "yard"
    (folder / ".git").mkdir(parents=True)
    (folder / "sound.stackplan").write_text(SOUND, encoding="utf-8")
    (folder / "hanging.stackplan").write_text(HANGING, encoding="utf-8")
    monkeypatch.chdir(folder)
    monkeypatch.setenv("COLUMNS", "80")
    return folder
