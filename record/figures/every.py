"""Every figure of a record, in one pass."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from record.figures.of_air import of_air_drops
from record.figures.of_coats import of_batches, of_coats
from record.figures.of_cover import of_cover, of_cover_load
from record.figures.of_cranks import of_cranks, of_holds, of_rotas
from record.figures.of_doors import of_doors
from record.figures.of_falls import of_falls, of_least_falls
from record.figures.of_films import of_films
from record.figures.of_ground import (
    climate_of,
    of_frost,
    of_frost_depths,
    of_ground,
    of_seasons,
)
from record.figures.of_hulls import of_float_levels, of_uplift
from record.figures.of_intakes import of_intakes
from record.figures.of_levels import of_level_runs, of_ties
from record.figures.of_rooms import of_co2, of_far_rooms, of_served
from record.figures.of_sand import of_sand
from record.figures.of_surfaces import of_dew_points, of_pipes, of_roof_ground, of_surfaces
from record.figures.of_tar import of_tar
from record.figures.of_traps import of_traps, of_trunks
from record.figures.of_units import of_people
from record.figures.of_water import of_water
from record.figures.of_ways import of_densities, of_fan_points, of_ways
from record.figures.worked import Worked
from record.readers import View

#: In the order they are told.
FEEDS: tuple[Callable[[View], Iterator[Worked]], ...] = (
    of_level_runs,
    of_ties,
    of_falls,
    of_least_falls,
    of_frost,
    of_frost_depths,
    of_ground,
    lambda view: of_roof_ground(view, climate_of(view)),
    of_seasons,
    lambda view: of_surfaces(view, climate_of(view)),
    of_pipes,
    of_float_levels,
    of_uplift,
    of_cover,
    of_cover_load,
    of_people,
    of_co2,
    of_served,
    of_densities,
    of_air_drops,
    of_ways,
    of_fan_points,
    of_trunks,
    of_cranks,
    of_holds,
    of_rotas,
    of_far_rooms,
    of_doors,
    of_traps,
    of_intakes,
    of_water,
    of_sand,
    of_dew_points,
    of_coats,
    of_batches,
    of_films,
    of_tar,
)


def figures(view: View) -> tuple[Worked, ...]:
    """Return every figure of what a reader may see, worked or with what is missing, by sum."""
    found = [worked for feed in FEEDS for worked in feed(view)]
    order = {name: place for place, name in enumerate(dict.fromkeys(one.name for one in found))}
    return tuple(sorted(found, key=lambda one: order[one.name]))


def chosen(found: tuple[Worked, ...], asked: str) -> tuple[Worked, ...]:
    """Return the figures of one sum, or of one tag."""
    return tuple(one for one in found if asked in (one.name, one.about.partition("/")[0]))
