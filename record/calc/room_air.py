"""Carbon dioxide in a room with people in it.

It tells what well-mixed air comes to by arithmetic. It does not tell how long anyone may stay:
oxygen, carbon monoxide, heat and smoke are not in it, and only an alarm knows the air there is.
"""

from __future__ import annotations

import math

GREATEST_PPM = 50_000.0  # our own limit: breathing, and so G, is no longer what it was
PPM_PER_L_S_OVER_M3_H = 3.6e6  # 1 L/s is 3.6 m³/h; a million parts are the whole


def closed_co2_ppm(
    *, start_ppm: float, generation_l_s: float, volume_m3: float, elapsed_h: float
) -> float:
    """
    Return the carbon dioxide in a closed room with no air exchanged.  [ppm by volume]

    Parameters
    ----------
    start_ppm : float
        C0. At the beginning. [ppm]
    generation_l_s : float
        G. Given off by all who are in it, at the room's own temperature and pressure. [L/s]
    volume_m3 : float
        V. Of the air: inside measures less what fills the room. [m³]
    elapsed_h : float
        t. [h]

    Raises
    ------
    ValueError
        If one is negative or not finite, the volume is not above 0, or the result is above
        50 000 ppm.

    Notes
    -----
    dC/dt = G/V, so C = C0 + G t / V [1]_: the balance of `ventilated_co2_ppm` with no flow.

    Leakage is left out, which errs high. Well mixed is assumed, which errs low for a bunk, a
    corner or the far room; so does a constant G for people who work, worry or are warm. A G
    tabulated at 0 °C is 7 % low at 20 °C. A flame is left out: errs low.

    Examples
    --------
    Four people, by hand, 4 × 0.0052 L/s is 74.88 L/h, in 30 m³ 2496 ppm/h:

    >>> round(closed_co2_ppm(start_ppm=400, generation_l_s=4 * 0.0052, volume_m3=30, elapsed_h=2))
    5392

    References
    ----------
    .. [1] ASTM D6245, mass balance of carbon dioxide in a single zone (from memory).
    """
    _refuse_negative("start", start_ppm, "ppm")
    _refuse_negative("elapsed time", elapsed_h, "h")
    rise_ppm_h = _ppm(generation_l_s, "volume", volume_m3, "m³")
    return _within_model(start_ppm + rise_ppm_h * elapsed_h)


def steady_co2_ppm(*, outside_ppm: float, generation_l_s: float, flow_m3_h: float) -> float:
    """
    Return the carbon dioxide a ventilated room comes to in the end.  [ppm by volume]

    Parameters
    ----------
    outside_ppm : float
        Co. In the air brought in; 420 is near today's open air. [ppm]
    generation_l_s : float
        G. Of one person or of all, at the temperature and pressure of the flow. [L/s]
    flow_m3_h : float
        Q. Outside air for that one or for all, measured, not the fan's plate. [m³/h]

    Raises
    ------
    ValueError
        If one is negative or not finite, the flow is not above 0, or the result is above
        50 000 ppm.

    Notes
    -----
    C = Co + G/Q [1]_. It does not depend on the volume, which only sets how soon it is reached.
    Assumptions as for `closed_co2_ppm`. Discharge drawn back into the intake is left out: errs
    low. The volume given off is not added to the outflow: errs high, by 0.15 % near 2000 ppm.

    Examples
    --------
    By hand, 0.0052 L/s is 18.72 L/h, in 12 500 L/h 1497.6 ppm, over 420:

    >>> round(steady_co2_ppm(outside_ppm=420, generation_l_s=0.0052, flow_m3_h=12.5))
    1918

    References
    ----------
    .. [1] ASHRAE Standard 62.1, informative appendix on carbon dioxide (from memory).
    """
    _refuse_negative("outside air", outside_ppm, "ppm")
    return _within_model(outside_ppm + _ppm(generation_l_s, "flow", flow_m3_h, "m³/h"))


def ventilated_co2_ppm(
    *,
    start_ppm: float,
    outside_ppm: float,
    generation_l_s: float,
    flow_m3_h: float,
    volume_m3: float,
    elapsed_h: float,
) -> float:
    """
    Return the carbon dioxide in a ventilated room on its way to the steady state.  [ppm by volume]

    Parameters
    ----------
    start_ppm, generation_l_s, volume_m3, elapsed_h : float
        As for `closed_co2_ppm`. [ppm, L/s, m³, h]
    outside_ppm, flow_m3_h : float
        As for `steady_co2_ppm`; G and Q are both of the whole room. [ppm, m³/h]

    Raises
    ------
    ValueError
        As for both; use `closed_co2_ppm` where nothing flows.

    Notes
    -----
    dC/dt = G/V − (Q/V)(C − Co), so C = Cs + (C0 − Cs) exp(−Q t / V), with Cs as in
    `steady_co2_ppm` [1]_; the steady state must itself be within 50 000 ppm. The flow is taken to
    sweep the whole room: air that goes straight from intake to discharge errs low.

    Examples
    --------
    >>> round(ventilated_co2_ppm(start_ppm=400, outside_ppm=400, generation_l_s=4 * 0.0052,
    ...     flow_m3_h=12, volume_m3=30, elapsed_h=2))
    3836

    References
    ----------
    .. [1] ASTM D6245, mass balance of carbon dioxide in a single zone (from memory).
    """
    _refuse_negative("start", start_ppm, "ppm")
    _refuse_negative("elapsed time", elapsed_h, "h")
    _refuse_none("volume", volume_m3, "m³")
    steady_ppm = steady_co2_ppm(
        outside_ppm=outside_ppm, generation_l_s=generation_l_s, flow_m3_h=flow_m3_h
    )
    left = math.exp(-flow_m3_h * elapsed_h / volume_m3)
    return _within_model(start_ppm * left + steady_ppm * (1 - left))


def _ppm(generation_l_s: float, what: str, taken_up_by: float, unit: str) -> float:
    _refuse_negative("generation", generation_l_s, "L/s")
    _refuse_none(what, taken_up_by, unit)
    return generation_l_s * PPM_PER_L_S_OVER_M3_H / taken_up_by


def _within_model(ppm: float) -> float:
    if not ppm <= GREATEST_PPM:
        raise ValueError(
            f"{ppm:.0f} ppm is above {GREATEST_PPM:g} ppm, the end of what this can tell"
        )
    return ppm


def _refuse_negative(what: str, value: float, unit: str) -> None:
    if not 0 <= value < math.inf:
        raise ValueError(f"{what} {value} {unit} is negative or not a number")


def _refuse_none(what: str, value: float, unit: str) -> None:
    if not 0 < value < math.inf:
        raise ValueError(f"{what} {value} {unit} is not above 0")
