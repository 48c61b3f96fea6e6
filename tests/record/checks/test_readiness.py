"""The whole question: may it be covered?"""

import json

import pytest

from record.checks import RULES, NoSuchCovering, explain, json_form, ready, ready_words
from tests.record.building import view_of
from tests.record.checks.ground import COVERED, SEAM, TRENCH, changed, readiness, sheets
from tests.record.checks.test_falls_the_right_way import BEND_BLUNDER
from tests.record.checks.test_waivers import UNSEEN, WAIVER


def test_where_nothing_stands_in_the_way_one_line_says_who_releases_it():
    for blocks in (TRENCH, SEAM):
        assert ready_words(readiness(blocks)) == [
            "Nothing recorded stands in the way of FILL; the lead and a second person release it."
        ]


def test_a_run_brings_its_valves_and_drains():
    assert readiness(TRENCH).hides == ("AIR-IN", "CV-1", "DL-1")


def test_a_backfall_reads_as_a_foreman_would_say_it():
    assert ready_words(readiness(BEND_BLUNDER))[:8] == [
        "FILL (backfill, planned 2031-05-20): 2 to put right first.",
        "",
        "STOPS   AIR-IN: 1 terminal foot to 2 bend, 5.00 m: backfall of 56 mm (1.12 %), where it "
        "should",
        "    fall to 3 hull B",
        "    length of pipe             length             drop     slope",
        "    1 terminal foot to 2 bend  5.00 m  -56 mm ± 4.2 mm  -1.120 %  rises",
        "    2 bend to 3 hull B         7.60 m  308 mm ± 4.2 mm   4.053 %  falls",
        "    rule: pipe falls the right way",
    ]


def test_what_stops_stands_before_what_was_waived_and_what_is_to_be_looked_at():
    blocks = changed(UNSEEN, ("| wrap | 1 | 15:00", "| wrap | 2 | 15:00")) + WAIVER
    marks = [
        line[:6]
        for line in ready_words(readiness(blocks))
        if line.startswith(("STOPS", "WAIVED", "LOOK"))
    ]
    assert marks == ["STOPS ", "WAIVED"]
    look = changed(TRENCH, ("marker tape: yes", "marker tape: not recorded"))
    words = ready_words(readiness(look))
    assert words[2].startswith("LOOK ")
    assert words[-1].startswith("Nothing recorded stands in the way")


def test_no_words_ever_say_that_it_may_be_covered():
    told = [
        readiness(TRENCH),
        readiness(UNSEEN),
        readiness(SEAM + COVERED),
        readiness(BEND_BLUNDER),
    ]
    said = "\n".join(line for one in told for line in ready_words(one)).casefold()
    for word in ("clear to", "safe to", "may be covered", "approved"):
        assert word not in said


def test_a_covering_that_is_on_is_not_offered_for_release():
    [line] = ready_words(readiness(SEAM + COVERED))
    assert line == "Nothing recorded is open against FILL, which is on already."


def test_a_reader_who_may_not_see_all_is_told_that_more_may_be_recorded():
    """A responder sees no coats, so that every one of them seems missing."""
    told = readiness(SEAM, reader="responder")
    assert told.stops
    assert told.withheld > 0
    assert any("withheld from this reader" in line for line in ready_words(told))


def test_a_covering_that_is_not_there_is_helped_with():
    view = view_of(*sheets(TRENCH))
    with pytest.raises(NoSuchCovering, match=r"did you mean FILL\?"):
        ready(view, "fil")
    with pytest.raises(NoSuchCovering, match=r"AIR-IN is a run, not a covering; .* hide it: FILL"):
        ready(view, "AIR-IN")
    with pytest.raises(NoSuchCovering, match="no covering ZZZ9; coverings: FILL"):
        ready(view, "ZZZ9")


def test_a_covering_withheld_from_a_reader_is_never_suggested_to_them():
    secret = changed(TRENCH, ("## covering FILL\n\n", "## covering FILL\n\n- readers: owner\n"))
    with pytest.raises(NoSuchCovering) as fault:
        ready(view_of(*sheets(secret), reader="trade"), "FIL")
    assert "FILL" not in str(fault.value)


def test_the_json_says_what_the_words_say():
    told = readiness(UNSEEN + COVERED)
    form = json.loads(json.dumps(json_form(told)))
    assert (form["covering"], form["stops"], form["hides"]) == ("FILL", True, ["SM"])
    number = told.already_covered[0].entry.number
    assert form["covered"] == [{"on": "2031-05-14", "at": "16:30", "by": "ld", "entry": number}]
    first = form["findings"][0]
    assert (first["rule"], first["about"], first["sure"]) == (
        "photo of every side of a seam before cover",
        "SM",
        "certain",
    )
    waived = json_form(readiness(UNSEEN + WAIVER))["findings"][0]["waived"]
    assert (waived["by"], waived["second"]) == ("ld", "gc")


def test_every_finding_can_be_walked_back_to_its_entries():
    for blocks in (UNSEEN, BEND_BLUNDER, changed(TRENCH, ("type: check", "type: ball"))):
        for finding in readiness(blocks).findings:
            assert finding.entries, finding.says
            assert finding.clears


def test_each_rule_has_its_own_name_and_says_why():
    words = [rule.word for rule in RULES]
    assert len(set(words)) == len(words)
    for rule in RULES:
        assert explain(rule.word.upper()) == f"{rule.word}\n{rule.why}"
    assert 'Did you mean "pipe falls the right way"?' in explain("pipe falls right way")
