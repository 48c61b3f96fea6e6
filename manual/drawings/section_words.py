"""A long section in words: everything the picture shows, in the same order along the run."""

from manual.drawings.section import LongSection, Sag, Station, cover_m, in_order, said
from manual.languages import say, say_how_many


def interpolated() -> str:
    return say("section.between_stations_every_line")


def section_words(section: LongSection, *, times: int) -> str:
    """The alt text: stations with all their levels, falls, ponds, low points, fittings."""
    sentences = [
        say(
            "section.long_section_of_stations",
            name=section.name,
            stations=say_how_many("section.how_many", len(section.stations)),
            datum_words=section.datum_words,
            times=times,
        ),
        *map(_station, in_order(section)),
        interpolated(),
        *_lengths(section),
        *(
            say("section.low_point_at_m", chainage=said(low.chainage_m, places=2), words=low.words)
            for low in section.low_points
        ),
        *(
            say("section.at_m", tag=f.tag, kind=f.kind, chainage=said(f.chainage_m, places=2))
            for f in section.fittings
        ),
        *_surroundings(section),
        *section.notes,
    ]
    return " ".join(sentences)


def sag_words(sag: Sag) -> str:
    """What stands where, in words short enough for a label."""
    where = say("section.to_m", start=said(sag.from_m, places=2), to=said(sag.to_m, places=2))
    depth = (
        say("section.depth_not_recorded")
        if sag.depth_m is None
        else say("section.m_deep", depth=said(sag.depth_m))
    )
    level = (
        say("section.pond_level_not_recorded")
        if sag.pond_level_m is None
        else say("section.pond_level", pond_level=said(sag.pond_level_m))
    )
    return f"{where}, {depth}, {level}"


def _station(station: Station) -> str:
    how = say("section.measured") if station.measured else say("section.not_measured")
    within = (
        say("section.tolerance_not_recorded")
        if station.tolerance_m is None
        else say("section.within_m", tolerance=said(station.tolerance_m))
    )
    return say(
        "section.station_at_m_ground",
        key=station.key,
        name=station.name,
        chainage=said(station.chainage_m, places=2),
        ground=said(station.ground_m, station.tolerance_m),
        crown=said(station.crown_m, station.tolerance_m),
        invert=said(station.invert_m, station.tolerance_m),
        station=said(cover_m(station), station.tolerance_m),
        how=how,
        within=within,
    )


def _lengths(section: LongSection) -> list[str]:
    falls = [
        say(
            "section.from_to_m",
            start=said(fall.from_m, places=2),
            to=said(fall.to_m, places=2),
            words=fall.words,
            it=say("section.the_wrong_way") if fall.wrong_way else "",
        )
        for fall in section.falls
    ]
    return falls + [say("section.water_stands_from", sag=sag_words(sag)) for sag in section.sags]


def _surroundings(section: LongSection) -> list[str]:
    told = []
    if section.outside_diameter_m is not None:
        told.append(
            say("section.outside_diameter_m_2", outside_diameter=said(section.outside_diameter_m))
        )
    if section.frost_depth_m is not None:
        told.append(say("section.the_frost_line_follows", frost_depth=said(section.frost_depth_m)))
    if section.inside_from_m is not None and section.inside_to_m is not None:
        told.append(
            say(
                "section.from_to_m_the",
                inside_from=said(section.inside_from_m, places=2),
                inside_to=said(section.inside_to_m, places=2),
                inside_words=section.inside_words,
            )
        )
    return told
