"""Which units are known, how they are spelled, and their factors.

Factors are exact and come from NIST Special Publication 811 (2008), Appendix B: 1 in = 25.4 mm,
1 lb = 0.453 592 37 kg, 1 US gal = 231 in³, g = 9.806 65 m/s², conventional water column of
1000 kg/m³, 1 hp = 550 ft·lbf/s, 1 Btu (of the International Table) = 1055.055 852 62 J.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from record.units.dimension import Dimension

INCH = Fraction("0.0254")
FOOT = 12 * INCH
POUND = Fraction("0.45359237")
GRAVITY = Fraction("9.80665")
GALLON = 231 * INCH**3
LITRE = Fraction(1, 1000)
BTU = Fraction("1055.05585262")


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: its number in the SI unit is ``factor * x + offset``."""

    name: str  # as this program prints it
    factor: Fraction
    offset: Fraction = Fraction(0)
    si: str | None = None  # where it differs from the dimension's own: days
    also: str = ""  # other spellings, blanks between; see squeeze()

    def in_si(self, number: Fraction) -> Fraction:
        """Return a number of this unit in the SI unit."""
        # Most values are in metres; arithmetic with fractions is slow.
        return (
            number if self.factor == 1 and not self.offset else self.factor * number + self.offset
        )


UNITS: dict[Dimension, tuple[Unit, ...]] = {
    Dimension.LENGTH: (
        Unit("m", Fraction(1), also="metre metres meter meters"),
        Unit("mm", Fraction(1, 1000), also="millimetre millimetres millimeter millimeters"),
        Unit("cm", Fraction(1, 100), also="centimetre centimetres centimeter centimeters"),
        Unit("km", Fraction(1000)),
        Unit("ft", FOOT, also="foot feet '"),
        Unit("in", INCH, also="inch inches \" ''"),
        Unit("yd", 3 * FOOT, also="yard yards"),
    ),
    Dimension.SLOPE: (
        Unit("%", Fraction(1, 100), also="percent"),
        Unit(
            "in/ft",
            Fraction(1, 12),
            also='"/ft inch/ft inches/ft in/foot inch/foot "/foot "/\' in/\'',
        ),
        Unit("mm/m", Fraction(1, 1000)),
        Unit("cm/m", Fraction(1, 100)),
        Unit("ft/ft", Fraction(1), also="'/'"),
        Unit("m/m", Fraction(1)),
    ),
    Dimension.TEMPERATURE: (
        Unit("°C", Fraction(1), also="C degC"),
        Unit("°F", Fraction(5, 9), Fraction(-160, 9), also="F degF"),
        Unit("K", Fraction(1), Fraction("-273.15")),
    ),
    Dimension.FLOW: (
        Unit("m³/h", Fraction(1, 3600), also="m3/hr cmh"),
        Unit("m³/s", Fraction(1)),
        Unit("m³/min", Fraction(1, 60)),
        Unit("L/s", LITRE),
        Unit("L/min", LITRE / 60, also="lpm"),
        Unit("L/h", LITRE / 3600),
        Unit("cfm", FOOT**3 / 60, also="ft3/min cuft/min"),
        Unit("gpm", GALLON / 60, also="gal/min"),
    ),
    Dimension.VOLUME: (
        Unit("m³", Fraction(1), also="cum"),
        Unit("L", LITRE, also="litre litres liter liters"),
        Unit("mL", LITRE / 1000),
        Unit("gal", GALLON, also="gals gallon gallons usgal usgallon usgallons gal(US)"),
        Unit("ft³", FOOT**3, also="cuft"),
        Unit("yd³", (3 * FOOT) ** 3, also="cuyd"),
        Unit("in³", INCH**3, also="cuin"),
    ),
    Dimension.AREA: (
        Unit("m²", Fraction(1), also="sqm"),
        Unit("cm²", Fraction(1, 10**4), also="sqcm"),
        Unit("mm²", Fraction(1, 10**6), also="sqmm"),
        Unit("ft²", FOOT**2, also="sqft sf"),
        Unit("in²", INCH**2, also="sqin"),
    ),
    Dimension.MASS: (
        Unit("kg", Fraction(1), also="kgs"),
        Unit("g", Fraction(1, 1000)),
        Unit("t", Fraction(1000), also="tonne tonnes"),
        Unit("lb", POUND, also="lbs pound pounds lbm"),
        Unit("oz", POUND / 16, also="ounce ounces"),
    ),
    Dimension.PRESSURE: (
        Unit("Pa", Fraction(1)),
        Unit("kPa", Fraction(1000)),
        Unit("MPa", Fraction(10**6)),
        Unit("mbar", Fraction(100)),
        Unit("hPa", Fraction(100)),
        Unit("bar", Fraction(10**5)),
        Unit("in w.g.", 1000 * GRAVITY * INCH, also='inwc inh2o "wg "wc'),
        Unit("mm w.g.", GRAVITY, also="mmwc mmh2o"),
        Unit("psi", POUND * GRAVITY / INCH**2, also="psig lb/in2 lbf/in2"),
        Unit("psf", POUND * GRAVITY / FOOT**2, also="lb/ft2 lbf/ft2"),
    ),
    Dimension.DURATION: (
        Unit("s", Fraction(1), also="sec secs second seconds"),
        Unit("min", Fraction(60), also="mins minute minutes"),
        Unit("h", Fraction(3600), also="hr hrs hour hours"),
        Unit("d", Fraction(86400), also="day days"),
        Unit("weeks", Fraction(7 * 86400), also="week wk wks"),
    ),
    Dimension.INTERVAL: (
        Unit("months", Fraction(1), also="month mo mos"),
        Unit("years", Fraction(12), also="year yr yrs"),
        Unit("days", Fraction(1), si="day", also="day d"),
        Unit("weeks", Fraction(7), si="day", also="week wk wks"),
    ),
    Dimension.ROTATION: (
        Unit("rev/min", Fraction(1, 60), also="rpm r/min turns/min"),
        Unit("rev/s", Fraction(1), also="1/s r/s"),
    ),
    Dimension.HUMIDITY: (Unit("%", Fraction(1, 100), also="%rh percent %r.h."),),
    Dimension.PERCENT: (Unit("%", Fraction(1, 100), also="percent pct"),),
    Dimension.POWER: (
        Unit("W", Fraction(1), also="watt watts"),
        Unit("kW", Fraction(1000)),
        Unit("hp", 550 * FOOT * POUND * GRAVITY, also="horsepower"),
    ),
    Dimension.VOLTAGE: (
        Unit("V", Fraction(1), also="volt volts vac vdc"),
        Unit("kV", Fraction(1000)),
        Unit("mV", Fraction(1, 1000)),
    ),
    Dimension.ANGLE: (Unit("°", Fraction(1), also="deg degree degrees"),),
    Dimension.FORCE: (
        Unit("N", Fraction(1)),
        Unit("kN", Fraction(1000)),
        Unit("lbf", POUND * GRAVITY, also="lb lbs"),
        Unit("kgf", GRAVITY),
    ),
    Dimension.FILM: (
        Unit("µm", Fraction(1, 10**6), also="um micron microns μm"),
        Unit("mm", Fraction(1, 1000)),
        Unit("mil", INCH / 1000, also="mils thou"),
    ),
    Dimension.TORQUE: (
        Unit("N·m", Fraction(1), also="Nm"),
        Unit("lbf·ft", POUND * GRAVITY * FOOT, also="lbfft ft·lbf ftlbf lbft ftlb"),
    ),
    Dimension.VELOCITY: (
        Unit("m/s", Fraction(1)),
        Unit("ft/min", FOOT / 60, also="fpm"),
        Unit("ft/s", FOOT, also="fps"),
    ),
    Dimension.DENSITY: (
        Unit("kg/m³", Fraction(1)),
        Unit("lb/ft³", POUND / FOOT**3, also="pcf lb/cuft"),
        Unit("t/m³", Fraction(1000)),
    ),
    Dimension.UNIT_WEIGHT: (
        Unit("kN/m³", Fraction(1000)),
        Unit("lbf/ft³", POUND * GRAVITY / FOOT**3, also="pcf lb/ft3"),
    ),
    Dimension.CONDUCTIVITY: (
        Unit("W/(m·K)", Fraction(1), also="W/mK W/(mK) W/m·K W/(m.K)"),
        Unit(
            "Btu/(h·ft·°F)",
            BTU / 3600 / FOOT * Fraction(9, 5),
            also="Btu/hft°F Btu/(hft°F) Btu/h·ft·°F Btu/hftF",
        ),
    ),
    Dimension.DIFFUSIVITY: (
        Unit("m²/s", Fraction(1)),
        Unit("mm²/s", Fraction(1, 10**6)),
        Unit("ft²/h", FOOT**2 / 3600),
        Unit("ft²/d", FOOT**2 / 86400, also="ft2/day"),
    ),
    Dimension.CONCENTRATION: (
        Unit("ppm", Fraction(1, 10**6)),
        Unit("%", Fraction(1, 100), also="percent"),
    ),
    Dimension.COLD: (
        Unit("°C·d", Fraction(1), also="°Cd Kd K·d Cd"),
        Unit("°F·d", Fraction(5, 9), also="°Fd Fd"),
    ),
    Dimension.DIFFERENCE: (
        Unit("K", Fraction(1), also="°C C"),
        Unit("°F", Fraction(5, 9), also="F"),
    ),
}

NEVER_NEGATIVE = {
    Dimension.AREA,
    Dimension.VOLUME,
    Dimension.MASS,
    Dimension.DURATION,
    Dimension.INTERVAL,
    Dimension.HUMIDITY,
    Dimension.ROTATION,
    Dimension.FILM,
    Dimension.DENSITY,
    Dimension.UNIT_WEIGHT,
    Dimension.CONDUCTIVITY,
    Dimension.DIFFUSIVITY,
    Dimension.CONCENTRATION,
    Dimension.COLD,
}


def squeeze(spelling: str) -> str:
    """Return a unit's spelling without idle marks: "sq. ft." is sqft, "cu ft / min" cuft/min.

    A blank before a digit stays, or "6 ft 3" would be six cubic feet.
    """
    text = spelling.strip().replace("²", "2").replace("³", "3").replace("^", "")
    text = re.sub(r"(?<=[A-Za-z])\.(?![0-9])", "", text)
    text = re.sub(r"\s+(?:per)\s+", "/", text)
    return re.sub(r"\s+(?![0-9])", "", text)


@lru_cache(maxsize=1024)  # a crew writes some few units, thousands of times
def unit_of(spelling: str, dimension: Dimension) -> Unit | None:
    """Return the unit so spelled; capitals count only where they tell two units apart."""
    wanted = squeeze(spelling)
    return _EXACT[dimension].get(wanted) or _LOOSE[dimension].get(wanted.casefold())


def dimensions_of(spelling: str) -> list[Dimension]:
    """Return every dimension that has a unit so spelled."""
    return [dimension for dimension in Dimension if unit_of(spelling, dimension)]


def _spellings(unit: Unit) -> Iterator[str]:
    yield squeeze(unit.name)
    yield from (squeeze(word) for word in unit.also.split())


_EXACT = {d: {word: u for u in units for word in _spellings(u)} for d, units in UNITS.items()}
# A millipascal or a megavolt must not pass for its namesake.
_STRICT = {"mpa", "mv"}
_LOOSE = {
    d: {word.casefold(): u for word, u in words.items() if word.casefold() not in _STRICT}
    for d, words in _EXACT.items()
}
