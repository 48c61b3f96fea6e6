"""The answers written down beside the demo's plan, asked of its record by the command line."""

import json


def test_the_bend_as_first_written_falls_back(ask) -> None:
    """Known 2022-05-18 20:00: the crown was written as invert, 47.906: 56 mm up in 5.00 m."""
    told = ask("ready", "FILL-TR", "--as-known-at", "2022-05-18T20:00", status=1)
    assert "backfall of 56 mm (1.12 %)" in told


def test_the_bend_as_settled_falls_two_percent_with_both_mends_shown(ask) -> None:
    """Known 2022-05-20: crown 47.906, so invert 47.906 − 0.156 = 47.750: 100 mm in 5.00 m."""
    told = ask("show", "AIR-IN", "--as-known-at", "2022-05-20")
    assert "crown 47.906 m" in told and "not settled" not in told
    station = json.loads(ask("show", "AIR-IN/2", "--as-known-at", "2022-05-20", "--json"))
    assert "47.906" in json.dumps(station)
    assert round((47.850 - (47.906 - 0.156)) / 5.00, 6) == 0.02
    past = ask("history", "AIR-IN/2")
    assert past.count("mends") >= 2


def test_the_bend_lies_under_1_644_m_and_was_measured_before_it_was_covered(ask) -> None:
    """2022-05-24: crown 47.906, ground 49.550."""
    told = " ".join(ask("find", "AIR-IN/2", "--as-of", "2022-05-24").split())
    assert "1.644 m" in told and "before cover" in told and "14.142 m" in told


def test_a_technician_meets_the_boards_layers_and_a_reserved_zone(ask) -> None:
    """12 board, 90 furring and foam, 6 steel; no word of the box behind it."""
    told = ask("behind", "A-L3", "--reader", "technician")
    for word in ("12 mm", "90 mm", "6 mm", "RESERVED"):
        assert word in told
    assert "S-3" not in told


def test_tightness_is_void_from_the_hole_to_the_retest(ask) -> None:
    """Void since 2022-06-14 on the 15th; 22 m³/h on the 22nd."""
    void = ask("proofs", "A", "--as-of", "2022-06-15", status=1)
    assert "VOID since 2022-06-14" in void
    again = ask("proofs", "A", "--as-of", "2022-06-22")
    assert "stands again: 22 m³/h" in again


def test_what_rests_on_the_well_head(ask) -> None:
    """Bend and outfall; without it the outfall hangs on H2 and G1 only."""
    told = " ".join(ask("rests-on", "W1").split())
    assert "AIR-IN/2" in told and "D-1/2" in told and "H2 and G1 only" in told


def test_pipe_kits_and_ball_valves_add_up(ask) -> None:
    """24.00 = 12.60 + 2.60 + 5.00 + 3.05 + 0.75; 12 kits = 9 + 3; 3 ball valves = 2 + 1."""
    accounts = {one["name"]: one for one in json.loads(ask("balance", "--json", status=1))}
    assert [accounts[lot]["even"] for lot in ("P-14", "E-501", "V-0290")] == [True, True, True]
    assert len(accounts["E-501"]["built_in"]) == 9


def test_the_groundwater_beside_day_one(ask) -> None:
    """45.95 on the first day, 45.96 on the last: 10 mm."""
    told = ask("drift", "DP-1")
    assert "45.95 m" in told and '0.010 m (3/8") more than on day one' in told


def test_the_record_is_whole(ask) -> None:
    assert "match their seals" in ask("verify")
