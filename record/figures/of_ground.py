"""The ground about a run: how cold it gets, when air wets the pipe, whether frost reaches it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from record.facts.values import Part
from record.figures.along import Along, depths, no_place, place_rests, runs
from record.figures.feeding import field, lacks, nothing, perhaps
from record.figures.of_units import flows
from record.figures.worked import Fed, Missing, Worked, work
from record.fold import Thing
from record.place.shots import label
from record.readers import View
from record.units import Dimension, UnitFault, read_quantity
from record.words import tell, tell_how_many

Parts = tuple[Fed | Missing | None, ...]
MONTHS = tuple(str(number) for number in range(1, 13))
#: What is recorded of a site's soil and cold → the input of the sum.
COLD = (
    ("soil_conductivity", "conductivity"),
    ("soil_dry_density", "dry-density"),
    ("soil_water", "water"),
    ("freezing_index", "air-index"),
)
NO_SITE = nothing("the site", '"## site …"')


def of_ground(view: View) -> Iterator[Worked]:
    """Yield the coldest that the ground gets at the shallowest station of every run."""
    climate = climate_of(view)
    for along in runs(view):
        deep, missing = depths(along, Part.CENTRE)
        if deep or missing:
            least = min(deep, key=lambda one: one.deep_m, default=None)
            at = (
                least.fed("depth", tell("figures.its_axis_where_lies_shallowest"))
                if least
                else None
            )
            yield work("ground", along.run.tag, (*climate, *missing, at))


def of_seasons(view: View) -> Iterator[Worked]:
    """Yield the months in which outside air wets a supply run, where it lies deepest."""
    shared = (*climate_of(view), *months(view), _site(view, "altitude", "altitude"))
    for along in runs(view):
        if along.run.text("carries") != "supply air":
            continue
        deep, missing = depths(along, Part.CENTRE)
        if not deep and not missing:
            continue
        most = max(deep, key=lambda one: one.deep_m, default=None)
        at = most.fed("depth", tell("figures.its_axis_where_lies")) if most else None
        for unit, flow in flows(view):
            what = tell("figures.at_flow", unit=unit) if unit else ""
            yield work("condensing-season", along.run.tag, (*shared, *missing, at, flow), what=what)


def of_frost_depths(view: View) -> Iterator[Worked]:
    """Yield how deep frost goes by the soil and the cold of the site, beside the local figure."""
    site = view.built.site_thing()
    if site is None or not any(site.held(name) for name, _ in COLD):
        return
    surface = site.text("ground_surface")
    rests = site.held("ground_surface")
    parts = (
        *(field(site, name, key) for name, key in COLD),
        Fed(key="surface", value=surface, rests=rests) if surface else None,
        _winter(site),
        field(site, "mean_temperature", "mean"),
    )
    notes = (
        tell("figures.index_by", freezing_from=site.words("freezing_from")),
        tell(
            "figures.local_figure_goes_before",
            frost_depth=site.words("frost_depth"),
            frost_depth_from=site.words("frost_depth_from"),
        ),
    )
    yield work("frost-depth", site.tag, parts, notes=notes)


def _winter(site: Thing) -> Fed | Missing:
    days = site.count("freezing_days")
    if days is None:
        return lacks(site, "freezing_days")
    rests = site.held("freezing_days")
    return Fed(
        key="winter", value=86400.0 * days, rests=rests, how=tell_how_many("upkeep.days", days)
    )


def of_frost(view: View) -> Iterator[Worked]:
    """Yield, for every run, whether frost reaches it where it is shallowest, and which lengths."""
    frost = _site(view, "frost_depth", "frost-depth")
    site = view.built.site_thing()
    notes = (
        [tell("figures.frost_depth_from", frost_depth_from=site.words("frost_depth_from"))]
        if site
        else []
    )
    for along in runs(view):
        deep, missing = depths(along, Part.CROWN)
        if not deep and not missing:
            continue
        least = min(deep, key=lambda one: one.deep_m, default=None)
        at = least.fed("cover", tell("figures.least_its_stations")) if least else None
        yield work("drain-frost", along.run.tag, (at, *missing, frost), notes=notes)
        yield _zone(along, frost, notes)


def _zone(along: Along, frost: Fed | Missing, notes: list[str]) -> Worked:
    deep, missing = depths(along, Part.CROWN)
    rows = [
        Fed(
            key="station",
            value={"chainage": one.station.chainage_m, "cover": one.deep_m},
            rests=(*one.rests, *place_rests(one.station)),
            how=label(one.station),
        )
        for one in deep
        if one.station.chainage_m is not None
    ]
    adrift = [lack for station in along.stations for lack in no_place(station)]
    return work("frost-zone", along.run.tag, (*rows, *missing, *adrift, frost), notes=notes)


def _site(view: View, name: str, key: str) -> Fed | Missing:
    site = view.built.site_thing()
    return NO_SITE if site is None else field(site, name, key)


def climate_of(view: View) -> Parts:
    """Return mean, amplitude, coldest day and diffusivity of the site, as far as recorded."""
    site = view.built.site_thing()
    if site is None:
        return (NO_SITE,)
    return (
        field(site, "mean_temperature", "mean"),
        _amplitude(site),
        _coldest_day(site),
        perhaps(site, "soil_diffusivity", "diffusivity"),
    )


def _amplitude(site: Thing) -> Fed | Missing:
    """Return the amplitude as a difference: of 20.7 °F, 11.5 K and not −6.3 °C."""
    quantity = site.quantity("amplitude")
    if quantity is None:
        return lacks(site, "amplitude")
    try:
        kelvin = read_quantity(quantity.text, Dimension.DIFFERENCE).si
    except UnitFault:
        return lacks(site, "amplitude")
    return Fed(key="amplitude", value=float(kelvin), rests=site.held("amplitude"))


def _coldest_day(site: Thing) -> Fed | Missing:
    said = site.text("coldest_day")
    if said is None:
        return lacks(site, "coldest_day")
    day = day_of_year(said)
    if day is None:
        return Missing(
            words=tell("figures.coldest_day_no_day", tag=site.tag, said=said),
            record=tell("figures.coldest_day_january_under", tag=site.tag),
        )
    return Fed(key="coldest-day", value=float(day), rests=site.held("coldest_day"), how=said)


def day_of_year(said: str) -> int | None:
    """
    Return a day of the year, or None where it is none.

    >>> day_of_year("20 January"), day_of_year("July 19"), day_of_year("20"), day_of_year("winter")
    (20, 200, 20, None)
    """
    words = said.strip().rstrip(".")
    if words.isdecimal():
        return int(words) if 1 <= int(words) <= 365 else None
    for form in ("%d %B", "%B %d", "%d %b", "%b %d"):
        try:
            return datetime.strptime(f"{words} 2001", f"{form} %Y").timetuple().tm_yday
        except ValueError:
            continue
    return None


def months(view: View) -> Parts:
    """Return the twelve months of the climate, January first, or what is missing of them."""
    climates = list(view.built.of_kind("climate"))
    if not climates:
        where = tell("figures.climate_with_its_rows")
        return (nothing(tell("figures.monthly_normals_place"), where),)
    if len(climates) > 1:
        told = ", ".join(one.tag for one in climates)
        return (
            Missing(
                words=tell("figures.which_climate_holds_are", told=told),
                record=tell("figures.withdraw_one"),
            ),
        )
    return tuple(part for number in MONTHS for part in _month(climates[0], number))


def _month(climate: Thing, number: str) -> Iterator[Fed | Missing]:
    month = climate.part(number)
    if month is None:
        yield nothing(
            tell("figures.month_climate", number=number, tag=climate.tag),
            tell("figures.its_row", number=number),
        )
        return
    air, humidity = field(month, "temperature", "air"), field(month, "humidity", "humidity")
    if isinstance(air, Fed) and isinstance(humidity, Fed):
        row = {"air": air.value, "humidity": humidity.value}
        yield Fed(key="month", value=row, rests=(*air.rests, *humidity.rests), how=number)
        return
    for one in (air, humidity):
        if isinstance(one, Missing):
            yield one
