"""Long sections of an invented site: an air intake, a drain, a run written down wrongly."""

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from manual.drawings.long_section import long_section
from manual.drawings.section import Fall, Fitting, LongSection, LowPoint, Sag, Station

SVG = "{http://www.w3.org/2000/svg}"


def station(key, name, chainage, invert, ground, **more):
    """Outside 160, inside 152: the crown is 0.156 over the invert."""
    return Station(
        key=key,
        name=name,
        chainage_m=chainage,
        invert_m=invert,
        crown_m=None if invert is None else invert + 0.156,
        ground_m=ground,
        tolerance_m=0.005,
        **more,
    )


TERMINAL = station("1", "terminal foot", 0.0, 47.850, 49.45)
BEND = station("2", "bend", 5.0, 47.750, 49.55)
WALL = station("3", "Hull B left wall, a 2.40", 12.6, 47.598, 49.70)
INTAKE = LongSection(
    name="AIR-IN",
    stations=(TERMINAL, BEND, WALL),
    outside_diameter_m=0.160,
    falls=(
        Fall(from_m=0, to_m=5, words="falls 2.000 %"),
        Fall(from_m=5, to_m=12.6, words="falls 2.000 %"),
    ),
    sags=(Sag(from_m=7, to_m=9, pond_level_m=None, depth_m=0.020),),
    low_points=(LowPoint(chainage_m=12.6, words="drip leg to D-1"),),
    fittings=(Fitting(chainage_m=12.9, tag="CV-1", kind="check valve 150"),),
    frost_depth_m=1.10,
    inside_from_m=12.6,
    inside_to_m=12.9,
    inside_words="inside Hull B",
)
BACKFALL = replace(
    INTAKE,
    stations=(TERMINAL, station("2", "bend", 5.0, 47.906, 49.55), WALL),
    falls=(Fall(from_m=0, to_m=5, words="RISES 0.056 m: wrong way", wrong_way=True),),
    sags=(),
)
DRAIN = LongSection(
    name="D-1",
    stations=(
        station("1", "Hull B left wall, a 4.00", 0.0, 47.400, 49.70),
        Station(key="2", name="frost zone", chainage_m=5.73, invert_m=47.257, measured=False),
        station("3", "bank outfall", 10.0, 47.150, 47.45),
    ),
    falls=(Fall(from_m=0, to_m=10, words="falls 2.500 %"),),
    frost_depth_m=1.10,
    fittings=(Fitting(chainage_m=10, tag="FL-1", kind="outfall flap"),),
)


def dots(root):
    """The round marks of stations, which are larger than the ends of poles."""
    rings = [c.attrib for c in root.iter(f"{SVG}circle") if float(c.attrib["r"]) > 0.7]
    return [(float(a["cx"]), float(a["cy"]), a["fill"]) for a in rings]


def words_of(drawing):
    return [box.text for box in drawing.labels]


@pytest.mark.parametrize("section", [INTAKE, BACKFALL, DRAIN], ids=lambda s: s.name)
def test_the_demo_runs_are_legible(section, legible):
    drawing = long_section(section)
    legible(drawing)
    assert drawing.width_mm == 170 and drawing.height_mm <= 247  # A4 less 25 mm at head and foot


def test_a_fall_of_two_percent_is_drawn_as_it_says(legible):
    """5.00 m at 1:100 is 50 mm along; 0.100 m at 1:100, twice as large, is 2 mm down.
    7.60 m is 76 mm along; 0.152 m is 3.04 mm down."""
    drawing = long_section(INTAKE)
    (x0, y0, _), (x1, y1, _), (x2, y2, _) = dots(legible(drawing))[:3]
    assert "Lengths 1:100. Heights are drawn 2 times" in " ".join(words_of(drawing))
    assert (x1 - x0, y1 - y0) == pytest.approx((50, 2.0), abs=0.011)
    assert (x2 - x1, y2 - y1) == pytest.approx((76, 3.04), abs=0.011)


def test_the_words_say_all_that_the_picture_shows():
    """An inch is 25.4 mm: 49.550 m is 1950.79 in, which is 162 ft and 6 12.6/16 in."""
    alt = long_section(INTAKE).alt
    for said in (
        "Station 2, bend, at 5.00 m (16' 5\"): ground 49.550 m (162' 6 13/16\"), "
        "crown 47.906 m (157' 2 1/16\"), invert 47.750 m (156' 7 15/16\"), "
        "cover 1.644 m (5' 4 3/4\");",
        'within 0.005 m (3/16")',
        "2 times as large",
        "From 5.00 m (16' 5\") to 12.60 m (41' 4\"): falls 2.000 %.",
        "Water stands from 7.00 m (22' 11 1/2\") to 9.00 m (29' 6 1/2\"), "
        '0.020 m (13/16") deep, pond level not recorded.',
        "Low point at 12.60 m (41' 4\"): drip leg to D-1.",
        "CV-1, check valve 150, at 12.90 m (42' 4\").",
        "1.100 m (3' 7 5/16\") below it",
        "inside Hull B",
        "interpolated, not measured",
    ):
        assert said in alt


def test_cover_is_ground_less_crown_unless_it_was_measured():
    """49.45 − 48.006 = 1.444; a measured 1.40 stands instead."""
    assert "1.444" in words_of(long_section(INTAKE))
    measured = replace(INTAKE, stations=(replace(TERMINAL, cover_m=1.40), BEND, WALL))
    assert "1.400" in words_of(long_section(measured))
    assert "1.444" not in words_of(long_section(measured))


def test_a_length_that_rises_is_hatched_and_named():
    right, wrong = long_section(INTAKE), long_section(BACKFALL)
    assert "RISES 0.056 m: wrong way" in words_of(wrong)
    assert "(the wrong way)" in wrong.alt and "wrong way" not in right.alt
    assert "the wrong way: rises against the flow" in words_of(wrong)
    assert "the wrong way: rises against the flow" not in words_of(right)
    plain = replace(BACKFALL, falls=(replace(BACKFALL.falls[0], wrong_way=False),))
    assert len(wrong.svg) > len(long_section(plain).svg) + 500  # the hatch


def test_what_was_not_recorded_is_said_and_never_left_blank():
    drawing = long_section(DRAIN)
    assert words_of(drawing).count("not rec.") == 4  # ground, crown, cover, tolerance
    assert "ground not recorded, crown not recorded" in drawing.alt
    assert any("is “not recorded”" in words for words in words_of(drawing))


def test_a_station_not_measured_is_an_open_ring_and_its_pipe_is_dashed(legible):
    fills = [fill for _, _, fill in dots(legible(long_section(DRAIN)))][:3]
    assert fills == ["#000000", "#ffffff", "#000000"]
    dashed = 'stroke-dasharray="1.6 1.1"'
    # Two lengths of invert beside that station, and the sample in the legend.
    assert long_section(DRAIN).svg.count(dashed) == 3 and dashed not in long_section(INTAKE).svg


def test_the_pipe_is_broken_where_the_crown_is_not_known():
    """With three crowns there are four pipe lines; without the middle one there are two
    lines for the invert and two short ticks."""

    def lines(section):
        paths = re.findall(
            r'd="M(\S+) \S+L(\S+) \S+" [^>]*stroke-width="0.4"/>', long_section(section).svg
        )
        return sorted(round(float(b) - float(a)) for a, b in paths if float(b) > float(a))

    broken = replace(
        INTAKE, stations=(TERMINAL, replace(BEND, crown_m=None), WALL), sags=(), falls=()
    )
    whole = replace(INTAKE, sags=(), falls=())
    assert [n for n in lines(whole) if n in (5, 50, 76)].count(50) - lines(broken).count(50) == 1
    assert lines(broken).count(5) - lines(whole).count(5) == 2


def test_a_valve_with_no_level_is_said_to_be_drawn_by_guess():
    said = "Level not recorded, drawn as at the nearest station: CV-1."
    assert said in words_of(long_section(INTAKE))
    known = replace(INTAKE, fittings=(replace(INTAKE.fittings[0], level_m=47.6),))
    assert said not in words_of(long_section(known))


def test_a_run_with_no_station_says_so(legible):
    drawing = long_section(LongSection(name="PD-1", stations=()))
    legible(drawing)
    assert "No station is recorded." in words_of(drawing)


def test_many_stations_go_into_several_bands(legible):
    many = tuple(station(f"{k}", f"joint {k}", k * 0.8, 50 - k * 0.016, 52.0) for k in range(30))
    drawing = long_section(LongSection(name="long run", stations=many))
    legible(drawing)
    assert words_of(drawing).count("Station") == 3
    assert "joint 29" in " ".join(words_of(drawing))


def test_feet_stand_under_metres_unless_they_would_break_the_band(legible):
    """Of 142 mm a level in feet takes about 20. 50 m is 1968.50 in: 164 ft and half an inch."""
    for count, feet in ((4, True), (8, False)):
        few = tuple(station(f"{k}", "joint", k * 2.0, 50 - k * 0.04, 52.0) for k in range(count))
        drawing = long_section(LongSection(name="run", stations=few))
        legible(drawing)
        words = words_of(drawing)
        assert words.count("Station") == 1
        assert ("164' 1/2\"" in words and "in feet, inches" in words) is feet
        assert "invert 50.000 m (164' 1/2\")" in drawing.alt


def test_the_order_in_which_stations_come_changes_no_byte():
    turned = replace(INTAKE, stations=INTAKE.stations[::-1])
    assert long_section(turned).svg == long_section(INTAKE).svg
    assert "AIR-IN" in long_section(INTAKE).svg


LEVELS = st.none() | st.floats(20, 80)
LENGTHS = st.floats(0, 200)
WORDS = st.text(max_size=40)
STATIONS = st.builds(
    Station,
    key=st.text(max_size=6),
    name=WORDS,
    chainage_m=LENGTHS,
    invert_m=LEVELS,
    crown_m=LEVELS,
    ground_m=LEVELS,
    tolerance_m=st.none() | st.floats(0, 2),
    measured=st.booleans(),
)
SECTIONS = st.builds(
    LongSection,
    name=WORDS,
    stations=st.lists(STATIONS, max_size=16).map(tuple),
    outside_diameter_m=st.none() | st.floats(0, 2),
    falls=st.lists(
        st.builds(Fall, from_m=LENGTHS, to_m=LENGTHS, words=WORDS, wrong_way=st.booleans()),
        max_size=6,
    ).map(tuple),
    sags=st.lists(
        st.builds(Sag, from_m=LENGTHS, to_m=LENGTHS, pond_level_m=LEVELS, depth_m=LEVELS),
        max_size=3,
    ).map(tuple),
    low_points=st.lists(st.builds(LowPoint, chainage_m=LENGTHS, words=WORDS), max_size=3).map(
        tuple
    ),
    fittings=st.lists(
        st.builds(Fitting, chainage_m=LENGTHS, tag=WORDS, kind=WORDS, level_m=LEVELS), max_size=5
    ).map(tuple),
    frost_depth_m=st.none() | st.floats(0, 3),
    inside_from_m=st.none() | LENGTHS,
    inside_to_m=st.none() | LENGTHS,
    inside_words=WORDS,
    datum_words=WORDS,
    notes=st.lists(WORDS, max_size=3).map(tuple),
)


@settings(max_examples=60, deadline=None)
@given(SECTIONS)
def test_any_run_is_legible(legible, section):
    drawing = long_section(section)
    legible(drawing)
    assert long_section(section) == drawing
