"""Every unit's factor against pint, an open library of units with definitions of its own."""

from decimal import Decimal

import pint
import pytest

from record.units import Dimension, read_quantity
from record.units.table import UNITS

REGISTRY = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)

#: Our name → pint's, where they differ.
THEIRS = {
    "m³/h": "m**3/hour",
    "m³/s": "m**3/s",
    "m³/min": "m**3/minute",
    "L/s": "L/s",
    "L/min": "L/minute",
    "L/h": "L/hour",
    "cfm": "foot**3/minute",
    "gpm": "US_liquid_gallon/minute",
    "m³": "m**3",
    "gal": "US_liquid_gallon",
    "ft³": "foot**3",
    "yd³": "yard**3",
    "in³": "inch**3",
    "m²": "m**2",
    "cm²": "cm**2",
    "mm²": "mm**2",
    "ft²": "foot**2",
    "in²": "inch**2",
    "in": "inch",
    "yd": "yard",
    "in w.g.": "inH2O",
    "mm w.g.": "mm_H2O",
    "psf": "pound_force/foot**2",
    "°C": "degC",
    "°F": "degF",
    "K": "kelvin",
    "t": "metric_ton",
    "oz": "ounce",
    "lb": "pound",
    "h": "hour",
    "d": "day",
    "weeks": "week",
    "rev/min": "1/minute",
    "rev/s": "1/s",
    "%": "percent",
    "in/ft": "inch/foot",
    "mm/m": "mm/m",
    "cm/m": "cm/m",
    "ft/ft": "",
    "m/m": "",
    "hp": "horsepower",
    "lbf": "pound_force",
    "kgf": "kilogram_force",
    "µm": "micrometer",
    "mil": "thou",
    "N·m": "N*m",
    "lbf·ft": "pound_force*foot",
    "ft/min": "foot/minute",
    "ft/s": "foot/s",
    "kg/m³": "kg/m**3",
    "lb/ft³": "pound/foot**3",
    "t/m³": "metric_ton/m**3",
    "kN/m³": "kN/m**3",
    "lbf/ft³": "pound_force/foot**3",
    "W/(m·K)": "W/m/kelvin",
    "Btu/(h·ft·°F)": "Btu_it/hour/foot/delta_degF",
    "m²/s": "m**2/s",
    "mm²/s": "mm**2/s",
    "ft²/h": "foot**2/hour",
    "ft²/d": "foot**2/day",
    "°C·d": "delta_degC",  # the days are days on both sides
    "°F·d": "delta_degF",
}
SI = {
    Dimension.LENGTH: "m",
    Dimension.SLOPE: "",
    Dimension.TEMPERATURE: "degC",
    Dimension.FLOW: "m**3/s",
    Dimension.VOLUME: "m**3",
    Dimension.AREA: "m**2",
    Dimension.MASS: "kg",
    Dimension.PRESSURE: "Pa",
    Dimension.DURATION: "s",
    Dimension.ROTATION: "1/s",
    Dimension.HUMIDITY: "",
    Dimension.PERCENT: "",
    Dimension.POWER: "W",
    Dimension.VOLTAGE: "V",
    Dimension.FORCE: "N",
    Dimension.FILM: "m",
    Dimension.TORQUE: "N*m",
    Dimension.VELOCITY: "m/s",
    Dimension.DENSITY: "kg/m**3",
    Dimension.UNIT_WEIGHT: "N/m**3",
    Dimension.CONDUCTIVITY: "W/m/kelvin",
    Dimension.DIFFUSIVITY: "m**2/s",
    Dimension.CONCENTRATION: "",
    Dimension.COLD: "delta_degC",
    Dimension.DIFFERENCE: "delta_degC",
}
#: An angle is kept in degrees; intervals are months, which no library knows to be so many days.
LEFT_OUT = {Dimension.ANGLE, Dimension.INTERVAL}


def test_every_dimension_is_held_against_pint():
    assert set(SI) | LEFT_OUT == set(Dimension)


@pytest.mark.parametrize(
    ("dimension", "name"),
    [(dimension, unit.name) for dimension in SI for unit in UNITS[dimension]],
    ids=lambda value: str(value),
)
def test_a_unit_is_as_large_as_pint_has_it(dimension, name):
    ours = read_quantity(f"12.5 {name}", dimension).si
    other = THEIRS.get(name, name)
    if dimension is Dimension.DIFFERENCE:
        other = "delta_degF" if name == "°F" else "delta_degC"
    theirs = REGISTRY.Quantity(12.5, other).to(SI[dimension]).magnitude
    assert float(ours) == pytest.approx(theirs, rel=1e-11)


def test_the_water_column_is_the_conventional_one():
    """NIST SP 811 (2008), appendix B: conventional inch of water 249.0889 Pa."""
    assert read_quantity("1 in w.g.", Dimension.PRESSURE).si == Decimal("249.08891")
