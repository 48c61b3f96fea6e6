"""Every sum by its name, in the order they are listed."""

from __future__ import annotations

from record.reckon import of_coats, of_damp, of_earth, of_falls, of_frost, of_levels, of_sand
from record.reckon.sum import Sum

SUMS: dict[str, Sum] = {
    one.name: one
    for subject in (of_falls, of_damp, of_frost, of_earth, of_sand, of_coats, of_levels)
    for one in subject.SUMS
}
