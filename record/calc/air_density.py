"""Pressure, density and viscosity of still air at an altitude and a temperature."""

from __future__ import annotations

ZERO_C_K = 273.15
GAS_CONSTANT_J_KG_K = 8314.32 / 28.9644  # dry air, as the standard of 1976 has both numbers
LOWEST_M, HIGHEST_M = -5000.0, 11000.0
COLDEST_C, HOTTEST_C = -60.0, 60.0

_SEA_LEVEL_PA = 101325.0
_SEA_LEVEL_K = 288.15
_LAPSE_K_M = 0.0065
_EARTH_RADIUS_M = 6356766.0
_EXPONENT = 9.80665 / (GAS_CONSTANT_J_KG_K * _LAPSE_K_M)
_SUTHERLAND_KG_M_S_K = 1.458e-6  # per √K
_SUTHERLAND_K = 110.4


def standard_temperature_c(altitude_m: float) -> float:
    """
    Return the temperature of the standard atmosphere.  [°C]

    Parameters
    ----------
    altitude_m : float
        Z. Geometric, above mean sea level, −5000 to 11 000. [m]

    Raises
    ------
    ValueError
        If the altitude is outside that range.

    Notes
    -----
    T = 288.15 − 0.0065 H, with the geopotential altitude H = r Z / (r + Z) and r = 6356.766 km
    [1]_. A yearly mean of middle latitudes; a real day is easily 20 K off, either way.

    Examples
    --------
    >>> round(standard_temperature_c(2000), 2)
    2.0

    References
    ----------
    .. [1] U.S. Standard Atmosphere, 1976 (NOAA-S/T 76-1562), eq. 18 and 23, table 4 (numbers of
       equations from memory).
    """
    return _standard_k(altitude_m) - ZERO_C_K


def altitude_pressure_pa(altitude_m: float) -> float:
    """
    Return the pressure of the standard atmosphere.  [Pa]

    Parameters
    ----------
    altitude_m : float
        Z. Geometric, above mean sea level, −5000 to 11 000. [m]

    Raises
    ------
    ValueError
        If the altitude is outside that range.

    Notes
    -----
    P = 101325 (T / 288.15)^(g M / (R L)), T as in `standard_temperature_c` [1]_. Weather is left
    out: it moves the pressure some 3 %, either way.

    Examples
    --------
    >>> round(altitude_pressure_pa(2000))
    79501

    References
    ----------
    .. [1] U.S. Standard Atmosphere, 1976, eq. 33a (number from memory).
    """
    return float(_SEA_LEVEL_PA * (_standard_k(altitude_m) / _SEA_LEVEL_K) ** _EXPONENT)


def air_density_kg_m3(altitude_m: float, temperature_c: float) -> float:
    """
    Return the density of dry air at the standard pressure of an altitude.  [kg/m³]

    Parameters
    ----------
    altitude_m : float
        Geometric, above mean sea level, −5000 to 11 000. [m]
    temperature_c : float
        Of the air itself, not of the standard atmosphere, −60 to 60. [°C]

    Raises
    ------
    ValueError
        If either is outside its range.

    Notes
    -----
    ρ = P / (R T) [1]_. Water vapour is left out, which errs high: by 0.4 % at 20 °C and 50 %,
    by 1.1 % at 30 °C and 70 %. A drop of pressure worked from it errs high alike.

    Examples
    --------
    By hand, 101325 / (287.0529 × 293.15) = 1.2041:

    >>> round(air_density_kg_m3(0, 20), 4)
    1.2041

    References
    ----------
    .. [1] U.S. Standard Atmosphere, 1976, eq. 42 (number from memory).
    """
    return altitude_pressure_pa(altitude_m) / (GAS_CONSTANT_J_KG_K * _kelvin(temperature_c))


def air_viscosity_pa_s(temperature_c: float) -> float:
    """
    Return the dynamic viscosity of air; altitude does not matter to it.  [Pa s]

    Parameters
    ----------
    temperature_c : float
        Of the air, −60 to 60. [°C]

    Raises
    ------
    ValueError
        If the temperature is outside that range.

    Notes
    -----
    Sutherland: μ = 1.458e-6 T^1.5 / (T + 110.4) [1]_. Dry air; vapour lowers it a little,
    so a drop worked from it errs high.

    Examples
    --------
    >>> round(air_viscosity_pa_s(15) * 1e5, 4)
    1.7894

    References
    ----------
    .. [1] U.S. Standard Atmosphere, 1976, eq. 51 (number from memory).
    """
    temperature_k = _kelvin(temperature_c)
    return float(_SUTHERLAND_KG_M_S_K * temperature_k**1.5 / (temperature_k + _SUTHERLAND_K))


def _standard_k(altitude_m: float) -> float:
    if not LOWEST_M <= altitude_m <= HIGHEST_M:
        raise ValueError(f"altitude {altitude_m} m is outside {LOWEST_M:g} to {HIGHEST_M:g} m")
    geopotential_m = _EARTH_RADIUS_M * altitude_m / (_EARTH_RADIUS_M + altitude_m)
    return _SEA_LEVEL_K - _LAPSE_K_M * geopotential_m


def _kelvin(temperature_c: float) -> float:
    if not COLDEST_C <= temperature_c <= HOTTEST_C:
        raise ValueError(f"air at {temperature_c} °C is outside {COLDEST_C:g} to {HOTTEST_C:g} °C")
    return temperature_c + ZERO_C_K
