"""A recall over several sites. Every expected list is read off the sheets by hand."""

from dataclasses import replace

import pytest

from record.recall import NotNarrowed, recall, site_of
from record.recall.values import names_in
from record.recall.words import recall_words
from tests.record.building import day, view_of

DAY = "2031-05-14"


def site(tag):
    return (
        f"## site {tag}\n\n- name: {tag} house\n- datum: bolt, 50.000 m\n- grid: x east, y north\n"
    )


def valve(tag, *said, type="overpressure"):
    lines = "\n".join(f"- {line}" for line in said)
    return f"## valve {tag}\n\n- type: {type}\n- on run: AIR-OUT\n{lines}\n"


RUN = "## run AIR-OUT\n\n- carries: exhaust air\n"


def built(tag, *blocks, more=(), **asked):
    """One site: its first day, then whatever sheets come after."""
    later = [day(on, "te", *said, site=tag) for on, *said in more]
    return site_of(view_of(day(DAY, "ld", site(tag), RUN, *blocks, site=tag), *later, **asked))


HAS = built("fern-bank", valve("OV-1", "lot: V-0291", "maker's part: OP 160"))
REPLACED = built(
    "gorse-hill",
    valve("OV-1", "lot: V-0291", "maker's part: OP 160"),
    more=[("2033-04-02", valve("OV-1", "lot: V-0777"))],
)
UNKNOWN = built("holly-lane", valve("OV-1", "lot: not recorded", "maker's part: OP 160"))
OTHER = built("iris-mead", valve("OV-1", "lot: V-0290", "maker's part: OP 160"))
BARE = built("juniper-row")
ALL = (HAS, REPLACED, UNKNOWN, OTHER, BARE)


def lists(answer):
    return {
        "has it": [f"{each.site} {each.tag}".strip() for each in answer.has_it],
        "replaced": [f"{each.site} {each.tag}".strip() for each in answer.replaced],
        "not recorded": [f"{each.site} {each.tag}".strip() for each in answer.not_recorded],
        "ruled out": [f"{each.site} {each.tag}".strip() for each in answer.ruled_out],
    }


def of(*sites, what="V-0291", **more):
    return lists(recall(sites, what, **more))


def test_every_valve_of_the_kind_is_in_one_of_four_lists():
    assert of(*ALL) == {
        "has it": ["fern-bank OV-1"],
        "replaced": ["gorse-hill OV-1"],
        "not recorded": ["holly-lane OV-1"],
        "ruled out": ["iris-mead OV-1"],
    }
    assert recall(ALL, "V-0291").none_on_record == ("juniper-row",)


def test_what_was_replaced_tells_since_when_and_by_which_entries():
    (one,) = recall(ALL, "V-0291").replaced
    assert one.why == "had V-0291 (ld-3) until 2033-04-02, then V-0777"
    assert one.entries == ("ld-3", "te-1")


def test_a_lot_that_was_a_slip_was_never_there():
    """ld-3 said V-0291, te-1 says that was misread: the valve is ruled out, not replaced."""
    put_right = "## valve OV-1\n\n- mends: ld-3\n- because: I read the box beside it\n- lot: V-0290"
    one = built("kale-yard", valve("OV-1", "lot: V-0291"), more=[("2031-05-15", put_right)])
    assert of(HAS, one)["ruled out"] == ["kale-yard OV-1"]


def test_two_statements_that_differ_rule_nothing_out():
    first = day(DAY, "ld", site("larch-end"), RUN, valve("OV-1", "lot: V-0290"), site="larch-end")
    other = day(DAY, "ck", valve("OV-1", "lot: V-0291"), site="larch-end")
    one = site_of(view_of(first, other, unseen={1: 0}))
    assert of(HAS, one)["not recorded"] == ["larch-end OV-1"]


@pytest.mark.parametrize("said", ["none", "not recorded", "n/a, no plate on it"])
def test_no_absence_of_a_lot_rules_a_valve_out(said):
    one = built("moss-side", valve("OV-1", f"lot: {said}"))
    assert of(HAS, one)["not recorded"] == ["moss-side OV-1"]


def test_another_make_or_another_type_of_valve_is_ruled_out():
    make = built("nettle-end", valve("OV-1", "lot: not recorded", "maker's part: Q 9"))
    type_ = built("oak-top", valve("CV-1", "lot: not recorded", type="check"))
    assert of(HAS, make, type_)["ruled out"] == ["nettle-end OV-1", "oak-top CV-1"]


def test_a_makers_part_is_asked_of_all_its_lots():
    """Of the part every valve is called back, whatever its lot; a valve of no known part may be."""
    blank = built("pine-edge", valve("OV-1", "lot: V-0111"))
    assert of(*ALL, blank, what="op 160") == {
        "has it": ["fern-bank OV-1", "gorse-hill OV-1", "holly-lane OV-1", "iris-mead OV-1"],
        "replaced": [],
        "not recorded": ["pine-edge OV-1"],
        "ruled out": [],
    }


def test_a_valve_taken_out_with_nothing_said_since_is_not_ruled_out():
    out = "## opened up OV-1\n\n- what: taken out\n- why: sticking\n"
    one = built("quince-ct", valve("OV-1", "lot: V-0291"), more=[("2033-04-02", out)])
    assert of(one)["not recorded"] == ["quince-ct OV-1"]


def test_a_pipe_that_was_taken_out_has_it_no_more_and_one_left_in_the_ground_has():
    def pipe(state):
        return f"## run W-1\n\n- carries: drinking water\n- lot: P-9\n- state: {state}\n"

    out, left = built("thyme-hill", pipe("taken out")), built("umber", pipe("left in the ground"))
    assert of(out, left, what="P-9") == {
        "has it": ["umber W-1"],
        "replaced": ["thyme-hill W-1"],
        "not recorded": ["thyme-hill AIR-OUT", "umber AIR-OUT"],
        "ruled out": [],
    }


def test_grinding_put_nothing_on_that_could_be_called_back():
    """A filling needs its lot; "n/a" with a reason says there was none."""
    ground = """## coat applied OV-1

| layer | coat | started | lot |
|---|---|---|---|
| prepare | 1 | 08:00 | n/a, grinder |
| tar | 1 | 09:00 | T-4 |
| tar | 2 | 11:00 | not recorded |
"""
    one = built("xeric", valve("OV-1", "lot: V-1"), ground)
    answer = recall((one,), "T-4")
    said = {each.words.split(",")[0]: each.why for each in answer.ruled_out}
    assert said == {"coat applied: prepare 1": "lot n/a, grinder"}
    assert [each.words.split(",")[0] for each in answer.not_recorded] == ["coat applied: tar 2"]


def test_a_filter_changed_again_has_the_lot_no_more():
    def changed(lot):
        return f"## serviced AU-1\n\n- task: filter-change\n- lots: {lot}\n"

    unit = "## equipment AU-1\n\n- type: air unit\n"
    once = built("violet", unit, more=[("2032-05-01", changed("F-1"))])
    again = built(
        "woad", unit, more=[("2032-05-01", changed("F-1")), ("2033-05-01", changed("F-2"))]
    )
    assert of(once, again, what="F-1") == {
        "has it": ["violet AU-1"],
        "replaced": ["woad AU-1"],
        "not recorded": [],
        "ruled out": ["woad AU-1"],
    }


def test_a_lot_that_came_and_of_which_nobody_wrote_where_it_went_is_not_ruled_out():
    came = "## delivered\n\n- what: overpressure valves\n- amount: 2\n- lot: V-0291\n"
    one = built("rowan-way", valve("OV-1", "lot: V-0300"), came)
    answer = recall((HAS, one), "V-0291")
    (loose,) = answer.not_recorded
    assert (loose.site, loose.tag) == ("rowan-way", "")
    assert "nothing recorded says where it went" in loose.why


def test_what_a_lot_was_delivered_for_is_not_ruled_out_while_another_piece_has_it():
    """Of OV-1 the lot was written, of OV-3 another, of OV-2 none: each is told once, by that. Of
    W-9 nothing tells but the delivery, and of SM-1 but that something else was used there too."""
    came = (
        "## delivered\n\n- what: overpressure valves\n- amount: 3\n- lot: V-0291\n"
        "- used for: OV-1, OV-2, OV-3, W-9, SM-1\n"
    )
    valves = (valve("OV-1", "lot: V-0291"), valve("OV-2", "lot: not recorded"))
    more = (
        "## run W-9\n\n- carries: drinking water\n",
        "## seam SM-1\n\n- joins: two sheets\n",
        "## used SM-1\n\n- what: grease\n- amount: 1\n- lot: G-1\n",
        "## used OV-1\n\n- what: overpressure valve\n- amount: 1\n- lot: V-0291\n",
    )
    one = built("rowan-way", *valves, valve("OV-3", "lot: V-0300"), *more, came)
    answer = recall((one,), "V-0291")
    assert lists(answer)["has it"] == ["rowan-way OV-1", "rowan-way OV-1"]
    assert lists(answer)["ruled out"] == ["rowan-way SM-1", "rowan-way OV-3"]
    assert lists(answer)["not recorded"] == [f"rowan-way {tag}" for tag in ("OV-2", "W-9", "SM-1")]
    for each in answer.not_recorded[1:]:
        assert "nothing recorded says whether it went in here" in each.why
    (at,) = answer.sites
    (told,) = at.came
    assert told.startswith("delivered 2031-05-14: overpressure valves, 3, for OV-1, OV-2, OV-3")
    assert told in " ".join(" ".join(recall_words(answer)).split())


def test_a_recall_of_nothing_is_refused_in_words():
    with pytest.raises(NotNarrowed, match="write which lot"):
        recall((HAS,), " ")


def test_a_lot_with_an_entry_of_its_own_is_found_by_its_number_and_by_its_tag():
    lot = "## lot L-7\n\n- number: V-0291\n- product: valve\n- maker's part: OP 160\n"
    one = built("sedge-fen", lot, valve("OV-1", "lot: L-7"))
    for what in ("V-0291", "L-7", "OP 160"):
        assert of(one, what=what)["has it"] == ["sedge-fen OV-1"], what


def test_a_coat_mixed_of_a_lot_has_it_by_its_batch():
    batch = (
        "## batch B-1\n\n- product: epoxy\n- lots: E-501, H-77\n- mixed: 08:00\n"
        "- air: 20 °C\n- workable time: 30 min\n"
    )
    mended = (
        "## repaired OV-1\n\n- what: chipped coat\n- how: two coats\n- repair of: none\n"
        "- batches: B-1\n- lots: none\n"
    )
    one = built("tansy-gate", valve("OV-1", "lot: V-1"), batch, mended)
    found = recall((one,), "E-501").has_it
    assert [(each.tag, each.words.partition(":")[0]) for each in found] == [("OV-1", "repaired")]


NOTICE = """## recall noticed

- notice: RN-7
- from: the maker
- what: overpressure valve
- lots: V-0291
- hazard: the flap can stay open
- to do: change it
"""
TOLD = "## recall told\n\n- notice: RN-7\n- told: ow\n- how: by letter\n"


def done(what):
    return f"## recall done OV-1\n\n- notice: RN-7\n- done: {what}\n"


@pytest.mark.parametrize(
    ("what", "which"),
    [
        ("replaced", "replaced"),
        ("taken out", "replaced"),
        ("repaired", "has it"),
        ("left as it is", "has it"),
        ("looked at, not of it", "ruled out"),
    ],
)
def test_what_was_done_decides_where_a_valve_stands(what, which):
    one = built("vetch-bank", valve("OV-1", "lot: V-0291"), NOTICE, TOLD, done(what))
    answer = recall((one,), "RN-7")
    assert lists(answer)[which] == ["vetch-bank OV-1"]
    assert all(at.open == 0 for at in answer.sites)


def test_who_was_told_is_told_and_who_is_not_is_said():
    one = built("willow-lea", valve("OV-1", "lot: V-0291"), NOTICE, TOLD)
    told = {at.site: at.told for at in recall((HAS, one), "V-0291").sites}
    assert told == {"fern-bank": (), "willow-lea": ("ow, by letter, 2031-05-14 (ld-5)",)}
    assert {at.open for at in recall((HAS, one), "V-0291").sites} == {1}


def edition(number):
    return f"""## edition issued

- edition: {number}
- supersedes: none
- reader: owner
- recorded to: 2031-05-14
- checkpoint: {"0" * 64}
- pdf: {"1" * 64}
- html: {"2" * 64}
- calendar: {"3" * 64}
"""


HANDED = """## copy handed over

- what: manual
- edition: 1
- reader: owner
- handed to: ow
"""


def copies(*more):
    one = built("yarrow", valve("OV-1", "lot: V-0291"), edition(1), HANDED, more=more)
    (at,) = recall((one,), "V-0291").sites
    return [copy.partition(" [")[0] for copy in at.copies]


def test_a_copy_issued_before_the_notice_needs_a_new_edition_and_one_after_it_does_not():
    """A copy knows what its edition had seen; the notice came in 2033, edition 2 in 2034."""
    old = "edition 1 (owner), held by: ow"
    assert copies() == [old]
    assert copies(("2033-01-01", NOTICE)) == [old]
    again = HANDED.replace("edition: 1", "edition: 2")
    assert copies(("2033-01-01", NOTICE), ("2034-01-01", edition(2), again)) == []


def test_a_lot_nobody_names_is_asked_back_for_what_it_is():
    with pytest.raises(NotNarrowed, match="--kind valve"):
        recall(ALL, "V-9999")
    assert of(*ALL, what="V-9999", kind="valve") == {
        "has it": [],
        "replaced": [],
        "not recorded": ["holly-lane OV-1"],
        "ruled out": ["fern-bank OV-1", "gorse-hill OV-1", "iris-mead OV-1"],
    }


def test_an_entry_that_cannot_be_read_rules_its_site_not_out():
    assert of(HAS, replace(OTHER, missing=3))["not recorded"] == ["iris-mead"]


def test_a_number_is_found_whole_and_never_as_a_piece_of_another():
    assert "e-501" in names_in("E-501, E-502") and "e-501" not in names_in("E-5011")
    one = built("zinnia", valve("OV-1", "lot: V-02911"))
    assert of(HAS, one)["ruled out"] == ["zinnia OV-1"]


def test_a_reader_is_told_nothing_of_what_they_may_not_see():
    """The store is the owner's alone: neither it nor a count of it reaches the technician."""
    store = """## store S-1

- name: larder

| item | what | lot | count |
|---|---|---|---|
| 1 | beans | V-0291 | 24 |
"""
    sheet = day(DAY, "ld", site("fern-bank"), RUN, valve("OV-1", "lot: V-0290"), store)
    owner, technician = (site_of(view_of(sheet, reader=who)) for who in ("owner", "technician"))
    assert of(owner)["has it"] == ["fern-bank S-1/1"]
    with pytest.raises(NotNarrowed):
        recall((technician,), "V-0291")
    assert of(HAS, technician)["not recorded"] == []


def test_the_words_name_each_list_even_an_empty_one():
    said = "\n".join(recall_words(recall((HAS, OTHER), "V-0291")))
    for line in ("HAS IT (1)", "REPLACED: none", "NOT RECORDED: it cannot be ruled out: none"):
        assert line in said
    assert "RULED OUT (1): iris-mead 1" in said and "nobody is recorded as told" in said
