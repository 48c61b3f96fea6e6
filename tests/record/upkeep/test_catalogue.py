"""The catalogue of upkeep tasks, and what becomes of a file that cannot be used."""

from importlib.resources import files

import pytest

from record.facts import KINDS
from record.upkeep.catalogue import SAY_WHAT_IT_IS, BadTask, catalogue, read_task
from record.upkeep.dates import Interval

ASKED_FOR = (
    *("filter-change", "check-valve-test", "overpressure-valve-check", "drain-clearing"),
    *("hand-crank-turn", "way-out-walk", "alarm-test", "sump-pour-test", "owner-yearly-check"),
    *("stored-water", "door-seals", "valve-cycle"),
)


def file_of(word):
    return files("record.upkeep").joinpath("tasks", f"{word}.toml").read_text(encoding="utf-8")


def test_every_file_is_read_and_none_is_left_out():
    found = {file.name for file in files("record.upkeep").joinpath("tasks").iterdir()}
    assert {f"{word}.toml" for word in catalogue()} == {name for name in found if "toml" in name}
    assert set(ASKED_FOR) <= set(catalogue())


@pytest.mark.parametrize("word", sorted(catalogue()))
def test_every_task_says_what_can_hurt_before_what_to_do(word):
    task = catalogue()[word]
    assert task.signal in ("danger", "warning", "caution", "notice")
    assert task.caution.count(".") >= 2  # what is dangerous, and how to keep out of it
    assert len(task.steps) >= 3
    assert len(task.ticks) == 4
    assert task.source


@pytest.mark.parametrize("word", sorted(catalogue()))
def test_nothing_in_the_catalogue_promises_protection(word):
    said = file_of(word).casefold()
    for claim in ("blast", "fallout", "bomb", "rated for", "safe to", "will not float"):
        assert claim not in said


@pytest.mark.parametrize("word", ["way-out-walk", "sump-pour-test", "generator-run"])
def test_what_kills_is_called_danger(word):
    assert catalogue()[word].signal == "danger"


def test_a_filled_shaft_is_never_opened_on_a_walk():
    """NIOSH and MSHA fatality reports: running material buries whoever opens it from below."""
    task = catalogue()["way-out-walk"]
    assert "never open it from below" in task.caution
    assert "without loosening" in " ".join(task.steps)


def test_only_a_technician_reads_no_word_of_what_is_the_owners():
    hidden = ("way out", "ways out", "shaft", "hatch", "store", "hidden")
    for task in catalogue().values():
        kinds = [KINDS[fit.kind] for fit in task.fits]
        if "technician" in task.readers and all("technician" in kind.readers for kind in kinds):
            said = file_of(task.word).casefold()
            assert [word for word in hidden if word in said.replace("restore", "")] == []


def test_a_makers_interval_is_for_one_task_of_a_thing():
    types = KINDS["equipment"].field("type").holds.words
    for one in types:
        takers = [
            task.word
            for task in catalogue().values()
            for fit in task.fits
            if task.maker and fit.kind == "equipment" and one in dict(fit.fields)["type"]
            # A crank's own record stands in place of the air unit's.
            if fit.unless is None
        ]
        assert len(takers) <= 1, one


@pytest.mark.parametrize(
    ("word", "interval"),
    [
        ("sump-pour-test", Interval(months=3)),
        ("alarm-test", Interval(months=1)),
        ("alarm-replace", Interval(months=120)),
        ("stored-water", Interval(months=6)),
        ("valve-cycle", Interval(months=12)),
        ("hand-crank-turn", Interval(months=12)),
    ],
)
def test_intervals_are_those_of_their_sources(word, interval):
    """Sump pumps: the pump trade's advice, every three to four months. Alarms: NFPA's public
    advice, monthly and ten years from the day made. Water: US health advice, six months. Valves:
    waterworks operators, yearly. Crank: Helsinki rescue services, shelters inspected yearly."""
    assert catalogue()[word].interval == interval


def test_what_codes_ask_of_others_is_told_as_a_benchmark():
    """NFPA 110 is for emergency power, 49 CFR 192 for gas lines, the ten years for the public."""
    held = [task.word for task in catalogue().values() if task.benchmark]
    assert held == ["cathodic-protection-read", "device-inspection", "generator-run"]


def test_the_task_for_what_is_unknown_fits_nothing_by_itself():
    assert catalogue()[SAY_WHAT_IT_IS].fits == ()


@pytest.mark.parametrize(
    ("was", "now", "says"),
    [
        ('signal = "caution"', 'signal = "beware"', "signal word"),
        ("months = 6", "months = 0", "interval"),
        ("months = 6", "months = 6\ndays = 3", "interval"),
        ("months = 6", "months = 6.5", "interval"),
        ('word = "check-valve-test"', 'word = "other"', "is called other.toml"),
        ('kind = "valve"', 'kind = "valves"', '"valves" is no kind'),
        ('type = ["check", "flap"]', 'type = ["chek"]', '"type" of a valve'),
        ('type = ["check", "flap"]', 'sort = ["check"]', 'no words in "sort"'),
        ('type = ["check", "flap"]', 'needs = ["lever"]', 'no field "lever"'),
        ('counted_from = ["installed"]', 'counted_from = ["born"]', 'field "born"'),
        ('who = ["owner", "technician"]', 'who = ["uncle"]', '"uncle"'),
        ('who = ["owner", "technician"]', "who = []", '"who"'),
        ('"falls shut by itself", "cover', '"cover', "4 ticks"),
        ("why = ", "reason = ", '"reason" is no key'),
        ("why = ", "why = !", "check-valve-test.toml"),
    ],
)
def test_a_file_that_cannot_be_used_is_named_with_its_fault(was, now, says):
    text = file_of("check-valve-test")
    assert was in text
    with pytest.raises(BadTask) as refused:
        read_task("check-valve-test.toml", text.replace(was, now))
    assert says in str(refused.value)


def test_all_faults_of_a_file_come_at_once():
    text = file_of("check-valve-test").replace("months = 6", "months = 0")
    with pytest.raises(BadTask, match=r"signal word.*interval"):
        read_task("check-valve-test.toml", text.replace('signal = "caution"', 'signal = "x"'))
