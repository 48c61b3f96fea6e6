"""Hazards of a panel: what is not recorded counts as the worse case."""

import pytest

from record.answers import behind
from tests.record.answers.shelter import block, fit_out, panel, run, shelter

ENDS = [("1", "102.60", "201.00", "51.20", "20 mm"), ("2", "102.60", "200.00", "51.10", "20 mm")]


def told(*blocks, tag="P-1"):
    return [(h.signal, h.words) for h in behind(shelter(*blocks), tag).hazards]


def has(found, signal, words):
    return any(one == signal and words in said for one, said in found)


def test_the_steel_shell_is_always_the_engineers():
    assert has(told(panel()), "WARNING", "without the engineer of record")


@pytest.mark.parametrize(
    ("packing", "foam"),
    [("furring and foam", True), ("furring", False), ("not recorded", True), ("none", False)],
)
def test_foam_and_a_packing_nobody_wrote_down_forbid_hot_work(packing, foam):
    assert has(told(panel(packing=packing)), "WARNING", "No hot work") is foam


@pytest.mark.parametrize(
    ("fill", "danger"), [("dry sand", True), ("not recorded", True), ("none", False)]
)
def test_a_shaft_behind_the_face_buries_unless_it_is_written_to_be_empty(fill, danger):
    """The shaft has no place at all: its face alone is enough."""
    shaft = block("way out SH-1", hull="A", face="left", fill=fill, opens="not recorded")
    found = told(panel(), shaft)
    assert has(found, "DANGER", "runs and buries") is danger
    assert not has(told(panel("right"), shaft), "DANGER", "runs and buries")


def test_danger_stands_before_everything_else():
    shaft = block("way out SH-1", hull="A", face="left", fill="sand", opens="not recorded")
    assert told(panel(), shaft)[0][0] == "DANGER"


def test_a_zones_own_signal_word_is_kept():
    zone = block(
        "reserved zone R-1",
        hull="A",
        face="left",
        from_near="2.00 m",
        bottom="50.50 m",
        width="1.00 m",
        height="0.50 m",
        hazard="DANGER, do not open",
    )
    assert has(told(panel(), zone), "DANGER", "R-1: do not open")


@pytest.mark.parametrize(
    ("carries", "signal", "words"),
    [
        ("power", "WARNING", "licensed electrician"),
        ("not recorded", "WARNING", "Treat it as live and under pressure"),
        ("drinking water", "CAUTION", "under pressure"),
    ],
)
def test_a_run_is_as_dangerous_as_what_it_carries(carries, signal, words):
    assert has(told(panel(), run(stations=ENDS, carries=carries)), signal, words)


def test_a_conduit_is_live_a_timber_is_not():
    assert has(told(panel(), fit_out(what="conduit 25 mm")), "WARNING", "licensed electrician")
    assert not has(told(panel(), fit_out(what="timber stop")), "WARNING", "licensed electrician")


def test_the_crews_own_hazard_is_passed_on():
    pipe = run(stations=ENDS, hazard="hot when the pump runs")
    assert has(told(panel(), pipe), "WARNING", "W-1: hot when the pump runs")


def test_a_sealed_sleeve_and_a_coated_board_are_to_be_made_good():
    found = told(panel(coats="2"), fit_out(sealed="both ends, tar"))
    assert has(found, "NOTICE", "sealed: both ends, tar")
    assert has(found, "NOTICE", "coated, 2 coats")
    assert has(told(panel(coats="not recorded")), "NOTICE", "whether the board is coated")
    assert not has(told(panel(coats="none")), "NOTICE", "coated")


def test_a_void_may_be_a_confined_space():
    store = block(
        "store S-1",
        hull="A",
        from_near="2.30 m",
        from_left="0.00 m",
        bottom="50.60 m",
        along="0.30 m",
        across="0.05 m",
        height="0.30 m",
    )
    assert has(told(panel(), store), "WARNING", "permit-required confined space")
