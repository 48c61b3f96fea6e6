"""Every sum by its name, in the order they are listed."""

from __future__ import annotations

from record.reckon import (
    of_air,
    of_coats,
    of_crank,
    of_damp,
    of_doors,
    of_earth,
    of_falls,
    of_fans,
    of_frost,
    of_levels,
    of_people,
    of_sand,
)
from record.reckon.sum import Sum

SUBJECTS = (
    of_falls,
    of_damp,
    of_frost,
    of_earth,
    of_sand,
    of_coats,
    of_levels,
    of_air,
    of_fans,
    of_people,
    of_crank,
    of_doors,
)
SUMS: dict[str, Sum] = {one.name: one for subject in SUBJECTS for one in subject.SUMS}
