"""One entry that says two plates hung the wrong way round, and all that follows from it.

The expected states are worked out in the docstrings from the story of the plates alone.
"""

from __future__ import annotations

import random
from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from record.entry import Entry
from record.fold import AsBuilt, as_meant, fold, known_at
from tests.record.records import Tablet

WED, THU, FRI, SAT, MON = (f"2022-05-{day}" for day in (18, 19, 20, 21, 23))


def swaps(tablet: Tablet, on: str = MON, since: str = THU, **more: object) -> Entry:
    """Say that DV-1 and DV-2 hung the wrong way round since ``since``."""
    hour = {"from_time": more.pop("hour")} if "hour" in more else {}
    body = {"with": "DV-2", "from": since, **hour, "found_by": "pour test", "why": "plates"}
    body["with"] = more.pop("other", "DV-2")
    return tablet.says("tags-swapped", str(more.pop("one", "DV-1")), body, on=on, **more)


def plan(tablet: Tablet, on: str = WED) -> None:
    tablet.says("valve", "DV-1", {"isolates": "drip leg"}, on=on)
    tablet.says("valve", "DV-2", {"isolates": "sump"}, on=on)


def words(entries: Sequence[Entry], tag: str, field: str) -> str:
    thing = fold(entries).thing(tag)
    return thing.words(field) if thing else "no such thing"


def told(built: AsBuilt) -> list[tuple[str, str]]:
    return sorted((h.about, h.words("state")) for h in built.happened("left as"))


def test_what_was_written_since_the_plates_were_hung_is_of_the_other_valve():
    """Plan of Wednesday: DV-1 is for the drip leg. On Friday serial 77 was read off the valve
    whose plate said DV-1; it is the valve the plan calls DV-2, so DV-2 has serial 77."""
    ld = Tablet("ld")
    plan(ld)
    ld.says("valve", "DV-1", {"serial": "77", "lot": "L-4"}, on=FRI)
    ld.says("left-as", "DV-1", {"state": "shut"}, on=FRI)
    ld.says("tested", "DV-2", {"test": "pour", "result": "passed"}, on=SAT)
    swaps(ld)
    built = fold(ld.chain)
    assert built.things["DV-2"].words("serial") == "77"
    assert built.things["DV-1"].words("serial") == "not recorded"
    assert built.things["DV-1"].words("isolates") == "drip leg"
    assert told(built) == [("DV-2", "shut")]
    assert [h.about for h in built.happened("tested")] == ["DV-1"]


def test_photos_coverings_recalls_and_waivers_follow():
    ld = Tablet("ld")
    plan(ld)
    ld.says("photographed", "AU-1", {"shows": ["AU-1", "DV-1"], "caption": "DV-1 shut"}, on=FRI)
    ld.says("covering", "FOAM", {"hides": ["DV-1", "D-1"]}, on=FRI)
    ld.says("delivered", "fern-bank", {"what": "valves", "used_for": ["DV-2"]}, on=FRI)
    ld.says("hold-waived", "FOAM", {"tags": ["DV-1"], "rule": "r"}, on=FRI)
    ld.says("batch", "B-1", {"used_on": ["DV-1", "DV-2"]}, on=FRI)
    swaps(ld)
    built = fold(ld.chain)
    (photo,) = built.happened("photographed")
    assert photo.tags("shows") == ("AU-1", "DV-2")
    assert photo.words("caption") == "DV-1 shut"  # words are told, never rewritten
    assert built.things["FOAM"].tags("hides") == ("DV-2", "D-1")
    assert next(built.happened("delivered")).tags("used_for") == ("DV-1",)
    assert next(built.happened("hold waived")).tags("tags") == ("DV-2",)


def test_parts_of_a_swapped_thing_go_with_it():
    ld = Tablet("ld")
    ld.says("station", "DV-1/2", {"station": "2 bend"}, on=FRI)
    swaps(ld)
    assert fold(ld.chain).entries[0].content.about == "DV-2/2"


def test_no_line_number_or_hash_changes():
    ld = Tablet("ld")
    plan(ld)
    ld.says("left-as", "DV-1", {"state": "shut"}, on=FRI)
    swaps(ld)
    for before, after in zip(ld.chain, as_meant(ld.chain).entries, strict=True):
        assert (before.link_line, before.content_line) == (after.link_line, after.content_line)
        assert (before.hash, before.number) == (after.hash, after.number)
    assert fold(ld.chain).entries[2].swapped.written.about == "DV-1"


def test_reading_twice_is_reading_once():
    ld = Tablet("ld")
    plan(ld)
    ld.says("left-as", "DV-1", {"state": "shut"}, on=FRI)
    swaps(ld)
    once = fold(ld.chain)
    assert fold(once.entries) == once


def test_before_the_swap_was_written_the_old_names_were_known():
    """Which valve drains the drip leg? Known on Saturday: the one left shut as DV-1."""
    ld = Tablet("ld")
    plan(ld)
    last = ld.says("left-as", "DV-1", {"state": "shut"}, on=FRI)
    swaps(ld)
    assert told(fold(known_at(ld.chain, last.link.recorded))) == [("DV-1", "shut")]
    assert told(fold(ld.chain)) == [("DV-2", "shut")]


def test_as_of_a_day_before_it_was_found_the_swap_holds_as_known_now():
    ld = Tablet("ld")
    ld.says("left-as", "DV-1", {"state": "shut"}, on=FRI)
    swaps(ld)
    assert told(fold(ld.chain, as_of=SAT)) == [("DV-2", "shut")]


def test_what_had_seen_the_swap_is_right_as_written_whatever_its_day():
    """On Monday evening the lead books what was done on Friday, knowing of the swap."""
    ld = Tablet("ld")
    swaps(ld)
    ld.says("left-as", "DV-1", {"state": "open"}, on=FRI)
    assert told(fold(ld.chain)) == [("DV-1", "open")]


@pytest.mark.parametrize(
    ("on", "read_as"), [(WED, "DV-1"), (THU, "DV-2"), (SAT, "DV-2"), ("2022-05-24", "DV-1")]
)
def test_a_tablet_without_signal_is_read_by_its_day_in_the_field(on: str, read_as: str):
    """It read the plates as they hung: wrong from Thursday until they were changed on Monday."""
    ld, ck = Tablet("ld"), Tablet("ck")
    swaps(ld)
    ck.says("left-as", "DV-1", {"state": "shut"}, on=on)
    assert told(fold([*ld.chain, *ck.chain])) == [(read_as, "shut")]


@pytest.mark.parametrize(
    ("on", "at", "read_as", "unsettled"),
    [
        (THU, "13:59", "DV-1", False),
        (THU, "14:00", "DV-2", False),
        (THU, None, "DV-1", True),
        (MON, "09:59", "DV-2", False),
        (MON, "10:00", "DV-1", False),
        (MON, None, "DV-1", True),
    ],
)
def test_the_hours_of_both_boundary_days_count_and_a_missing_one_is_told(
    on: str, at: str | None, read_as: str, unsettled: bool
):
    """Hung at 14:00 on Thursday, changed at 10:00 on Monday; the tablet had no signal."""
    ld, ck = Tablet("ld"), Tablet("ck")
    swaps(ld, hour="14:00", at="10:00")
    ck.says("left-as", "DV-1", {"state": "shut"}, on=on, at=at)
    built = fold([*ld.chain, *ck.chain])
    assert told(built) == [(read_as, "shut")]
    assert bool(built.unread) is unsettled
    # It may be of either, so it is told of both.
    assert {u.entry.content.about for u in built.unread} == (
        {"DV-1", "DV-2"} if unsettled else set()
    )
    assert all("order not known" in u.why for u in built.unread)


def test_on_the_boundary_day_what_the_swap_had_seen_is_exchanged_and_marked():
    ld = Tablet("ld")
    ld.says("left-as", "DV-1", {"state": "shut"}, on=THU)
    swaps(ld, hour="14:00")
    built = fold(ld.chain)
    assert told(built) == [("DV-2", "shut")] and not built.unread
    assert built.entries[0].swapped.doubt


def test_a_mend_is_read_like_what_it_mends():
    """Wednesday's plan was mended on Friday: it was of DV-1 then, and stays of DV-1. Friday's
    serial was mended on Saturday: both are of DV-2."""
    ld = Tablet("ld")
    first = ld.says("valve", "DV-1", {"isolates": "sump"}, on=WED)
    serial = ld.says("valve", "DV-1", {"serial": "77"}, on=FRI)
    ld.says("valve", "DV-1", {"isolates": "drip leg"}, on=FRI, mends=[first])
    ld.says("valve", "DV-1", {"serial": "71"}, on=SAT, mends=[serial])
    swaps(ld)
    assert words(ld.chain, "DV-1", "isolates") == "drip leg"
    assert words(ld.chain, "DV-2", "serial") == "71"


def test_a_mend_that_knew_of_the_swap_uses_the_right_name():
    ld = Tablet("ld")
    serial = ld.says("valve", "DV-1", {"serial": "77"}, on=FRI)
    swaps(ld)
    ld.says("valve", "DV-2", {"serial": "71"}, on=MON, mends=[serial])
    assert words(ld.chain, "DV-2", "serial") == "71"
    assert fold(ld.chain).thing("DV-1") is None


def test_withdrawing_the_swap_brings_everything_back_and_withdrawing_that_the_swap():
    ld = Tablet("ld")
    plan(ld)
    ld.says("valve", "DV-1", {"serial": "77"}, on=FRI)
    ld.says("left-as", "DV-1", {"state": "shut"}, on=FRI)
    before = fold(ld.chain)
    swap = swaps(ld)
    swapped = fold(ld.chain)
    back = ld.withdraws(swap)
    after = fold(ld.chain)
    assert (after.things, after.happenings) == (before.things, before.happenings)
    ld.withdraws(back)
    assert (fold(ld.chain).things, told(fold(ld.chain))) == (swapped.things, told(swapped))


def test_a_mended_moment_moves_what_is_exchanged():
    """First it was said to be wrong since Thursday; it was since Saturday."""
    ld = Tablet("ld")
    ld.says("left-as", "DV-1", {"state": "shut"}, on=FRI)
    swap = swaps(ld)
    ld.says("tags-swapped", "DV-1", {"from": SAT}, on=MON, mends=[swap])
    assert told(fold(ld.chain)) == [("DV-1", "shut")]


def test_a_swap_that_two_mended_differently_is_not_carried_out_and_is_told():
    ld, ck = Tablet("ld"), Tablet("ck")
    ld.says("left-as", "DV-1", {"state": "shut"}, on=FRI)
    swap = swaps(ld)
    ck.meets(ld)
    ld.says("tags-swapped", "DV-1", {"from": SAT}, on=MON, mends=[swap])
    ck.says("tags-swapped", "DV-1", {"from": FRI}, on=MON, mends=[swap])
    built = fold([*ld.chain, *ck.chain])
    assert told(built) == [("DV-1", "shut")]
    assert [u.entry for u in built.unread] == [swap]


def test_swapping_twice_returns():
    ld = Tablet("ld")
    plan(ld)
    ld.says("valve", "DV-1", {"serial": "77"}, on=FRI)
    before = fold(ld.chain)
    swaps(ld)
    swaps(ld, on="2022-05-24")
    after = fold(ld.chain)
    assert {t: x.words("serial") for t, x in after.things.items()} == {
        t: x.words("serial") for t, x in before.things.items()
    }


def test_two_who_found_it_without_signal_swap_once():
    """Both tablets say it on Monday, neither knowing of the other: the plates hung wrong once.
    What each wrote after saying it is right as written."""
    ld, ck = Tablet("ld"), Tablet("ck")
    ld.says("left-as", "DV-1", {"state": "shut"}, on=FRI)
    ck.meets(ld)
    swaps(ld)
    ld.says("left-as", "DV-1", {"state": "ld after"}, on=MON, at="11:00")
    swaps(ck, on="2022-05-24")
    ck.says("left-as", "DV-2", {"state": "ck after"}, on=MON, at="11:00")
    assert told(fold([*ld.chain, *ck.chain])) == [
        ("DV-1", "ld after"),
        ("DV-2", "ck after"),
        ("DV-2", "shut"),
    ]


def test_three_plates_in_a_ring_take_two_swaps_in_the_order_of_who_saw_whom():
    """Plates 1, 2, 3: first 1 and 2 are exchanged, then 2 and 3. What was written of DV-1 is of
    DV-2, and then of DV-3; what was written of DV-3 is of DV-2; of DV-2, of DV-1."""
    ld = Tablet("ld")
    for n in (1, 2, 3):
        ld.says("left-as", f"DV-{n}", {"state": f"plate {n}"}, on=FRI)
    swaps(ld)
    swaps(ld, one="DV-2", other="DV-3", on="2022-05-24")
    assert told(fold(ld.chain)) == [("DV-1", "plate 2"), ("DV-2", "plate 3"), ("DV-3", "plate 1")]


def test_where_the_plates_were_changed_at_no_known_hour_that_day_does_not_tell():
    """The tablet read a plate at 09:00 on Monday; the plates were changed some time on Monday."""
    ld, ck = Tablet("ld"), Tablet("ck")
    swaps(ld)
    ck.says("left-as", "DV-1", {"state": "shut"}, on=MON, at="09:00")
    built = fold([*ld.chain, *ck.chain])
    assert told(built) == [("DV-1", "shut")]
    assert {u.entry.content.about for u in built.unread} == {"DV-1", "DV-2"}


def test_a_plate_read_before_they_were_hung_was_right_even_on_the_day_they_were_changed():
    """Hung at 14:00 on Monday and changed that day, no hour told; read at 09:00."""
    ld, ck = Tablet("ld"), Tablet("ck")
    swaps(ld, since=MON, hour="14:00")
    ck.says("left-as", "DV-1", {"state": "shut"}, on=MON, at="09:00")
    built = fold([*ld.chain, *ck.chain])
    assert told(built) == [("DV-1", "shut")] and not built.unread


def test_a_mend_of_a_swap_that_is_not_here_swaps_nothing():
    ld, ck = Tablet("ld"), Tablet("ck")
    swap = swaps(ld)
    ck.says("left-as", "DV-1", {"state": "shut"}, on=FRI)
    ck.meets(ld)
    body = {"with": "DV-2", "from": WED}
    stray = ck.says("tags-swapped", "DV-1", body, on=MON, mends=[swap])
    built = fold(ck.chain)
    assert told(built) == [("DV-1", "shut")]
    assert [u.entry for u in built.unread] == [stray]


def test_a_withheld_swap_swaps_nothing():
    ld = Tablet("ld")
    ld.says("left-as", "DV-1", {"state": "shut"}, on=FRI)
    swap = swaps(ld)
    hidden = replace(swap, content=None, content_line=None)
    assert told(fold([ld.chain[0], hidden])) == [("DV-1", "shut")]


# What holds of any history -------------------------------------------------------------------


class World:
    """Valves with plates, two tablets, and what is really true: worked out beside the fold.

    The truth is kept by what hangs on which valve, never by the rule of the fold: a writer reads
    the plate, the plate is wrong in [hung, changed), and the truth is of the valve.
    """

    def __init__(self, chance: random.Random) -> None:
        self.chance, self.truth = chance, []
        self.ld, self.ck = Tablet("ld"), Tablet("ck")

    def run(self, hours: int = 40, hung: int = 8, changed: int = 30) -> tuple[list[Entry], list]:
        knows = {"ld": False, "ck": False}
        for hour in range(hours):
            if hour == changed:
                swaps(
                    self.ld, on=_day(changed), at=_hour(changed), since=_day(hung), hour=_hour(hung)
                )
                knows["ld"] = True
            for tablet, other in ((self.ld, self.ck), (self.ck, self.ld)):
                if self.chance.random() < 0.15:
                    tablet.meets(other)
                    knows[tablet.writer] = knows[tablet.writer] or knows[other.writer]
                valve, plate = self.chance.choice(((1, 2), (2, 1), (3, 3)))
                wrong = hung <= hour < changed
                said = plate if wrong and not knows[tablet.writer] else valve
                state = f"{tablet.writer} {hour}"
                tablet.says(
                    "left-as", f"DV-{said}", {"state": state}, on=_day(hour), at=_hour(hour)
                )
                self.truth.append((f"DV-{valve}", state))
        return [*self.ld.chain, *self.ck.chain], sorted(self.truth)


def _day(hour: int) -> str:
    return f"2022-05-{18 + hour // 10}"


def _hour(hour: int) -> str:
    return f"{8 + hour % 10:02d}:00"


@settings(max_examples=150, deadline=None)
@given(st.randoms(use_true_random=False))
def test_whoever_had_signal_every_state_ends_at_the_valve_it_was_seen_on(chance: random.Random):
    entries, truth = World(chance).run()
    chance.shuffle(entries)
    assert told(fold(entries)) == truth


@settings(max_examples=60, deadline=None)
@given(st.randoms(use_true_random=False))
def test_the_order_in_which_entries_arrive_changes_nothing(chance: random.Random):
    entries, _ = World(chance).run(hours=34)
    mixed = [*entries, *chance.sample(entries, 5)]
    chance.shuffle(mixed)
    assert fold(mixed) == fold(entries)


@settings(max_examples=60, deadline=None)
@given(st.randoms(use_true_random=False))
def test_a_swap_and_its_withdrawal_leave_the_state_before(chance: random.Random):
    world = World(chance)
    entries, _ = world.run(hours=28)
    before = fold(entries)
    world.ck.meets(world.ld)
    swap = swaps(world.ck)
    world.ck.withdraws(swap)
    after = fold([*world.ld.chain, *world.ck.chain])
    assert (after.things, after.happenings) == (before.things, before.happenings)


@settings(max_examples=60, deadline=None)
@given(st.randoms(use_true_random=False), st.booleans())
def test_a_swap_and_what_is_of_other_things_may_stand_in_either_order(
    chance: random.Random, first: bool
):
    def after(swap_first: bool, seed: int) -> list[tuple[str, str]]:
        world = World(random.Random(seed))
        world.run(hours=28)
        steps = [
            lambda: swaps(world.ld),
            lambda: world.ld.says("left-as", "DV-3", {"state": "last"}, on=FRI),
        ]
        for step in steps if swap_first else reversed(steps):
            step()
        return told(fold([*world.ld.chain, *world.ck.chain]))

    seed = chance.randrange(10**6)
    assert after(first, seed) == after(not first, seed)
