"""A run from the side: falls, ponds, cover and frost worked by hand; the picture row by row."""

import pytest

from record.answers import CannotAnswer, NotFound, json_form
from record.answers.profile import profile
from record.answers.profile_words import picture, profile_words
from tests.record.answers.shelter import block
from tests.record.building import day, view_of
from tests.record.place.measuring import pipe, site

COLUMNS = "x [m] | y [m] | invert [m] | ground [m] | how"
FROST = "## site fern-bank\n\n- frost depth: 1.10 m\n- frost depth from: building office\n"


def drain(*rows, fields="- carries: condensate\n- falls to: 2\n- outlet: flap\n"):
    return pipe(*rows, tag="D-1", columns=COLUMNS, fields=fields)


#: Outside 160 mm, inside 152 mm: the crown is 0.156 over the invert.
D_1 = drain(
    "1 wall | 0.00 | 0.00 | 47.400 ± 5 mm | 49.802 | staff",
    "2 bank | 6.00 | 8.00 | 47.150 ± 5 mm | 47.552 | staff",
)


def ask(*blocks, later=(), tag="D-1", **asked):
    return profile(view_of(site(*(blocks or (D_1,))), *later, **asked), tag)


def told(found):
    return " ".join(" ".join(profile_words(found)).split())


def test_levels_falls_and_cover_are_those_of_the_stations():
    """10 m by 6 and 8; 250 mm in it is 2.5 %, ± √(5² + 5²) = 7.1; 49.802 − 47.556 = 2.246."""
    found = ask()
    first, last = found.stations
    assert (first.chainage_m, last.chainage_m) == (0.0, pytest.approx(10.0))
    assert first.crown_m == pytest.approx(47.556)
    assert (first.cover_m, last.cover_m) == pytest.approx((2.246, 0.246))
    (length,) = found.lengths
    assert (length.slope, length.drop_m) == pytest.approx((0.025, 0.250))
    assert length.tolerance_m == pytest.approx(0.00707, abs=1e-5)
    assert length.verdict == "falls"
    assert found.least_cover == ("2 bank", pytest.approx(0.246))


def test_a_station_without_a_level_is_told_no_tolerance_of_one():
    bare = drain("1 wall | 0.00 | 0.00 | not recorded | 49.802 | staff",
                 "2 bank | 6.00 | 8.00 | 47.150 ± 5 mm | 47.552 | staff")  # fmt: skip
    lines = profile_words(ask(bare))
    (wall,) = [line.split("[")[0] for line in lines if line.startswith("  1 wall ")]
    (bank,) = [line for line in lines if line.startswith("  2 bank ")]
    assert wall.split()[3:] == ["49.802", *["not", "rec'd"] * 4] and "0.005" in bank


BENT = drain(
    "1 wall | 0.00 | 0.00 | 47.400 ± 5 mm | 49.802 | staff",
    "2 bend | 3.00 | 4.00 | not recorded | 49.700 | staff",
    "3 bank | 6.00 | 8.00 | 47.150 ± 5 mm | 47.552 | staff",
    fields="- carries: condensate\n- falls to: 3\n- outlet: flap\n",
)


def test_a_fall_past_a_station_without_a_level_is_not_told_as_if_it_ruled_out_a_sag():
    """250 mm from the wall to the bank; half-way, at the bend, nobody shot a level."""
    found = told(ask(BENT))
    assert "falls, 2.500 %" in found
    assert "PAST 2 bend, of which no invert is told: it may rise or sag there" in found
    assert "Other low points cannot be ruled out: no invert is told of 2 bend." in found
    assert "at 3 bank, by the ground of its day. Of 2 bend the cover cannot be told." in found
    whole = told(ask())
    assert (
        "cover cannot be told" not in whole
        and "PAST" not in whole
        and "cannot be ruled out" not in whole
    )


def test_a_level_told_in_two_ways_is_unsettled_and_not_unrecorded():
    def said(writer, level):
        return day("2031-05-02", writer, f"## run D-1\n\n- mends: ld-3\n- because: shot again\n\n"
                   f"| station | invert [m] |\n|---|---|\n| 1 wall | {level} |\n")  # fmt: skip

    found = ask(later=[said("ck", "47.410"), said("te", "47.420")])
    (wall,) = [line for line in profile_words(found) if line.startswith("  1 wall ")]
    assert wall.split()[4:8] == ["unsettled"] * 4
    assert not any("1 wall" in line for line in found.not_recorded)
    assert any("47.410" in line and "47.420" in line for line in found.disagreements)


def test_a_crown_above_the_ground_is_said_to_be_so():
    """47.150 + 0.156 = 47.306; of ground at 47.200 it stands 0.106 over it."""
    found = ask(D_1.replace("47.552", "47.200"))
    assert 'NO COVER: its crown stands 0.106 m (4 3/16") ABOVE the ground, at 2 bank' in told(found)
    assert "Least cover at a station: 0.246 m" in told(ask())


def test_what_has_less_cover_than_the_frost_depth_lies_in_frost():
    """Cover 2.246 to 0.246 in 10 m: 1.10 at (2.246 − 1.10)/0.2 = 5.73, so 4.27 m lie in frost."""
    found = ask(later=[day("2031-05-02", "ld", FROST)])
    (zone,) = found.in_frost
    assert (zone.from_m, zone.to_m, zone.length_m) == pytest.approx((5.73, 10.0, 4.27))
    assert "IN FROST from 5.73 to 10.00 m" in told(found)


@pytest.mark.parametrize("change", [("49.802", "not recorded"), ("47.150 ± 5 mm", "not recorded")])
def test_frost_is_never_ruled_out_while_a_cover_is_not_recorded(change):
    found = ask(D_1.replace(*change), later=[day("2031-05-02", "ld", FROST)])
    assert found.in_frost is None
    assert "cannot be told" in told(found) and "No length" not in told(found)


def test_one_station_without_its_ground_leaves_all_of_the_frost_open():
    """Both others lie at 2 m; the one between them may lie at 10 cm."""
    rows = [
        f"{key} | {x} | 0 | 47.0 | {ground} | staff"
        for key, x, ground in (("1", 0, 49.2), ("2", 5, "not recorded"), ("3", 10, 49.2))
    ]
    found = ask(drain(*rows), later=[day("2031-05-02", "ld", FROST)])
    assert found.in_frost is None


def test_without_a_frost_depth_it_is_not_told():
    found = ask()
    assert found.in_frost is None
    assert "the frost depth of the site" in found.not_recorded


def test_a_length_that_rises_is_told_loudly_and_water_stands_before_it():
    """47.40, 47.10, 47.15: it rises 50 mm, and 50 mm stand at 5 m."""
    rows = [
        f"{key} | {x} | 0 | {invert} ± 2 mm | 49 | staff"
        for key, x, invert in (("1 a", 0, "47.40"), ("2 b", 5, "47.10"), ("3 c", 10, "47.15"))
    ]
    found = ask(drain(*rows, fields="- carries: condensate\n- falls to: 3\n"))
    assert [one.verdict for one in found.lengths] == ["falls", "rises"]
    (pond,) = found.ponds
    assert (pond.deepest_at_m, pond.depth_m, pond.level_m) == pytest.approx((5.0, 0.05, 47.15))
    assert "RISES, -1.000 %" in told(found) and "WATER STANDS" in told(found)
    assert [low.station for low in found.low_points] == ["2 b"]


def test_a_fall_within_its_tolerance_cannot_be_told():
    doubtful = D_1.replace("47.150 ± 5 mm", "47.395 ± 5 mm")
    assert ask(doubtful).lengths[0].verdict == "cannot be told"


def test_who_takes_the_water_of_the_low_end_is_told():
    assert ask().low_points[0].drained == "it leaves by the outlet: flap"
    bare = ask(drain("1 a | 0 | 0 | 47.4 | 49 | staff", "2 b | 5 | 0 | 47.1 | 49 | staff",
                     fields="- carries: supply air\n- outlet: cowl\n"))  # fmt: skip
    assert bare.low_points[0].drained == "no drain there is recorded"


def test_what_is_not_recorded_is_told_station_by_station():
    found = ask(D_1.replace("47.150 ± 5 mm", "not recorded").replace("49.802", "not recorded"))
    assert found.not_recorded[:2] == ("station 1 wall: the ground", "station 2 bank: a level")
    assert found.lengths == () and found.low_points == ()


def test_cover_measured_since_is_told_beside_the_cover_of_day_one():
    later = [day("2033-05-01", "te", block("cover measured D-1", point="2", cover="0.120 m",
                                           how="rod"))]  # fmt: skip
    assert ask(later=later).stations[1].measured_since == ("0.120 m on 2033-05-01 (te-1)",)


def test_levels_that_two_tablets_wrote_apart_are_not_settled():
    again = (
        "## run D-1\n\n| station | invert [m] | how |\n|---|---|---|\n| 2 bank | 47.000 | staff |\n"
    )
    found = profile(
        view_of(site(D_1), day("2031-05-01", "ck", again), unseen={1: 0}), "D-1"
    )  # fmt: skip
    assert found.disagreements and "NOT SETTLED" in " ".join(profile_words(found))
    assert found.stations[1].invert_m is None


def test_the_picture_has_the_ground_on_top_and_stations_at_its_ends():
    lines = picture(ask(later=[day("2031-05-02", "ld", FROST)]))
    rows = [line.partition("|")[2] for line in lines if "|" in line]
    assert len(rows) == 16 and all(len(line) <= 100 for line in lines)
    assert rows[0].startswith("^")  # 49.802 is the highest of all
    pipe_rows = [number for number, row in enumerate(rows) if "O" in row]
    assert rows[pipe_rows[0]].index("O") == 0 and rows[pipe_rows[-1]].rindex("O") == 71
    assert pipe_rows == sorted(pipe_rows) and len(pipe_rows) == 2  # it falls
    assert sum(row.count("f") for row in rows) > 50
    left = [row.partition("O")[0] for row in rows]
    assert all("=" not in row[:1] for row in left)


def test_without_two_places_there_is_no_picture_and_no_fault():
    found = ask(
        drain("1 a | not recorded | 0 | 47.4 | 49 | staff", "2 b | 5 | 0 | 47.1 | 49 | staff")
    )
    assert picture(found) == []
    assert any("its place" in each for each in found.not_recorded)
    assert profile_words(ask("## run D-1\n\n- carries: spare\n"))


def test_what_a_reader_may_not_see_is_in_no_byte():
    later = [day("2033-05-01", "ow", "## run D-1\n\n- readers: owner\n- hazard: secret chamber\n"),
             day("2033-05-02", "ow", block("drain DL-7", serves="D-1", at_station="2",
                 discharges="secret chamber", readers="owner"))]  # fmt: skip
    found = ask(later=later, reader="technician")
    assert "secret" not in told(found) + str(json_form(found))
    assert "DL-7" in told(ask(later=later))


def test_what_is_no_run_is_refused():
    with pytest.raises(NotFound):
        ask(tag="D-9")
    with pytest.raises(CannotAnswer, match="is a landmark, not a run"):
        ask(D_1, block("landmark H1", what="corner", x="0.00 m", y="0.00 m"), tag="H1")
