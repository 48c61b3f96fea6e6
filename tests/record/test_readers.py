"""The one gate: what a reader may not see reaches no answer, and is not felt out by asking."""

import pytest

from record.place import face_frame
from record.readers import look
from tests.record.answers.shelter import SITE, block, fit_out, hull, panel, sheet
from tests.record.building import entries_of, view_of

STORE = {
    "name": "box",
    "hull": "A",
    "from_near": "2.40 m ± 10 mm",
    "from_left": "0.00 m",
    "bottom": "50.70 m ± 10 mm",
    "along": "0.40 m",
    "across": "0.09 m",
    "height": "0.40 m",
}


def store(**changed):
    return block("store S-1", **STORE | changed)


def zone(face="left", **changed):
    place = {"from_near": "2.00 m", "bottom": "50.50 m", "width": "1.20 m", "height": "1.00 m"}
    return block("reserved zone R-1", hull="A", face=face, hazard="ask", **place | changed)


def seen(*blocks, reader="technician"):
    return view_of(sheet(SITE, hull(), *blocks), reader=reader)


def reserved(view, tag="P-1", reach=1.0):
    return view.reserved(face_frame(view.built.things[tag], view.hulls["A"]), reach)


def test_a_withheld_store_outside_every_zone_reserves_the_whole_panel():
    view = seen(panel(), panel("right", "P-2"), store())
    assert "S-1" not in view.built.things
    assert reserved(view) and not reserved(view, "P-2")


def test_the_owner_is_told_and_has_nothing_reserved():
    view = seen(panel(), store(), reader="owner")
    assert "S-1" in view.built.things and not reserved(view)


def test_a_zone_that_covers_it_stands_for_it():
    assert not reserved(seen(panel(), store(), zone()))


@pytest.mark.parametrize(
    "changed",
    [
        {"width": "0.70 m"},  # ends at a 2.70; the store may reach 2.81
        {"height": "0.50 m"},  # ends at 51.00; the store may reach 51.11
        {"bottom": "50.75 m"},  # starts above the store
        {"face": "right"},
    ],
)
def test_a_zone_that_leaves_a_corner_of_it_out_does_not(changed):
    assert reserved(seen(panel(), store(), zone(**changed)))


def test_a_zone_on_one_face_does_not_hide_what_lies_behind_another():
    """A store in the corner, a 0.00 to 0.40, reaches behind the near wall too."""
    corner = store(from_near="0.00 m ± 10 mm")
    wide = zone(from_near="-0.50 m", width="1.50 m")
    near = panel("near", "P-2", from_left="0.00 m")
    view = seen(panel(from_near="0.00 m"), near, corner, wide)
    assert not reserved(view) and reserved(view, "P-2")


def test_a_zone_is_about_what_lies_near_its_face_and_not_far_behind_it():
    """From l −0.70 to −0.61: 0.61 to 0.70 past the plate, and a zone speaks of 0.50."""
    assert reserved(seen(panel(), store(from_left="-0.70 m"), zone()))


def test_a_zone_does_not_stand_for_what_was_placed_on_the_grid():
    """x 102.60 is a 2.60, y 200.00 is the left wall: within the zone as the two frames stand now,
    but the hull may be mended."""
    grid = {"hull": None, "x": "102.60 m", "y": "200.00 m", "from_near": None, "from_left": None}
    small = store(**grid, along="50 mm", across="50 mm", height="50 mm", bottom="50.90 m ± 1 mm")
    assert reserved(seen(panel(), small, zone()))


def test_a_withheld_thing_with_no_place_reserves_every_panel():
    view = seen(panel(), panel("right", "P-2"), block("store S-1", name="box"))
    assert reserved(view) and reserved(view, "P-2")


def test_a_withheld_hatch_is_hidden_and_reserves_its_face():
    hatch = block(
        "opening OP-4",
        readers="owner",
        hull="A",
        face="left",
        from_near="2.40 m",
        bottom="50.60 m",
        width="0.60 m",
        height="0.75 m",
    )
    assert reserved(seen(panel(), hatch))


def test_a_withheld_mend_of_a_hull_does_not_show_in_its_frame():
    first = sheet(SITE, hull(), panel(), fit_out())
    mend = sheet(
        block("hull A", readers="owner", mends="ld-2", because="taped", x="100.50 m"),
        date="2031-05-15",
    )
    entries = entries_of(first, mend)
    assert look(entries).hulls["A"].origin[0] == 100.5
    assert look(entries, "technician").hulls["A"].origin[0] == 100.0


def test_an_entry_nobody_could_read_is_counted_for_every_reader_of_its_tag():
    from msgspec.structs import replace

    from record.entry import seal

    entries = entries_of(sheet(SITE, hull(), panel()))
    last = entries[-1]
    new = replace(
        last.content, kind="sensor-fitted", about="P-1", readers=("owner",), body={"x": "1"}
    )
    strange = seal(
        new,
        site=last.link.site,
        writer="ld",
        seq=last.link.seq + 1,
        recorded=last.link.recorded,
        prev=last.hash,
        salt=bytes(16),
    )
    for reader in ("owner", "technician"):
        assert look((*entries, strange), reader).unread == {"P-1": 1}
    secret = seal(
        replace(new, about="S-9"),
        site=last.link.site,
        writer="ld",
        seq=last.link.seq + 1,
        recorded=last.link.recorded,
        prev=last.hash,
        salt=bytes(16),
    )
    assert look((*entries, secret), "technician").unread == {}


def test_a_reader_nobody_knows_is_refused():
    with pytest.raises(ValueError, match='"thief" is not a reader'):
        look((), "thief")


def stripped(entries, reader="technician"):
    """Return the entries as a reader's own copy holds them: every link, contents they may see."""
    from msgspec.structs import replace

    return tuple(
        entry if reader in entry.content.readers else replace(entry, content=None)
        for entry in entries
    )


@pytest.mark.parametrize("reader", ["technician", "owner"])
def test_a_copy_that_lacks_contents_rules_nothing_out_whoever_asks_it(reader):
    """In the whole record P-2 is free; from the copy nobody can know that."""
    whole = entries_of(sheet(SITE, hull(), panel(), panel("right", "P-2"), store()))
    assert not reserved(look(whole, "technician"), "P-2")
    copy = look(stripped(whole), reader)
    assert copy.lacking == copy.withheld == 2  # the store, and whose sheet it was
    assert reserved(copy) and reserved(copy, "P-2")
    assert copy.reserved_below((500.0, 500.0), 1.0)


def test_a_copy_rules_nothing_out_for_one_who_may_see_still_less():
    """A hatch hidden from trade alone is far from P-2; the store that the copy lacks may not be."""
    where = {"from_near": "2.40 m", "bottom": "50.60 m", "width": "0.60 m", "height": "0.75 m"}
    hatch = block("opening OP-4", readers="owner, technician", hull="A", face="left", **where)
    whole = entries_of(sheet(SITE, hull(), panel(), panel("right", "P-2"), store(), hatch))
    assert not reserved(look(whole, "trade"), "P-2")
    copy = look(stripped(whole), "trade")
    assert copy.withheld > copy.lacking == 2 and reserved(copy, "P-2")


def test_an_answer_from_a_copy_that_lacks_contents_says_so():
    from record.answers.behind_panel import behind
    from record.answers.saying import FURTHER, LACKING, WHOLE

    whole = entries_of(sheet(SITE, hull(), panel(), store()))
    said = [
        behind(look(entries, reader), "P-1").further_entries
        for entries in (whole, stripped(whole))
        for reader in ("owner", "technician")
    ]
    assert said == [WHOLE, FURTHER, LACKING, LACKING]


def test_an_owner_who_folds_a_copy_is_told_the_same():
    from record.fold import fold
    from record.readers import look_at

    copy = stripped(entries_of(sheet(SITE, hull(), panel(), store())))
    assert look_at(fold(copy)).lacking == 2 and reserved(look_at(fold(copy)))
