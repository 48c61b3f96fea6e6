"""Saying a quantity, in one unit or in both systems."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from record.units.dimension import Dimension
from record.units.quantity import Quantity, rounded, to_decimal, whole_digits
from record.units.table import INCH, Unit, dimensions_of, unit_of

_MINUTE, _HOUR, _DAY = 60, 3600, 86400
SIXTEENTH = Fraction(1, 16)
# From which size on, in the SI unit: the metric unit, and the customary one where there is one.
_SYSTEMS: dict[Dimension, tuple[tuple[float, str, str | None], ...]] = {
    Dimension.SLOPE: ((0, "%", "in/ft"),),
    Dimension.TEMPERATURE: ((0, "°C", "°F"),),
    Dimension.FLOW: ((0, "L/min", "gpm"), (0.001, "m³/h", "cfm")),
    Dimension.VOLUME: ((0, "L", "gal"), (1, "m³", "ft³")),
    Dimension.AREA: ((0, "cm²", "in²"), (0.1, "m²", "ft²")),
    Dimension.MASS: ((0, "kg", "lb"),),
    Dimension.PRESSURE: ((0, "Pa", "in w.g."), (5000, "kPa", "psi")),
    Dimension.DURATION: (
        (0, "s", None),
        (2 * _MINUTE, "min", None),
        (2 * _HOUR, "h", None),
        (2 * _DAY, "d", None),
    ),
    Dimension.ROTATION: ((0, "rev/min", None),),
    Dimension.HUMIDITY: ((0, "%", None),),
    Dimension.PERCENT: ((0, "%", None),),
    Dimension.POWER: ((0, "W", "hp"), (1000, "kW", "hp")),
    Dimension.VOLTAGE: ((0, "V", None),),
    Dimension.ANGLE: ((0, "°", None),),
    Dimension.FORCE: ((0, "N", "lbf"), (1000, "kN", "lbf")),
    Dimension.FILM: ((0, "µm", "mil"), (0.001, "mm", "mil")),
    Dimension.TORQUE: ((0, "N·m", "lbf·ft"),),
    Dimension.VELOCITY: ((0, "m/s", "ft/min"),),
    Dimension.DENSITY: ((0, "kg/m³", "lb/ft³"),),
    Dimension.UNIT_WEIGHT: ((0, "kN/m³", "lbf/ft³"),),
    Dimension.CONDUCTIVITY: ((0, "W/(m·K)", "Btu/(h·ft·°F)"),),
    Dimension.DIFFUSIVITY: ((0, "mm²/s", "ft²/h"),),
    Dimension.CONCENTRATION: ((0, "ppm", None), (0.01, "%", None)),
    Dimension.COLD: ((0, "°C·d", "°F·d"),),
    Dimension.DIFFERENCE: ((0, "K", "°F"),),
}


def metres_said(metres: float, decimals: int = 2) -> str:
    r"""Return a worked length, rounded to so many decimals of a metre, in both systems.

    >>> metres_said(1.3437)
    '1.340 m (4\' 4 3/4")'
    """
    return in_both(Decimal(str(round(metres, decimals))), Dimension.LENGTH)


def in_both(value: Quantity | Decimal, dimension: Dimension) -> str:
    r"""Return ``value`` in metric, and in US customary units in brackets where the trade uses any.

    A Decimal is in the dimension's SI unit; for an interval only a Quantity will do, as days and
    months are both kept. Lengths have millimetres, and feet and inches to the nearest 1/16 in,
    but one written so small that they would be a tenth off is told as a film; the rest have
    three digits, or as many as stand before the point.

    >>> in_both(Decimal("2.25"), Dimension.LENGTH)
    '2.250 m (7\' 4 9/16")'
    >>> in_both(Decimal("0.0472"), Dimension.FLOW)
    '170 m³/h (100 cfm)'
    """
    if dimension is Dimension.INTERVAL:
        if not isinstance(value, Quantity):
            raise ValueError("an interval as a bare number may be months or days")
        return f"{value.si} {value.unit}{'' if value.si == 1 else 's'}"
    si = Fraction(value.si if isinstance(value, Quantity) else value)
    if dimension is Dimension.LENGTH:
        whole = rounded(si, 3)
        worked = not isinstance(value, Quantity)
        if worked or abs(Fraction(whole) - si) <= abs(si) / 10:
            return f"{whole:f} m ({feet_and_inches(si)})"
        dimension = Dimension.FILM  # a coat: in whole millimetres another would be told
    least, metric, customary = _SYSTEMS[dimension][0]
    for least, metric_next, customary_next in _SYSTEMS[dimension]:
        if abs(si) >= Fraction(least):
            metric, customary = metric_next, customary_next
    shown = _sensibly(si, _unit(metric, dimension))
    return f"{shown} ({_sensibly(si, _unit(customary, dimension))})" if customary else shown


def say(value: Quantity | Decimal, unit: str, places: int | None = None) -> str:
    """Return ``value`` in ``unit``, to that many decimal places (None: as exactly as it is kept).

    A Decimal is in the SI unit of the first dimension that has ``unit``. A Quantity keeps its ~
    and its tolerance. Raises ValueError if the unit is not known, or not the quantity's.

    >>> say(Decimal("2.25"), "mm")
    '2250 mm'
    >>> say(Quantity(Decimal("98.48"), "m", "", Decimal("0.02"), estimated=True), "mm", 0)
    '~98480 mm ± 20 mm'
    """
    known = _said_in(unit, value.unit if isinstance(value, Quantity) else None)
    if isinstance(value, Decimal):
        return _exactly(Fraction(value), known, places)
    said = _exactly(Fraction(value.si), known, places)
    if value.tol is not None:
        # A difference of temperature has no offset.
        size = Unit(known.name, known.factor)
        said += " ± " + _exactly(Fraction(value.tol), size, places)
    return "~" + said if value.estimated else said


def _said_in(spelling: str, si_unit: str | None) -> Unit:
    for dimension in dimensions_of(spelling):
        unit = _unit(spelling, dimension)
        if si_unit in (None, unit.si or dimension.si_unit):
            return unit
    raise ValueError(f'"{spelling}" is not a unit of a quantity kept in {si_unit or "SI"}')


def _unit(spelling: str, dimension: Dimension) -> Unit:
    unit = unit_of(spelling, dimension)
    if unit is None:
        raise ValueError(f'"{spelling}" is not a unit of {dimension}')
    return unit


def _exactly(si: Fraction, unit: Unit, places: int | None) -> str:
    number = (si - unit.offset) / unit.factor
    shown = to_decimal(number) if places is None else rounded(number, places)
    return _joined(shown, unit)


def _sensibly(si: Fraction, unit: Unit) -> str:
    number = (si - unit.offset) / unit.factor
    if unit.name in ("°C", "°F", "K"):
        return _joined(rounded(number, 1), unit)
    shown = rounded(number, _places(number))
    return _joined(rounded(number, _places(Fraction(shown))), unit)  # 0.9996 becomes 1.00


def _places(number: Fraction) -> int:
    return max(0, 3 - max(whole_digits(number), -3))


def _joined(number: Decimal, unit: Unit) -> str:
    return f"{number:f}°" if unit.name == "°" else f"{number:f} {unit.name}"


def feet_and_inches(length_m: Fraction | Decimal, step_in: Fraction = SIXTEENTH) -> str:
    r"""Return a length in feet and inches, to the nearest ``step_in``, a part or multiple of 1 in.

    >>> feet_and_inches(Decimal("2.25")), feet_and_inches(Decimal("2.25"), Fraction(1, 2))
    ('7\' 4 9/16"', '7\' 4 1/2"')
    """
    steps = int(rounded(abs(Fraction(length_m)) / INCH / step_in, 0))
    feet, inches = divmod(steps * step_in, 12)
    full, part = divmod(inches, 1)
    fraction = f"{part}" if part else ""
    whole = str(full) if full or not part else ""
    sign = "-" if length_m < 0 and steps else ""
    said = " ".join(piece for piece in (whole, fraction) if piece) + '"'
    return sign + (f"{feet}' {said}" if feet else said)
