"""Hand-over: the whole record, what is open in it, and who signs."""

import json

from record.evening import handover, handover_form, handover_words
from tests.record.building import day, view_of
from tests.record.checks.ground import COVERED, GOES_ON, SITE, TRENCH, changed
from tests.record.checks.shaft import SHAFT
from tests.record.checks.test_cover_as_designed import POINTS

COVER = POINTS[: POINTS.index("## covering")]
SAID = (
    COVER
    + """
## site fern-bank

- emergency number: 112
- address for responders: 4 Fern Lane, by the oak
- people: 4
- builder contact: the yard, office hours

## benchmark BM-1

- what: bolt
- level: 100 m

## left as CV-1

- state: free
"""
)
WORKED_ON = "\n## serviced CV-1\n\n- task: check-valve-test\n"
LEFT = "\n## left as CV-1\n\n- state: free\n"


def at_hand_over(*blocks, on="2031-06-01", **how):
    view = view_of(day("2031-05-13", "ld", SITE), day("2031-05-14", "ck", *blocks), **how)
    return handover(view, on)


WHOLE = (TRENCH, COVERED, SAID, SHAFT)


def said(seen):
    return "\n".join(handover_words(seen))


def test_with_all_recorded_nothing_keeps_the_lead_from_signing_and_nothing_is_called_right():
    seen = at_hand_over(*WHOLE)
    assert not seen.stops, said(seen)
    words = said(seen)
    assert "Nothing recorded keeps the lead from signing." in words
    assert "does not prove that the work is right" in words
    assert words.count("____   day ____") == 4


def test_each_thing_that_is_open_keeps_the_lead_from_signing():
    plug = "## temporary TP-1\n\n- what: plug\n- on thing: AIR-IN\n- off before: hand-over\n"
    more = "## covering LIN\n\n- what: lining\n- hides: CV-1\n- planned: 2031-05-30\n"
    cases = {
        "emergency number": (
            *(TRENCH, COVERED, SHAFT),
            SAID.replace("number: 112", "number: not recorded"),
        ),
        "no way out": (TRENCH, COVERED, SAID),
        "not recorded as on": (*WHOLE, more),
        "still on": (*WHOLE, plug),
        "POSITION NOT KNOWN": (TRENCH, COVERED, SAID.replace(LEFT, WORKED_ON), SHAFT),
        "backfall": (changed(TRENCH, ("98.300", "98.500")), COVERED, SAID, SHAFT),
    }
    for word, blocks in cases.items():
        seen = at_hand_over(*blocks)
        assert seen.stops, word
        assert word in said(seen).split("TO LOOK AT")[0], word
        assert "DO NOT SIGN YET" in said(seen)


def test_what_went_on_unreleased_is_on_the_list_and_does_not_hold_it_up():
    seen = at_hand_over(TRENCH, GOES_ON, SAID, SHAFT)
    assert not seen.stops
    assert "COVERED WITH NO RELEASE RECORDED BEFORE IT" in said(seen)
    assert handover_form(seen)["covered_without_release"] == ["FILL"]


def test_an_open_item_in_somebodys_hands_is_listed_and_holds_nothing_up():
    item = "## hand-over item HO-1\n\n- what: seed the mound\n- by whom: gc\n- state: open\n"
    seen = at_hand_over(*WHOLE, item)
    assert not seen.stops
    assert "[ ] gc: seed the mound (HO-1)" in said(seen)


def test_two_who_answer_for_it_by_name_let_it_be_signed_and_it_stays_on_the_list():
    plug = "## temporary TP-1\n\n- what: plug\n- on thing: SH-1\n- off before: hand-over\n"
    waiver = (
        "## hold waived TP-1\n\n- at: 17:00\n- rule: nothing temporary left on\n- tags: TP-1\n"
        "- reason: stays until the drive is laid\n- second: gc\n"
    )
    assert at_hand_over(*WHOLE, plug).stops
    seen = at_hand_over(*WHOLE, plug, waiver)
    assert not seen.stops
    assert "TP-1, nothing temporary left on: waived 2031-05-14 17:00" in said(seen)
    alone = at_hand_over(*WHOLE, plug, waiver.replace("second: gc", "second: ck"))
    assert alone.stops


def test_the_json_says_what_the_words_say():
    told = json.loads(json.dumps(handover_form(at_hand_over(TRENCH, SAID))))
    assert told["stops"] and told["coverings_not_on"] == ["FILL"]
    assert all({"rule", "why", "clears"} <= one.keys() for one in told["findings"])


def test_a_reader_who_may_not_see_all_is_told_so_and_to_whom_the_list_belongs():
    secret = COVERED + "\n## remark\n\n- readers: owner\n- text: the key is under the oak\n"
    seen = at_hand_over(TRENCH, secret, SAID, reader="trade")
    assert "The lead signs the owner's copy" in " ".join(said(seen).split())
    assert "oak" not in said(seen).replace("by the oak", "")
