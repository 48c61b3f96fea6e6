"""Loss coefficients of the fittings of a round air pipe.

K multiplies the velocity pressure ½ ρ V² in the pipe of the fitting's own size. A maker's figure
goes before any of these.
"""

from __future__ import annotations

from record.calc.air_curve import between

#: Radius of the centre line over the diameter, and K, of a smooth round bend of 90°.
SMOOTH_BEND_90 = ((0.5, 0.71), (0.75, 0.33), (1.0, 0.22), (1.5, 0.15), (2.0, 0.13), (2.5, 0.12))
SMOOTH_BEND_SOURCE = "SMACNA HVAC Systems Duct Design, table 14-10A; ASHRAE CD3-1 (from memory)"

#: Name, K, source. Each against the velocity in the pipe it is in.
FITTINGS = (
    ("mitred bend 90", 1.20, "fluids 1.3.1, bend_miter, 1.202; textbooks 1.1 to 1.3"),
    ("seven-gore bend 90, r/D 2.5", 0.11, "ASHRAE Fundamentals 2021, chapter 21, CD3-10"),
    ("sharp entry", 0.57, "Rennels, as in fluids 1.3.1, entrance_sharp; older textbooks 0.50"),
    ("exit", 1.0, "all of the motion is lost, by reason"),
)


def smooth_bend_k(radius_over_diameter: float) -> float:
    """
    Return the loss coefficient of a smooth round bend of 90°.  [-]

    Parameters
    ----------
    radius_over_diameter : float
        Centre-line radius over inside diameter, 0.5 to 2.5. [-]

    Raises
    ------
    ValueError
        If it is outside 0.5 to 2.5: the table ends there.

    Notes
    -----
    Straight lines between the points of `SMOOTH_BEND_90`. The table is bowed downward, so between
    two points this errs high. Two bends close together lose more than twice one: errs low.

    Examples
    --------
    >>> smooth_bend_k(1.5)
    0.15
    """
    if not 0.5 <= radius_over_diameter <= 2.5:
        raise ValueError(
            f"a bend of radius {radius_over_diameter:g} diameters is outside the table's 0.5 to 2.5"
        )
    return between(SMOOTH_BEND_90, radius_over_diameter)


def fitting_k(name: str) -> float:
    """
    Return the loss coefficient of a fitting, exactly as named in `FITTINGS`.  [-]

    Raises
    ------
    ValueError
        If none has that name; the names that there are are told.

    Examples
    --------
    >>> fitting_k("exit")
    1.0
    """
    for own, coefficient, _ in FITTINGS:
        if own == name:
            return coefficient
    known = "; ".join(own for own, _, _ in FITTINGS)
    raise ValueError(f"no fitting is called {name!r}: one of {known}, or give K itself")
