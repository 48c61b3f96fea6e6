"""How sure a position is: what a method of measuring is good for, where nobody said.

The figures are common practice, no source: what each method is usually trusted to at 95 %.
A stated tolerance always goes before them. "Not known" is neither 0 nor without end: it is
``NOT_KNOWN_M``, and it is printed as "assumed".

How tolerances go on from there, to the first order (GUM, JCGM 100:2008, 5.1.2): those of
independent sources as root sum square, across and up apart: a tape and its landmark, a place in a
hull and the hull's own place and turn. What is shared cancels between those that share it and adds
in full against all others: the benchmark of a level run. What is a bound and no chance adds in
full: how far a pipe may stray between its stations.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from record.facts.values import Absent, Why
from record.fold import Stated
from record.words import tell

NOT_KNOWN_M = 0.30
BEARING_NOT_KNOWN_DEG = 0.5  # of a hull whose bearing was written without a tolerance


#: What a position rests on → its name in IFC 4.3, PEnum_UncertaintyBasis of Pset_Uncertainty.
BASES = {
    "measured": "MEASUREMENT",
    "observed": "OBSERVATION",
    "assessed": "ASSESSMENT",
    "interpreted": "INTERPRETATION",
    "estimated": "ESTIMATE",
    "not known": "NOTKNOWN",
}


@dataclass(frozen=True, slots=True)
class Accuracy:
    """Tolerance at 95 % across and up, in metres, and the basis it rests on."""

    horizontal_m: float
    vertical_m: float
    basis: str  # one of BASES
    assumed: bool
    worked: str = ""  # how the place, else the level, was worked from readings
    mark: str = ""  # the benchmark its level was worked from
    mark_m: float = 0.0  # of that benchmark: counted in ``vertical_m``, none between its points


#: Words a crew uses for how it measured → horizontal, vertical (m), basis.
METHODS: tuple[tuple[str, float, float, str], ...] = (
    (r"\bby sight\b|\bseen\b|\bobserved\b", 0.30, 0.30, "observed"),
    (r"\bassessed\b|\bjudged\b", 0.30, 0.30, "assessed"),
    (r"\bby eye\b|\bestimate|\bpaced\b", 0.30, 0.30, "estimated"),
    (r"\btotal station\b", 0.015, 0.010, "measured"),
    (r"\bstaff\b|\blevel(led)?\b|\blaser\b|\btransit\b|\bbm-?\d", 0.05, 0.005, "measured"),
    (r"\brtk\b|\bgnss\b", 0.03, 0.05, "measured"),
    (r"\bties?\b|\btied\b", 0.05, 0.05, "measured"),
    (r"\btape\b|\brule\b", 0.01, 0.01, "measured"),
    (r"\bdrawing\b|\bplan\b", 0.15, 0.15, "interpreted"),
    # Of a phone under open sky within 4.9 m, as gps.gov tells (GPS Accuracy; from memory).
    (r"\bgps\b", 5.0, 10.0, "measured"),
)


def accuracy(stated: Stated) -> Accuracy:
    """Return how sure the position of a thing, station or panel is, from its own words."""
    how = (stated.text("how") or "").casefold()
    found = [method for method in METHODS if re.search(method[0], how)]
    basis = found[0][3] if found else "not known"
    across = min((m[1] for m in found), default=NOT_KNOWN_M)
    up = min((m[2] for m in found), default=NOT_KNOWN_M)
    said = stated.quantity("position_tolerance")
    said_across = [float(said.si)] if said else []
    said_across += [
        float(q.tol)
        for name in ("x", "y", "from_near", "from_left")
        if (q := stated.quantity(name)) and q.tol is not None
    ]
    horizontal = max(said_across) if said_across else across
    unsaid = _asked_in_vain(stated, "position_tolerance")
    if unsaid:
        # The method alone promises nothing then.
        horizontal = max(horizontal, NOT_KNOWN_M)
    tied, levelled = _worked(stated, "x"), _worked(stated, "level")
    if tied:
        basis = "measured"
    level = next(filter(None, map(stated.quantity, ("level", "bottom", "above_floor"))), None)
    said_up = float(level.tol) if level and level.tol is not None else None
    mark, mark_m = next((held.shared for held in stated.held("level") if held.shared), ("", 0.0))
    return Accuracy(
        horizontal_m=horizontal,
        vertical_m=(said_up if said_up is not None else up) + mark_m,
        basis=basis,
        assumed=unsaid
        or (not found and not said_across)
        or tell("place.tolerance_assumed") in tied,
        worked="; ".join(filter(None, (tied, levelled))),
        mark=mark,
        mark_m=mark_m,
    )


def _worked(stated: Stated, name: str) -> str:
    return next((held.worked for held in stated.held(name) if held.worked), "")


def _asked_in_vain(stated: Stated, name: str) -> bool:
    """Return whether a field was stated and holds no answer: "not recorded", or two that differ."""
    value = stated.value(name)
    unknown = isinstance(value, Absent) and value.why in (Why.NOT_RECORDED, Why.NOT_SETTLED)
    return bool(stated.held(name)) and unknown
