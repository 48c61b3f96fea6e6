"""How much carbon dioxide a person breathes out.

V = RQ BMR M (T/P) 0.000211 [L/s], BMR in MJ/d, T in K, P in kPa, RQ 0.85 (A. Persily and
L. de Jonge, Indoor Air 27 (2017), 868–879), with Schofield's basal metabolic rate of 1985, from
sex, age and mass. M is the activity in met: 1 lying, 1.2 sitting, 1.4 standing, 2 to 4 working.
"""

from __future__ import annotations

from dataclasses import dataclass

RESPIRATORY_QUOTIENT = 0.85
LITRES_KPA_D_MJ_K_S = 0.000211  # 0.000569 L/s at 273 K and 101 kPa
LEAST_MET, MOST_MET = 0.9, 6.0
LIGHTEST_KG, HEAVIEST_KG = 10.0, 200.0

YOUNGEST, OLDEST = 3, 120  # years; the oldest not included

#: From an age on: MJ/d for each kilogram, and MJ/d besides. Those of girls and of people from 60
#: are from memory.
SCHOFIELD = {
    "m": (
        (3, 0.095, 2.110),
        (10, 0.074, 2.754),
        (18, 0.063, 2.896),
        (30, 0.048, 3.653),
        (60, 0.049, 2.459),
    ),
    "f": (
        (3, 0.085, 2.033),
        (10, 0.056, 2.898),
        (18, 0.062, 2.036),
        (30, 0.034, 3.538),
        (60, 0.038, 2.755),
    ),
}


def basal_mj_d(sex: str, age: float, mass_kg: float) -> float:
    """
    Return the basal metabolic rate of a person.  [MJ/d]

    Parameters
    ----------
    sex : str
        "m" or "f".
    age : float
        3 to under 120. [years]
    mass_kg : float
        10 to 200. [kg]

    Raises
    ------
    ValueError
        If one is outside its range.

    Notes
    -----
    A mean of many: one person is easily 15 % off, either way.

    Examples
    --------
    Persily and de Jonge, p. 871: a man of 85 kg, 30 to 60:

    >>> round(basal_mj_d("m", 40, 85), 2)
    7.73
    """
    if sex not in SCHOFIELD:
        raise ValueError(f"{sex!r} is neither m nor f, which the equations are for")
    if not LIGHTEST_KG <= mass_kg <= HEAVIEST_KG:
        raise ValueError(f"{mass_kg:g} kg is outside {LIGHTEST_KG:g} to {HEAVIEST_KG:g} kg")
    if not YOUNGEST <= age < OLDEST:
        raise ValueError(f"an age of {age:g} years is outside {YOUNGEST} to {OLDEST}")
    by_mass, besides = [band[1:] for band in SCHOFIELD[sex] if band[0] <= age][-1]
    return by_mass * mass_kg + besides


def co2_l_s(
    basal: float, met: float, *, temperature_c: float = 0.0, pressure_pa: float = 101325.0
) -> float:
    """
    Return the carbon dioxide a person breathes out, as a volume in the air of the room.  [L/s]

    Parameters
    ----------
    basal : float
        BMR, above 0 up to 20. [MJ/d]
    met : float
        M. Activity, 0.9 to 6. [met]
    temperature_c : float
        Of the room, −40 to 60; a table's rate at 0 °C is 7 % low at 20 °C. [°C]
    pressure_pa : float
        Of the room, 20 000 to 120 000: at altitude the same gas takes more room. [Pa]

    Raises
    ------
    ValueError
        If one is outside its range.

    Examples
    --------
    Persily and de Jonge, p. 874: BMR 7.73 at 1.5 met, 0.0056:

    >>> round(co2_l_s(7.73, 1.5), 4)
    0.0056
    """
    for what, value, least, most, unit in (
        ("a basal rate", basal, 0.0, 20.0, "MJ/d"),
        ("an activity", met, LEAST_MET, MOST_MET, "met"),
        ("a room", temperature_c, -40.0, 60.0, "°C"),
        ("a pressure", pressure_pa, 20_000.0, 120_000.0, "Pa"),
    ):
        if not least <= value <= most or (least == 0 and value == 0):
            raise ValueError(f"{what} of {value:g} {unit} is outside {least:g} to {most:g} {unit}")
    kelvin, kilopascal = temperature_c + 273.15, pressure_pa / 1000
    return RESPIRATORY_QUOTIENT * basal * met * kelvin / kilopascal * LITRES_KPA_D_MJ_K_S


@dataclass(frozen=True, slots=True)
class Breath:
    """Oxygen taken and carbon dioxide given. [L/s]"""

    oxygen_l_s: float
    co2_l_s: float


def older_breath(surface_m2: float, met: float, quotient: float = 0.83) -> Breath:
    """
    Return oxygen taken and carbon dioxide given, by the older formula.

    Parameters
    ----------
    surface_m2 : float
        A. DuBois surface of the body, 0.4 to 3; 1.8 of an average adult. [m²]
    met : float
        M. 0.9 to 6. [met]
    quotient : float
        RQ. Carbon dioxide given over oxygen taken, 0.7 to 1. [-]

    Raises
    ------
    ValueError
        If one is outside its range.

    Notes
    -----
    V(O2) = 0.00276 A M / (0.23 RQ + 0.77); V(CO2) = RQ V(O2) (ASHRAE Handbook – Fundamentals and
    Standard 62.1, appendix, from memory). It takes no heed of sex and age; `co2_l_s` does.

    Examples
    --------
    By hand: 0.00276 × 1.8 × 1.2 / 0.9609 = 0.006204; × 0.83 = 0.005149:

    >>> breath = older_breath(1.8, 1.2)
    >>> round(breath.oxygen_l_s, 6), round(breath.co2_l_s, 6)
    (0.006204, 0.005149)
    """
    for what, value, least, most in (
        ("a surface", surface_m2, 0.4, 3.0),
        ("an activity", met, LEAST_MET, MOST_MET),
        ("a quotient", quotient, 0.7, 1.0),
    ):
        if not least <= value <= most:
            raise ValueError(f"{what} of {value:g} is outside {least:g} to {most:g}")
    oxygen = 0.00276 * surface_m2 * met / (0.23 * quotient + 0.77)
    return Breath(oxygen, quotient * oxygen)
