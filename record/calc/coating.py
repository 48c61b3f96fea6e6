"""How far a coating goes, how thick it is wet, and how long a batch can be worked."""

from __future__ import annotations

import math

WARNS_PER_K = 10.0  # common practice: half as long for every 10 K more


def _part(what: str, value: float, *, least: float = 0.0) -> None:
    if not least < value <= 1:
        raise ValueError(f"{what} of {value} is not above {least:g}, to 1")


def _film(film_m: float) -> None:
    if not 0 < film_m <= 0.1:
        raise ValueError(f"a film of {film_m} m is not above 0, to 0.1 m")


def spread_m2_l(*, dry_film_m: float, solids: float, yields: float = 1.0) -> float:
    """
    Return the area a litre covers.  [m²/L]

    Parameters
    ----------
    dry_film_m : float
        Above 0. [m]
    solids : float
        Part of its volume that stays, above 0, to 1. [-]
    yields : float
        Part of what is mixed that ends on the wall, above 0, to 1. [-]

    Raises
    ------
    ValueError
        If one is outside its range.

    Notes
    -----
    Solids × yield over the dry film; 1604.17 ft²/gal at one mil is the same.

    Examples
    --------
    >>> round(spread_m2_l(dry_film_m=125e-6, solids=0.65), 9)
    5.2
    """
    _film(dry_film_m)
    _part("solids", solids)
    _part("a yield", yields)
    return solids * yields / (dry_film_m * 1000)


def litres(*, area_m2: float, dry_film_m: float, solids: float, yields: float = 1.0) -> float:
    """
    Return how much one coat takes: area × film over solids × yield.  [L]

    Held against the litres used it tells when too little was mixed; litres cannot prove a film.
    Parameters and errors as for `spread_m2_l`, and an area below 0.

    Examples
    --------
    >>> round(litres(area_m2=47.1, dry_film_m=150e-6, solids=0.98, yields=0.85), 1)
    8.5
    """
    if not 0 <= area_m2 < math.inf:
        raise ValueError(f"an area of {area_m2} m² is negative or not a number")
    return area_m2 / spread_m2_l(dry_film_m=dry_film_m, solids=solids, yields=yields)


def wet_film_m(*, dry_film_m: float, solids: float, thinner: float = 0.0) -> float:
    """
    Return the wet film that dries to ``dry_film_m``.  [m]

    Parameters
    ----------
    dry_film_m, solids : float
        As for `spread_m2_l`.
    thinner : float
        Volume of thinner over that of the coating, 0 to 1. [-]

    Raises
    ------
    ValueError
        If one is outside its range.

    Notes
    -----
    Dry × (1 + thinner) / solids.

    Examples
    --------
    2.8 mil dry of 35 %, and the same thinned by a tenth, in mils:

    >>> [round(wet_film_m(dry_film_m=2.8 * 25.4e-6, solids=0.35, thinner=t) / 25.4e-6, 1)
    ...  for t in (0, 0.1)]
    [8.0, 8.8]
    """
    _film(dry_film_m)
    return dry_film_m * _wet_over_dry(solids, thinner)


def dry_film_m(*, wet_film_m: float, solids: float, thinner: float = 0.0) -> float:
    """
    Return the film that a wet one dries to; the other way round than `wet_film_m`.  [m]

    Examples
    --------
    >>> mil = 25.4e-6
    >>> round(dry_film_m(wet_film_m=8 * mil, solids=0.35, thinner=0.1) / mil, 3)
    2.545
    """
    _film(wet_film_m)
    return wet_film_m / _wet_over_dry(solids, thinner)


def _wet_over_dry(solids: float, thinner: float) -> float:
    _part("solids", solids)
    if not 0 <= thinner <= 1:
        raise ValueError(f"a share of thinner of {thinner} is outside 0 to 1")
    return (1 + thinner) / solids


def workable_warning_s(*, stated_s: float, stated_at_c: float, air_c: float) -> float:
    """
    Return after how long a batch in warmer air may be going off; never longer than stated.  [s]

    Parameters
    ----------
    stated_s : float
        Workable time on the maker's sheet, above 0. [s]
    stated_at_c, air_c : float
        At which temperature it is stated, and that of the batch; −20 to 60. [°C]

    Raises
    ------
    ValueError
        If one is outside its range.

    Notes
    -----
    Half for every 10 K more, common practice. It only warns: colder than stated the maker's
    figure stays, and what the maker states for that temperature goes before this.

    Examples
    --------
    >>> [workable_warning_s(stated_s=14400, stated_at_c=23, air_c=c) / 3600 for c in (13, 33, 43)]
    [4.0, 2.0, 1.0]
    """
    return stated_s * min(1.0, _by_halves(stated_s, stated_at_c, air_c))


def _by_halves(stated_s: float, stated_at_c: float, air_c: float) -> float:
    if not 0 < stated_s < math.inf:
        raise ValueError(f"a workable time of {stated_s} s is not above 0")
    for value in (stated_at_c, air_c):
        if not -20 <= value <= 60:
            raise ValueError(f"{value} °C is outside -20 to 60 °C")
    return float(2 ** ((stated_at_c - air_c) / WARNS_PER_K))
