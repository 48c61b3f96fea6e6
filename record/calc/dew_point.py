"""Water in air: where it begins to condense, how much is there, and how much cooling takes out."""

from __future__ import annotations

import math

ZERO_C_K = 273.15
TRIPLE_POINT_C = 0.01
COLDEST_C, HOTTEST_C = -100.0, 200.0
WATER_TO_DRY_AIR = 0.621945  # ratio of molar masses

# Hyland and Wexler: the terms in 1/T, 1, T, T², T³, T⁴ of ln p, and the one in ln T.
_OVER_ICE = (-5674.5359, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13)
_OVER_ICE_LN = 4.1635019
_OVER_WATER = (-5800.2206, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 0.0)
_OVER_WATER_LN = 6.5459673
_HALVINGS = 60  # 300 K / 2⁶⁰ is less than a float can tell


def saturation_pressure_pa(temperature_c: float) -> float:
    """
    Return the pressure of water vapour that air can hold at most.  [Pa]

    Parameters
    ----------
    temperature_c : float
        −100 to 200; over ice up to 0.01, over liquid water above. [°C]

    Raises
    ------
    ValueError
        If the temperature is outside that range.

    Notes
    -----
    ln p = C1/T + C2 + C3 T + C4 T² + C5 T³ + C6 T⁴ + C7 ln T, Hyland–Wexler [1]_. The change is
    made at the triple point, where the two curves meet, not at 0 °C as printed. Water below
    freezing that has not frozen holds more vapour over it (10 % at −10 °C): against it this errs
    low.

    Examples
    --------
    >>> round(saturation_pressure_pa(25), 1)
    3169.2

    References
    ----------
    .. [1] ASHRAE Handbook – Fundamentals (2017), chapter 1, eq. 5 and 6.
    """
    if not COLDEST_C <= temperature_c <= HOTTEST_C:
        raise ValueError(f"{temperature_c} °C is outside {COLDEST_C:g} to {HOTTEST_C:g} °C")
    t = temperature_c + ZERO_C_K
    frozen = temperature_c <= TRIPLE_POINT_C
    terms, in_ln = (_OVER_ICE, _OVER_ICE_LN) if frozen else (_OVER_WATER, _OVER_WATER_LN)
    powers = math.fsum(term * t**power for power, term in enumerate(terms, start=-1))
    return math.exp(powers + in_ln * math.log(t))


def dew_point_c(temperature_c: float, relative_humidity: float) -> float:
    """
    Return the temperature of a surface at which this air begins to wet it.  [°C]

    Parameters
    ----------
    temperature_c : float
        Of the air, −100 to 200. [°C]
    relative_humidity : float
        φ. Above 0, to 1; 0.6 is 60 %. [-]

    Raises
    ------
    ValueError
        If either is outside its range, or the dew point would be below −100 °C.

    Notes
    -----
    The t at which `saturation_pressure_pa` is φ of what it is in the air [1]_, found by halving.
    At 0 °C and below it is the frost point. Pressure does not matter.

    The error of the two readings is left out, and it is not small: at 20 °C and 50 %, 3 % more
    humidity by the meter is 0.9 K more dew point. Salts and rust draw water above it.

    Examples
    --------
    >>> round(dew_point_c(25, 0.6), 1)
    16.7

    References
    ----------
    .. [1] ASHRAE Handbook – Fundamentals (2017), chapter 1, eq. 5, 6, 12 and 36.
    """
    vapour_pa = vapour_pressure_pa(temperature_c, relative_humidity)
    low, high = COLDEST_C, temperature_c
    if vapour_pa < saturation_pressure_pa(low):
        raise ValueError(
            f"air at {temperature_c} °C and {relative_humidity:g} has a dew point below {low:g} °C"
        )
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if saturation_pressure_pa(middle) < vapour_pa:
            low = middle
        else:
            high = middle
    return high


def vapour_pressure_pa(temperature_c: float, relative_humidity: float) -> float:
    """
    Return the pressure of the water vapour in air, φ of what it can hold.  [Pa]

    Parameters and errors as for `dew_point_c`, but for its last. Below freezing the humidity is
    taken over ice; meters give it over water by the rule of the WMO, which errs low here.

    Examples
    --------
    >>> round(vapour_pressure_pa(25, 0.5) / vapour_pressure_pa(25, 1), 9)
    0.5
    """
    if not 0 < relative_humidity <= 1:
        raise ValueError(f"a relative humidity of {relative_humidity:g} is not above 0, to 1")
    return relative_humidity * saturation_pressure_pa(temperature_c)


def humidity_ratio(temperature_c: float, relative_humidity: float, pressure_pa: float) -> float:
    """
    Return the water in air over the dry air it is in.  [kg/kg]

    Parameters
    ----------
    temperature_c, relative_humidity : float
        As for `dew_point_c`. [°C, -]
    pressure_pa : float
        p. Of the air, by barometer or altitude. [Pa]

    Raises
    ------
    ValueError
        If one is outside its range, or the vapour alone would be as much as the pressure.

    Notes
    -----
    W = 0.621945 pw / (p − pw) [1]_. Ideal gases: the enhancement of vapour by air is left out,
    which errs low, by 0.5 % near sea level.

    Examples
    --------
    >>> round(humidity_ratio(20, 0.7, 101325), 4)
    0.0102

    References
    ----------
    .. [1] ASHRAE Handbook – Fundamentals (2017), chapter 1, eq. 20.
    """
    if not 0 < pressure_pa < math.inf:
        raise ValueError(f"a pressure of {pressure_pa} Pa is not above 0")
    vapour_pa = vapour_pressure_pa(temperature_c, relative_humidity)
    if vapour_pa >= pressure_pa:
        raise ValueError(
            f"vapour of {vapour_pa:.0f} Pa is not below the pressure, {pressure_pa} Pa"
        )
    return WATER_TO_DRY_AIR * vapour_pa / (pressure_pa - vapour_pa)


def volume_m3_kg(temperature_c: float, relative_humidity: float, pressure_pa: float) -> float:
    """
    Return the volume of moist air that has one kilogram of dry air in it.  [m³/kg]

    Its density is (1 + W) over this, with W as in `humidity_ratio`. Parameters and errors as
    there.

    Notes
    -----
    v = 0.287042 (t + 273.15) (1 + 1.607858 W) / p, p in kPa [1]_.

    Examples
    --------
    >>> round(volume_m3_kg(20, 0.7, 101325), 3)
    0.844

    References
    ----------
    .. [1] ASHRAE Handbook – Fundamentals (2017), chapter 1, eq. 26.
    """
    ratio = humidity_ratio(temperature_c, relative_humidity, pressure_pa)
    return 287.042 * (temperature_c + ZERO_C_K) * (1 + 1.607858 * ratio) / pressure_pa


def condensed_kg_h(
    *,
    flow_m3_h: float,
    temperature_c: float,
    relative_humidity: float,
    cooled_to_c: float,
    pressure_pa: float,
) -> float:
    """
    Return the water a stream of air leaves behind when it is cooled.  [kg/h]

    Parameters
    ----------
    flow_m3_h : float
        V. Of the air as it enters, warm and moist; 0 or more. [m³/h]
    temperature_c, relative_humidity : float
        As it enters; see `dew_point_c`. [°C, -]
    cooled_to_c : float
        As it leaves, not above what it entered at. [°C]
    pressure_pa : float
        As for `humidity_ratio`. [Pa]

    Raises
    ------
    ValueError
        If one is outside its range, or the air leaves warmer than it entered.

    Notes
    -----
    V/v (W1 − W2), with W2 the lesser of W1 and saturation at the leaving temperature [1]_. All
    the air is taken to reach that temperature, and all that condenses to stay behind. Most pipes
    cool only a part so far, and mist is carried on: against what runs out of a drain it errs high.
    What people breathe out and the ground gives off is left out: for the whole of a room errs low.

    Examples
    --------
    >>> round(condensed_kg_h(flow_m3_h=100, temperature_c=30, relative_humidity=0.7,
    ...     cooled_to_c=12, pressure_pa=101325), 2)
    1.14

    References
    ----------
    .. [1] ASHRAE Handbook – Fundamentals (2017), chapter 1, cooling of moist air.
    """
    if not 0 <= flow_m3_h < math.inf:
        raise ValueError(f"a flow of {flow_m3_h} m³/h is negative or not a number")
    if not cooled_to_c <= temperature_c:
        raise ValueError(f"air at {temperature_c} °C is not cooled to {cooled_to_c} °C")
    enters = humidity_ratio(temperature_c, relative_humidity, pressure_pa)
    leaves = min(enters, humidity_ratio(cooled_to_c, 1, pressure_pa))
    dry_air_kg_h = flow_m3_h / volume_m3_kg(temperature_c, relative_humidity, pressure_pa)
    return dry_air_kg_h * (enters - leaves)
