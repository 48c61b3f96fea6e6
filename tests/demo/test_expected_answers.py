"""The answers written down beside the demo's plan, asked of its record by the command line."""

import json

from record.log import Log


def lists(told: str) -> dict[str, str]:
    """Return in which list of a recall each record stands, but for what is ruled out."""
    said = json.loads(told)
    return {
        piece["site"]: name.replace("_", " ")
        for name in ("has_it", "replaced", "not_recorded")
        for piece in said[name]
    }


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


def test_two_tablets_mended_the_bend_without_knowing_of_each_other(ask, built) -> None:
    """2022-05-18 evening, each on a copy: not settled until the 19th, when one entry names both."""
    told = ask("ready", "FILL-TR", "--as-known-at", "2022-05-18T20:50", status=1)
    assert "level is told in two ways: ck-18" in " ".join(told.split())
    with Log.open(built / "larch-end") as log:
        mends = {e.number: e for e in log.entries() if e.number in ("ck-18", "ld-101")}
    ck, ld = mends["ck-18"], mends["ld-101"]
    assert ck.hash not in ld.content.seen.values() and ld.hash not in ck.content.seen.values()
    assert ck.content.seen["ld"] == ld.link.prev


def test_after_they_met_the_tablet_holds_nothing_new(ask, built) -> None:
    assert "Nothing new" in ask("merge", str(built / "tablets" / "ck"), "--dry-run")
    assert "match their seals" in ask("verify", record="tablets/ck")


def test_below_the_bend_lies_the_air_pipe_at_1_644_m(ask) -> None:
    """2022-05-24 below (24.00, 6.00): crown 47.906, ground 49.550, measured before cover."""
    told = " ".join(ask("beneath", "24.00", "6.00", "--as-of", "2022-05-24").split())
    assert "AIR-IN" in told and "crown at level 47.906 m" in told
    assert "its crown 1.644 m" in told and "written: before cover" in told


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


def test_what_rested_on_the_lost_well_head(ask) -> None:
    """After 2023-10-19: bend and outfall; the bend re-tied to K1, the outfall on H2 and G1 only."""
    told = " ".join(ask("rests-on", "W1").split())
    assert "2 rest on it" in told
    bend, outfall = told.split("AIR-IN/2: place")[1].split("D-1/2: place")
    assert "K1" in bend and "H2 and G1 only, with no check" in outfall
    before = " ".join(ask("rests-on", "W1", "--as-of", "2023-10-18").split())
    assert "AIR-IN/2" in before and "K1" not in before


def test_nobody_is_sent_to_hook_a_tape_on_the_lost_well_head(ask) -> None:
    """K1 (28, 9) stands 5.000 from the bend (24, 6): 4² + 3² = 5²."""
    told = " ".join(ask("find", "AIR-IN/2").split())
    assert "W1: demolished" in told and "tape on W1" not in told
    assert "K1 (granite post, middle of the drilled mark on its top) is 5.000 m" in told


def test_pipe_kits_and_ball_valves_add_up(ask) -> None:
    """24.00 = 12.60 + 2.60 + 5.00 + 3.05 + 0.75; 12 kits = 9 + 3; 3 ball valves = 2 + 1."""
    accounts = {
        one["name"]: one for one in json.loads(ask("balance", "--json", status=1))["balance"]
    }
    assert [accounts[lot]["even"] for lot in ("IT-1", "IT-2", "IT-5")] == [True, True, True]
    assert len(accounts["IT-2"]["built_in"]) == 9


def test_the_groundwater_beside_day_one(ask) -> None:
    """45.95 on the first day; 45.96, 46.40 and 47.10 later: 0.010, 0.450 and 1.150 up."""
    told = ask("drift", "DP-1")
    assert "45.95 m" in told and "limit 47.95 m" in told
    for later in ("45.96 m, 0.010 m", "46.40 m, 0.450 m", "47.10 m, 1.150 m"):
        assert later in told


def test_the_fan_gave_less_year_by_year_until_its_blower_was_renewed(ask) -> None:
    """104 on day one. 94: 10 less, 10 / 104 = 9.6 %. 78: 26 less, 25.0 %. New mat, 97: 7 less,
    6.7 %. New blower, 102: 2 less, 1.9 %."""
    told = [line for line in ask("drift", "AU-1").splitlines() if "later" in line]
    for read, share in (("94", "9.6"), ("78", "25.0"), ("97", "6.7"), ("102", "1.9")):
        assert any(f": {read} m³/h" in one and f"{share} %" in one for one in told), read


def test_the_renewed_blower_keeps_the_tag_and_has_a_serial_of_its_own(ask) -> None:
    assert "BL-2503-118" in ask("show", "AU-1")
    before = ask("show", "AU-1", "--as-of", "2025-04-14")
    assert "BL-2503-118" not in before


def test_the_drain_valves_are_left_as_they_ought_to_be(ask) -> None:
    """2025-04-15: DV-1 shut, DV-2 open; so again on 2025-06-26, after D-1 was tried."""
    told = ask("left", "--as-of", "2025-05-16")
    assert "DV-1: left shut 2025-04-15" in told and "DV-2: left open 2025-04-15" in told
    told = ask("left")
    assert "DV-1: left shut 2025-06-26" in told and "DV-2: left open 2025-06-26" in told


def test_the_plug_is_on_until_the_last_afternoon(ask) -> None:
    assert "TP-1: plug on AIR-IN" in ask("left", "--as-of", "2022-05-23", status=1)
    assert "Nothing temporary is recorded as still on" in ask(
        "left", "--as-of", "2022-05-24", status=1
    )


def test_cover_fell_short_at_one_point_and_was_made_good(ask) -> None:
    """Design 1.200. 2024-05-21: 1.170, 30 mm short. 2024-06-12: 1.290, so 1.280 is the least."""
    short = " ".join(ask("figures", "cover", "--as-of", "2024-05-22").split())
    assert "the least point is 30 mm SHORT of the design cover" in short
    good = " ".join(ask("figures", "cover", "--as-of", "2024-06-13").split())
    assert "SHORT" not in good and "C3, 2024-06-12" in good


def test_the_flush_missed_in_autumn_2023_stays_in_sight_until_it_is_done(ask) -> None:
    """Done 2022-10-25, due a year on. To 2023-12-01 it is 6 + 30 + 1 = 37 days, to 2024-11-11 it
    is 366 (a leap year) + 17 = 383."""
    for day, late in (("2023-12-01", "37 days overdue"), ("2024-11-11", "383 days overdue")):
        told = " ".join(ask("due", "--as-of", day).split())
        of_drain = told.split("2023-10-25 D-1")[1].split("]")[0]
        assert late in of_drain, day
    assert "2023-10-25 D-1" not in " ".join(ask("due", "--as-of", "2024-11-12").split())


def test_a_sag_seen_by_camera_moves_no_station(ask) -> None:
    """2024-11-20: no levels were taken, so the stations of 2022 stand."""
    assert "sag observed" in ask("history", "AIR-IN")
    for station, level in (("1", "47.850 m"), ("2", "crown 47.906 m"), ("3", "47.598 m")):
        assert level in ask("show", f"AIR-IN/{station}")


def test_of_the_lot_called_back_one_is_replaced_and_one_is_suspect(ask) -> None:
    """Before 2023-10-03 larch-end has it; alder-bank had replaced it, rowan-yard wrote no lot."""
    asked = ("recall", "V-0417", "--json")
    before = lists(ask(*asked, "--as-of", "2023-09-30", record=".", status=1))
    after = lists(ask(*asked, record=".", status=1))
    rest = {"alder-bank": "replaced", "rowan-yard": "not recorded"}
    assert before == {"larch-end": "has it", **rest}
    assert after == {"larch-end": "replaced", **rest}


def test_what_was_poured_in_and_did_not_come_out_is_told(ask) -> None:
    told = ask("drift", "AIR-IN")
    assert "5.0 L in, 4.8 L out" in told and "5.0 L in, 3.6 L out" in told


def test_a_joiners_pass_is_closed_by_its_return_photo(ask) -> None:
    """Four holes of 18 mm in a board that was open, where 20 mm was allowed; nothing is void."""
    passes = {one["tag"]: one for one in json.loads(ask("passes", "--json"))["passes"]}
    back = passes["WP-1"]
    assert (back["state"], back["closed"], back["voids"]) == ("back", True, [])
    fields = json.loads(ask("show", "WP-1", "--json"))["fields"]
    assert "A-L8" in fields["open"]["words"] and "A-L3" in fields["reserved"]["words"]
    assert "stands" in ask("proofs", "A", "--as-of", "2025-06-12").split("air tightness")[1]


def test_a_fencers_broken_pass_voids_the_test_of_the_drain_until_water_runs_out_again(ask) -> None:
    """Void from 2025-06-24 to the 26th; closed only then, with the test passed and a picture."""
    broken = ask("passes", "--as-of", "2025-06-25", status=1)
    assert "GP-1: BROKEN, NOT CLOSED" in broken
    assert "VOID since then: D-1: water runs out (ld-88)" in broken and "it is not back" in broken
    assert "VOID since 2025-06-24" in ask("proofs", "D-1", "--as-of", "2025-06-25", status=1)
    assert "GP-1: BROKEN, CLOSED" in ask("passes")
    assert "stands again: 5 L in at the hull" in ask("proofs", "D-1")


def test_before_digging_one_is_told_whom_to_ring(ask) -> None:
    assert "Ring 555-0188" in " ".join(ask("beneath", "24.00", "6.00").split())


def test_who_has_the_house_now_is_the_owners_alone_to_know(ask) -> None:
    assert "nw, who bought the house" in ask("history", "larch-end")
    assert "nw, who bought" not in ask("history", "larch-end", "--reader", "technician")


def test_the_record_is_whole_and_both_signed(ask) -> None:
    """Three days, each by ld and by ck, who signs ld's chain with their own."""
    told = ask("verify")
    assert "match their seals" in told
    assert [told.count(f"signed off by {who}: good") for who in ("ld", "ck")] == [3, 3]
