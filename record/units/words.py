"""What is said of a value that cannot be read, and what to write instead."""

from __future__ import annotations

from record.units.dimension import Dimension
from record.units.fold import fold
from record.units.table import dimensions_of, unit_of

DITTO = {"-", "--", "---", "—", "?", "??", '"', "''", "ditto", "do", "do.", "same", "as above"}
GUESSES = {"about", "approx", "approx.", "approximately", "around", "roughly", "circa", "ca."}
ABOUT = 'Write "~" in its place, such as ~2.25 m.'
AGAIN = "Write the value again, or `not recorded`."
TOLERANCE = "Write the tolerance with its unit, such as ± 5 mm, or leave it out."
REMEDY = {
    Dimension.LENGTH: "Write 2.25 m, 2250 mm or 7' 4-1/2\".",
    Dimension.SLOPE: "Write 1 %, 1:96, 1/8 in/ft or 20 mm/m.",
    Dimension.TEMPERATURE: "Write 21 °C or 70 °F.",
    Dimension.FLOW: "Write 100 m³/h, 60 cfm, 5 L/s or 3 gpm.",
    Dimension.VOLUME: "Write 57 L, 15 gal (US), 2 m³ or 70 ft³.",
    Dimension.AREA: "Write 1.5 m² or 16 ft².",
    Dimension.MASS: "Write 45 kg, 100 lb or 1.2 t.",
    Dimension.PRESSURE: "Write 250 Pa, 1 in w.g., 2 mbar or 35 psi.",
    Dimension.DURATION: "Write 45 min, 3 h, 90 s or 2 days.",
    Dimension.INTERVAL: "Write 12 months, 1 year, 2 weeks or 90 days.",
    Dimension.ROTATION: "Write 50 rev/min.",
    Dimension.HUMIDITY: "Write 47 % or 47 % RH.",
    Dimension.PERCENT: "Write 47 %.",
    Dimension.POWER: "Write 120 W, 1.5 kW or 1/2 hp.",
    Dimension.VOLTAGE: "Write 12.6 V.",
    Dimension.ANGLE: "Write 270° or 270 deg.",
    Dimension.FORCE: "Write 450 N, 2 kN or 100 lbf.",
    Dimension.FILM: "Write 150 µm, 0.15 mm or 6 mil.",
    Dimension.TORQUE: "Write 12 N·m or 9 lbf·ft.",
    Dimension.VELOCITY: "Write 3 m/s or 600 ft/min.",
    Dimension.DENSITY: "Write 1600 kg/m³ or 100 lb/ft³.",
    Dimension.UNIT_WEIGHT: "Write 18 kN/m³ or 115 pcf.",
    Dimension.CONDUCTIVITY: "Write 0.024 W/mK.",
    Dimension.DIFFUSIVITY: "Write 0.5 mm²/s or 0.02 ft²/h.",
    Dimension.CONCENTRATION: "Write 420 ppm or 0.5 %.",
    Dimension.COLD: "Write 500 °C·d or 900 °F·d.",
    Dimension.DIFFERENCE: "Write 11.5 K, 11.5 °C or 20.7 °F.",
}


def wrong_unit(shown: str, dimension: Dimension) -> str:
    """Say what is wrong with ``shown``, which is no unit of ``dimension``."""
    plain = fold(shown).text
    if dimension is Dimension.DURATION and unit_of(plain, Dimension.INTERVAL):
        return f'"{shown}" is not so many seconds: months and years differ in length'
    if dimension is Dimension.TEMPERATURE and plain == "°":
        return f'"{shown}" does not say °C or °F'
    if plain.casefold() in ("ton", "tons"):
        return f'a "{shown}" may be 2000 lb, 2240 lb or 1000 kg'
    others = [other for other in dimensions_of(plain) if other is not dimension]
    if others:
        article = "an" if dimension.value[0] in "aeiou" else "a"
        return f'"{shown}" is a unit of {others[0]}, where {article} {dimension} is needed'
    return f'"{short(shown)}" is not a unit of {dimension}'


def short(words: str) -> str:
    """Return ``words``, cut where they would fill the line."""
    return words if len(words) <= 40 else words[:39] + "…"
