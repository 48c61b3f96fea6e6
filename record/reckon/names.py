"""Every sum by its name, in the order they are listed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module

from record.reckon.sum import Sum

#: Subject to the names of its sums, blanks between; only the subject asked for is loaded.
SUBJECTS = {
    "of_falls": "fall least-fall pond",
    "of_damp": "dew-point condensate ground condensing-season",
    "of_surfaces": "surface least-insulation pipe-insulation",
    "of_frost": "frost-depth drain-frost frost-zone",
    "of_earth": "cover-load cover float-level uplift uplift-round hold-down",
    "of_sand": "sand heap sand-flow",
    "of_coats": "spread litres wet-film workable-time film pinhole-voltage",
    "of_levels": "level-run ties drinking-water",
    "of_air": "air-density air-drop",
    "of_fans": "air-way fan-point trunk",
    "of_people": "supply co2 people-served breath",
    "of_crank": "crank crank-hold rota",
    "of_doors": "far-room door-force intake-distance trap-seal",
}


class Sums(Mapping[str, Sum]):
    """Name → sum. Each is loaded when it is asked for, its name known before."""

    def __init__(self, subjects: Mapping[str, str]) -> None:
        self._subject = {name: key for key, names in subjects.items() for name in names.split()}

    def __getitem__(self, name: str) -> Sum:
        return _sums(self._subject[name])[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._subject)

    def __len__(self) -> int:
        return len(self._subject)


@cache
def _sums(subject: str) -> Mapping[str, Sum]:
    declared: tuple[Sum, ...] = import_module(f"record.reckon.{subject}").SUMS
    return {one.name: one for one in declared}


SUMS: Mapping[str, Sum] = Sums(SUBJECTS)
