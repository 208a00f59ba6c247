"""Bearing across the grain: stickers on boards, boards and bearers on what carries them.

Wood is weakest across the grain and weaker still when wet. Stresses in Pa, lengths in m.
"""

from __future__ import annotations

from typing import NamedTuple

from stacklint.units import ONE_INCH

WET_FACTOR = 0.67
"""Wet service factor on compression across the grain, over 19% moisture content: NDS, read at
https://www.yumpu.com/en/document/view/10602831/building-design-and-construction-handbook-merritt-ventech/923."""
DRY_SERVICE = 0.19
"""Moisture content above which lumber is in wet service (NDS; the same address)."""
CLEAR_WOOD_FACTOR = 1.67
"""Divides the mean stress of clear green test pieces to give an allowable one: ASTM D245 (memory)."""
HEAT_LOSS = 0.35
"""Share of the stress at the proportional limit lost from 20 to 50 C at 10% moisture content and more:
Wood Handbook Table 5-15 (memory). Drier wood loses 20%; the larger figure is used throughout."""
COOL, HOT = 20.0, 50.0


class BearingLimit(NamedTuple):
    """What wood bears across the grain, Pa.

    ``from_design_value`` is false where no design value was at hand and the strength of clear wood was reduced.
    ``beyond_data`` is true where the wood is hotter than the data reach; the limit is then that at 50 C.
    """

    stress: float
    from_design_value: bool
    beyond_data: bool


def line_stress(load: float, sticker_width: float, boards_width: float) -> float:
    """Stress under one sticker: ``load`` (N) over all crossings of a line, N/m2.

    Args:
        load: that comes down the sticker line, N.
        sticker_width: along the boards, m.
        boards_width: of the boards of that course together, gaps left out, m.
    """
    return load / (sticker_width * boards_width)


def bearing_area_factor(length: float, end_distance: float | None = None) -> float:
    """How much more a short bearing carries than a long one: Cb = (l + 3/8 in) / l.

    It holds for bearings shorter than 6 in along the grain that stand 3 in or more from the member's end;
    otherwise 1 (NDS 3.10.4; the formula read at https://web.mst.edu/jthomas/classes/5260/concept/06/08/index.html,
    its limits from memory).

    Args:
        length: of the bearing, along the grain of the member that it presses on, m.
        end_distance: from the bearing's edge to the member's end, m; ``None`` where it is far.
    """
    if length >= 6 * ONE_INCH or (end_distance is not None and end_distance < 3 * ONE_INCH):
        return 1.0
    return (length + 0.375 * ONE_INCH) / length


def limit(
    moisture: float,
    *,
    design_value: float | None = None,
    clear_green: float | None = None,
    wet_value: bool = False,
    area_factor: float = 1.0,
    temperature: float | None = None,
) -> BearingLimit | None:
    """What wood bears across the grain at its moisture content.

    The design value of its species group is used where there is one: tabulated dry, it is multiplied by 0.67 over
    19% moisture content, unless ``wet_value`` says that the table has done so already (Southern Pine timbers).
    Failing that, the stress of clear green wood at the proportional limit is divided by 1.67, and by 0.67 again
    where the wood is dry. That is the cautious of the two: the design values rest on the larger stress at a
    dent of 0.04 in. Neither takes a load duration factor.

    Args:
        moisture: moisture content, a share.
        design_value: of the species group, Pa.
        clear_green: stress at the proportional limit of clear green wood, Pa.
        wet_value: the design value is tabulated wet.
        area_factor: from :func:`bearing_area_factor`.
        temperature: highest of the air, degrees C.

    Returns:
        ``None`` where neither figure is known.
    """
    wet = moisture > DRY_SERVICE
    if design_value is not None:
        stress = design_value * (WET_FACTOR if wet and not wet_value else 1.0)
    elif clear_green is not None:
        stress = clear_green / CLEAR_WOOD_FACTOR / (1.0 if wet else WET_FACTOR)
    else:
        return None
    warmth = 0.0 if temperature is None else min(max((temperature - COOL) / (HOT - COOL), 0.0), 1.0)
    return BearingLimit(
        stress * area_factor * (1 - HEAT_LOSS * warmth),
        design_value is not None,
        temperature is not None and temperature > HOT,
    )
