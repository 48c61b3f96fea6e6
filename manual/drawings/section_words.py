"""A long section in words: everything the picture shows, in the same order along the run."""

from manual.drawings.section import LongSection, Sag, Station, cover_m, in_order, metres

INTERPOLATED = "Between stations every line is interpolated, not measured."


def section_words(section: LongSection, *, times: int) -> str:
    """The alt text: stations with all their levels, falls, ponds, low points, fittings."""
    sentences = [
        f"Long section of {section.name}, {len(section.stations)} stations;"
        f" {section.datum_words}. Heights are drawn {times} times as large as lengths.",
        *map(_station, in_order(section)),
        INTERPOLATED,
        *_lengths(section),
        *(
            f"Low point at {metres(low.chainage_m, places=2)} m: {low.words}."
            for low in section.low_points
        ),
        *(f"{f.tag}, {f.kind}, at {metres(f.chainage_m, places=2)} m." for f in section.fittings),
        *_surroundings(section),
        *section.notes,
    ]
    return " ".join(sentences)


def sag_words(sag: Sag) -> str:
    """What stands where, in words short enough for a label."""
    where = f"{metres(sag.from_m, places=2)} to {metres(sag.to_m, places=2)} m"
    depth = "depth not recorded" if sag.depth_m is None else f"{metres(sag.depth_m)} m deep"
    level = (
        "pond level not recorded"
        if sag.pond_level_m is None
        else f"pond level {metres(sag.pond_level_m)}"
    )
    return f"{where}, {depth}, {level}"


def _station(station: Station) -> str:
    how = "measured" if station.measured else "not measured"
    within = (
        "tolerance not recorded"
        if station.tolerance_m is None
        else f"within {metres(station.tolerance_m)} m"
    )
    return (
        f"Station {station.key}, {station.name}, at {metres(station.chainage_m, places=2)} m:"
        f" ground {metres(station.ground_m)}, crown {metres(station.crown_m)},"
        f" invert {metres(station.invert_m)}, cover {metres(cover_m(station))};"
        f" {how}, {within}."
    )


def _lengths(section: LongSection) -> list[str]:
    falls = [
        f"From {metres(fall.from_m, places=2)} to {metres(fall.to_m, places=2)} m: {fall.words}"
        f"{' (the wrong way)' if fall.wrong_way else ''}."
        for fall in section.falls
    ]
    return falls + [f"Water stands from {sag_words(sag)}." for sag in section.sags]


def _surroundings(section: LongSection) -> list[str]:
    said = []
    if section.outside_diameter_m is not None:
        said.append(f"Outside diameter {metres(section.outside_diameter_m)} m.")
    if section.frost_depth_m is not None:
        said.append(
            f"The frost line follows the ground {metres(section.frost_depth_m)} m below it."
        )
    if section.inside_from_m is not None and section.inside_to_m is not None:
        said.append(
            f"From {metres(section.inside_from_m, places=2)} to"
            f" {metres(section.inside_to_m, places=2)} m the run is {section.inside_words}."
        )
    return said
