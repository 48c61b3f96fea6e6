"""A long section: a run seen from the side, with its levels in a band beneath."""

from dataclasses import replace

from manual.drawings import svg
from manual.drawings.falls import falls
from manual.drawings.ink import Drawing, Ink, finished, gather, paragraph
from manual.drawings.legend import Sample, dot_of, hatch_of, legend, stroke_of
from manual.drawings.paper import EDGE_MM, ROOM_MM, WIDTH_MM, headed
from manual.drawings.place import Flag, Flags, flags
from manual.drawings.section import LongSection, Station, in_order, level_at, said
from manual.drawings.section_profile import (
    FROST,
    GROUND,
    NOT_MEASURED,
    PIPE,
    Frame,
    frame,
    profile,
)
from manual.drawings.section_table import short, short_note, table
from manual.drawings.section_words import interpolated, sag_words, section_words
from manual.languages import say

_NAMED = 7  # stations at most with their names in the picture


def long_section(section: LongSection, *, profile_mm: float = 95.0) -> Drawing:
    """Draw a run; heights are stretched by the round number that fits into `profile_mm`."""
    held = frame(section, room_mm=profile_mm)
    head, y = _head(section, held)
    flown = _flags(section, held)
    held = replace(held, base_mm=y + 1.5 + flown.height_mm + 3.0 + held.height_mm)
    flown = _flags(section, held)
    top = held.base_mm - held.height_mm
    bands, y = _bands(section, held)
    foot, y = _foot(section, bands, y)
    ink = gather(
        (head, profile(section, held), flown.over(top - 3.0), _spots(section, held), bands, foot)
    )
    return finished(
        ink,
        title=say("section.long_section", name=section.name),
        alt=section_words(section, times=held.times),
        width_mm=WIDTH_MM,
        height_mm=y + EDGE_MM,
    )


def _head(section: LongSection, held: Frame) -> tuple[Ink, float]:
    stretched = (
        say("section.heights_and_lengths_are")
        if held.times == 1
        else say("section.heights_are_drawn_times", times=held.times)
    )
    size = (
        ""
        if section.outside_diameter_m is None
        else say("section.outside_diameter_m", outside_diameter=said(section.outside_diameter_m))
    )
    scaled = say(
        "section.lengths_1_metres",
        length_scale=held.length_scale,
        stretched=stretched,
        size=size,
        datum_words=section.datum_words,
    )
    return headed(say("section.long_section", name=section.name), scaled)


def _flags(section: LongSection, held: Frame) -> Flags:
    wanted = [
        *(_station_flag(section, held, station) for station in in_order(section)),
        *(
            Flag(
                held.x(f.chainage_m),
                held.y(_level(section, held, f.chainage_m, f.level_m)),
                f.tag,
                (f.kind,),
            )
            for f in section.fittings
        ),
        *(
            _flag(section, held, p.chainage_m, say("section.low_point"), p.words)
            for p in section.low_points
        ),
        *(
            _flag(section, held, (sag.from_m + sag.to_m) / 2, say("section.pond"), sag_words(sag))
            for sag in section.sags
        ),
    ]
    if section.inside_from_m is not None and section.inside_to_m is not None:
        x = held.x((section.inside_from_m + section.inside_to_m) / 2)
        wanted.append(Flag(x, held.base_mm - held.height_mm + 1.0, section.inside_words))
    return flags(wanted, left_mm=EDGE_MM, right_mm=WIDTH_MM - EDGE_MM)


def _flag(section: LongSection, held: Frame, chainage_m: float, head: str, words: str) -> Flag:
    return Flag(held.x(chainage_m), held.y(_level(section, held, chainage_m, None)), head, (words,))


def _station_flag(section: LongSection, held: Frame, station: Station) -> Flag:
    flag = _flag(section, held, station.chainage_m, station.key, station.name)
    return replace(flag, words=()) if _listed(section) else flag


def _listed(section: LongSection) -> bool:
    """Whether there are too many stations for names in the picture."""
    return len(section.stations) > _NAMED


def _level(section: LongSection, held: Frame, chainage_m: float, known_m: float | None) -> float:
    """Where a spot is drawn: its own level, the crown, the invert, else as the nearest station."""
    own = _own_level(section, chainage_m, known_m)
    if own is not None:
        return own
    near = sorted(section.stations, key=lambda s: (abs(s.chainage_m - chainage_m), s.chainage_m))
    found = (level for s in near for level in (s.crown_m, s.invert_m) if level is not None)
    return next(found, held.datum_m)


def _own_level(section: LongSection, chainage_m: float, known_m: float | None) -> float | None:
    found = (known_m, *(level_at(section, chainage_m, line) for line in ("crown_m", "invert_m")))
    return next((level for level in found if level is not None), None)


def _spots(section: LongSection, held: Frame) -> Ink:
    """A square for each fitting, a wedge under each low point."""
    marks = []
    for fitting in section.fittings:
        x = held.x(fitting.chainage_m)
        y = held.y(_level(section, held, fitting.chainage_m, fitting.level_m))
        ring = [(x - 1, y - 1), (x + 1, y - 1), (x + 1, y + 1), (x - 1, y + 1)]
        marks.append(svg.outline(ring, svg.PLAIN, fill=svg.PAPER))
    for low in section.low_points:
        level = level_at(section, low.chainage_m, "invert_m")
        level = _level(section, held, low.chainage_m, None) if level is None else level
        x, y = held.x(low.chainage_m), held.y(level)
        ring = [(x, y + 0.4), (x + 1.5, y + 3.0), (x - 1.5, y + 3.0)]
        marks.append(svg.outline(ring, svg.PLAIN, fill=svg.BLACK))
    return Ink(tuple(marks), ())


def _bands(section: LongSection, held: Frame) -> tuple[Ink, float]:
    lengths, y = falls(section.falls, x=held.x, top_mm=held.base_mm + 3.0)
    stations = in_order(section)
    if not stations:
        words, y = paragraph(
            [say("section.no_station_is_recorded")], EDGE_MM, y + 1.0, width_mm=100.0
        )
        return lengths + words, y
    poles = Ink(tuple(_drop(section, held, station, y) for station in stations), ())
    levels, y = table(stations, x=held.x, top_mm=y)
    return poles + lengths + levels, y


def _drop(section: LongSection, held: Frame, station: Station, y_mm: float) -> str:
    x = held.x(station.chainage_m)
    start = held.base_mm if station.invert_m is None else held.y(station.invert_m)
    return svg.line([(x, start), (x, y_mm)], svg.FINE)


def _foot(section: LongSection, bands: Ink, y: float) -> tuple[Ink, float]:
    samples, y = legend(
        _samples(section), left_mm=EDGE_MM, right_mm=WIDTH_MM - EDGE_MM, top_mm=y + 2.0
    )
    words, y = paragraph(
        [*_notes(section, bands), *section.notes], EDGE_MM, y + 1.0, width_mm=ROOM_MM
    )
    return samples + words, y


def _notes(section: LongSection, bands: Ink) -> list[str]:
    notes = [interpolated()]
    if any(label.text == short() for label in bands.labels):
        notes.append(short_note())
    guessed = [
        f.tag for f in section.fittings if _own_level(section, f.chainage_m, f.level_m) is None
    ]
    guessed += [
        say("section.the_low_point_at", chainage=said(low.chainage_m, places=2))
        for low in section.low_points
        if _own_level(section, low.chainage_m, None) is None
    ]
    if guessed:
        notes.append(say("section.level_not_recorded_drawn", guessed=", ".join(guessed)))
    if _listed(section):
        named = "; ".join(f"{s.key} {s.name}" for s in in_order(section))
        notes.append(say("section.stations", named=named))
    return notes


def _samples(section: LongSection) -> list[tuple[Sample, str]]:
    stations = section.stations
    ground = any(station.ground_m is not None for station in stations)
    known = {station.measured for station in stations}
    shown: list[tuple[Sample, str, bool]] = [
        (stroke_of(GROUND), say("section.ground"), ground),
        (
            stroke_of(FROST),
            say("section.frost_depth_m_under", frost_depth=said(section.frost_depth_m, places=2)),
            ground and section.frost_depth_m is not None,
        ),
        (stroke_of(PIPE), say("section.pipe_crown_and_invert"), bool(stations)),
        (stroke_of(NOT_MEASURED), say("section.pipe_beside_a_station"), False in known),
        (dot_of(svg.BLACK), say("section.measured"), True in known),
        (dot_of(svg.PAPER), say("section.not_measured"), False in known),
        (hatch_of(0, pitch=0.5), say("section.standing_water"), bool(section.sags)),
        (
            hatch_of(45, -45, pitch=1.1),
            say("section.the_wrong_way_rises"),
            any(fall.wrong_way for fall in section.falls),
        ),
        (
            hatch_of(-45, pitch=2.2, pen=svg.FINE),
            section.inside_words,
            section.inside_from_m is not None and section.inside_to_m is not None,
        ),
    ]
    return [(sample, words) for sample, words, held in shown if held]
