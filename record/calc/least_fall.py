"""The least fall a drain may have, by the model codes. The code in force locally governs."""

from __future__ import annotations

import math
from dataclasses import dataclass

INCH_M = 0.0254
PER_FOOT = 1 / 12  # one inch of fall in a foot, as a ratio


@dataclass(frozen=True, slots=True)
class LeastFall:
    """The least slope, as the source prints it, and the source."""

    slope: float  # [-]
    printed: str
    source: str


_QUARTER, _EIGHTH, _SIXTEENTH = PER_FOOT / 4, PER_FOOT / 8, PER_FOOT / 16
# Use: (from this nominal size in inches on, least slope, as printed), and the source.
_TABLE: dict[str, tuple[tuple[tuple[float, float, str], ...], str]] = {
    "drain": (
        ((0, _QUARTER, "1/4 in/ft"), (3, _EIGHTH, "1/8 in/ft"), (8, _SIXTEENTH, "1/16 in/ft")),
        "International Plumbing Code, Table 704.1",
    ),
    "dwelling drain": (
        ((0, _QUARTER, "1/4 in/ft"), (4, _EIGHTH, "1/8 in/ft")),
        "International Residential Code, P3005.3",
    ),
    "condensate": (
        ((0, _EIGHTH, "1/8 in 12 in (1 %)"),),
        "International Mechanical Code, 307.2.1",
    ),
}
USES = tuple(_TABLE)


def least_fall(use: str, nominal_size_m: float) -> LeastFall:
    """
    Return the least slope the model codes allow a drain, and which code says so.

    Parameters
    ----------
    use : str
        "drain", "dwelling drain" or "condensate".
    nominal_size_m : float
        Nominal size of the pipe. [m]

    Raises
    ------
    ValueError
        If the use has no rule here, or the size is not more than zero.

    Notes
    -----
    A size between two rows takes the row of the smaller, which is the steeper. The two codes for
    drains disagree at 3 in. For condensate the code prints both 1/8 in 12 in and 1 %; the first is
    1.0417 % and is the one returned, so that a pipe at exactly 1 % is short of it.

    IPC Table 704.1 was read as Chicago adopts it (18-29-704.1), IMC 307.2.1 as quoted by
    Baltimore City (314.2.1), IRC P3005.3 as an inspection guide to the 2024 edition quotes it.

    Examples
    --------
    >>> rule = least_fall("condensate", 0.019)
    >>> round(rule.slope, 6), rule.source
    (0.010417, 'International Mechanical Code, 307.2.1')
    """
    if use not in _TABLE:
        raise ValueError(f'no least fall for "{use}"; there is one for {", ".join(USES)}')
    if not 0 < nominal_size_m < math.inf:
        raise ValueError(f"a nominal size of {nominal_size_m} m is not a size")
    rows, source = _TABLE[use]
    size_in = round(nominal_size_m / INCH_M, 6)  # 0.0762 m is 3 in, whatever binary makes of it
    slope, printed = [row[1:] for row in rows if row[0] <= size_in][-1]
    return LeastFall(slope, printed, source)
