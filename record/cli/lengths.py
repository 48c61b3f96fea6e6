"""Lengths and points as somebody types them after a command."""

from __future__ import annotations

from record.cli.app import Refused


def metres(text: str, unit: str | None = None) -> float:
    """
    Return a length in metres; ``unit`` holds for a bare number, else a unit must be there.

    Raises Refused with what to write instead.
    """
    from record.units import Dimension, UnitFault, read_quantity

    try:
        quantity = read_quantity(text.strip(), Dimension.LENGTH, column_unit=unit)
    except UnitFault as fault:
        raise Refused(f"{fault.problem}. {fault.remedy}", 2) from fault
    return float(quantity.si)


def point(text: str) -> tuple[float, float]:
    """Return across and up of a point on a panel, metres, written "0.40 m,0.60 m"."""
    across, comma, up = text.partition(",")
    if not comma:
        raise Refused(f'"{text}" is not a point; write across and up, such as "0.40 m,0.60 m"', 2)
    return metres(across), metres(up)


def size(text: str) -> tuple[float, float]:
    """Return width and height, metres, written "300 mm x 200 mm" or "12 in × 8 in"."""
    wide, cross, high = text.replace("×", "x").partition("x")
    if not cross:
        raise Refused(f'"{text}" is not a size; write it as "300 mm x 200 mm"', 2)
    return metres(wide), metres(high)
