"""What every answer prints as JSON holds to its schema, checked by the jsonschema library."""

import copy
import json
import sys

import pytest
import typer.main
from jsonschema import Draft202012Validator, ValidationError

from manual.cli import main
from record.cli import app
from record.described import COMMANDS, schema_of
from tests.record.answers.shelter import block, fit_out, hull, panel, run
from tests.record.place.measuring import landmark
from tests.record.records import SITE, post_text, sheet

PLAN = "\n\n".join((
    hull(ground_level="54.00 m"), panel(looked_at="ld, 2031-05-13, nothing else seen"), fit_out(),
    block("room RM-1", name="room", hull="A"),
    run(stations=[("1", 102.5, 201.0, 51.2, "20 mm"), ("2", 102.5, 199.0, 51.1, "20 mm")]),
    block("valve V-1", type="ball", on_run="W-1", x="102.50 m", y="200.50 m", isolates="the tap"),
    *(landmark(tag, x, y) for tag, x, y in (("H1", 90, 190), ("H2", 110, 190), ("H3", 100, 220))),
    block("reserved zone R-1", hull="A", face="left", from_near="2.00 m", bottom="50.50 m",
          width="0.30 m", height="1.00 m", hazard="ask"),
    "## tested A\n\n- at: 11:00\n- test: tightness\n- result: passed\n- reading: 21\n- limit: 30\n"
    "- instrument: fan",
    block("covering C-1", what="lining", planned="2031-06-05", hides="P-1"),
))  # fmt: skip
RINGS = "## site fern-bank\n\n- builder: office\n- builder contact: 555-0142"
MEND = ("## fit-out FO-1\n\n- mends: ld-5\n- because: misread\n- along: 0.25 m\n\n"
        "## opened up P-1\n\n- at: 09:00\n- what: drilled\n- why: a bracket")  # fmt: skip
ASKS = {
    "behind": ["P-1"],
    "beneath": ["102.5,199.0"],
    "fixings": ["P-1", "--depth", "40 mm", "--size", "100 mm x 100 mm"],
    "find": ["W-1"],
    "profile": ["W-1"],
    "upstream": ["V-1"],
    "downstream": ["V-1"],
    "landmarks": ["H1"],
    "rests-on": ["A"],
    "show": ["W-1"],
    "history": ["P-1"],
    "entries": [],
    "recall": ["L-7", "--kind", "valve"],
    "pass": ["A", "left", "--depth", "20 mm", "--until", "2031-07-01", "--for", "painter"],
    "passes": [],
    "proofs": [],
    "balance": [],
    "left": [],
    "drift": [],
    "fill": [],
    "ready": [],
    "figures": [],
    "reckon": ["dew-point", "air=16 °C", "humidity=61 %"],
    "due": [],
    "visits": [],
    "verify": [],
    "export": ["geojson", "--out", "map.geojson"],
    "manual list": [],
}
#: Asked elsewhere, each in a test of its own, which holds what it prints to its schema too.
ELSEWHERE = {"merge", "pack", "unpack", "manual compare", "brief", "seal", "unseal", "manual check"}
#: Of which this record holds nothing for somebody; the demo's does (tests/demo).
EMPTY = {"manual list", "passes", "drift", "fill", "balance", "due", "visits"}
ALIKE = {"pass", "reckon", "verify", "manual list"}  # of the record as it stands, for nobody


@pytest.fixture
def asked(log, folder, monkeypatch, capsys):
    post_text(log, SITE)
    post_text(log, sheet(PLAN, day="2031-05-02"))
    post_text(log, sheet(RINGS, day="2031-05-03"))
    post_text(log, sheet(MEND, day="2031-05-20"))

    monkeypatch.chdir(folder.parent)

    def told(command, *more):
        words = (*command.split(), *more)
        at = ("--record", str(folder)) if words[0] != "reckon" else ()
        monkeypatch.setattr(sys, "argv", ["asburied", *at, *words])
        monkeypatch.setattr(sys, "stdout", sys.stdout)
        with pytest.raises(SystemExit) as left:
            main()
        out, errors = capsys.readouterr()
        assert int(left.value.code or 0) in (0, 1) and errors == ""  # 1: something stands open
        return json.loads(out)

    return told


def commands(group, path=""):
    for name, found in getattr(group, "commands", {}).items():
        yield from commands(found, f"{path} {name}".strip())
    if not hasattr(group, "commands"):
        yield path, group


def test_every_command_that_prints_json_has_a_schema_and_is_asked():
    every = dict(commands(typer.main.get_command(app)))
    told = {
        name for name, one in every.items() if any("--json" in each.opts for each in one.params)
    }
    assert told == set(COMMANDS)
    assert set(ASKS) | ELSEWHERE == set(COMMANDS)


def said_in(answer, command):
    """Return what an answer says: a list under the command's name, or all of it."""
    return answer.get(command, answer) if isinstance(answer, dict) else answer


@pytest.mark.parametrize("command", COMMANDS)
def test_a_schema_is_a_schema_and_says_what_it_is_of(command):
    schema = schema_of(command)
    Draft202012Validator.check_schema(schema)
    assert command in schema["title"] and len(schema["description"]) > 60


@pytest.mark.parametrize("command", ASKS)
@pytest.mark.parametrize(
    "how",
    [
        [],
        ["--reader", "technician"],
        ["--as-of", "2031-05-21"],
        ["--as-known-at", "2031-06-02", "--reader", "trade"],
    ],
)
def test_every_answer_holds_to_its_schema_for_every_way_to_ask(asked, command, how):
    if command in ("due", "visits"):  # a copy that shows no services cannot tell them
        how = [word.replace("trade", "technician") for word in how]
    answer = asked(command, *ASKS[command], "--json", *([] if command in ALIKE else how))
    assert said_in(answer, command) or command in EMPTY
    Draft202012Validator(schema_of(command)).validate(answer)


@pytest.mark.parametrize("more", [["C-1"], ["handover"], []])
def test_ready_holds_to_its_schema_of_a_covering_of_the_hand_over_and_of_the_evening(asked, more):
    answer = asked("ready", *more, "--json", "--as-of", "2031-05-21")
    Draft202012Validator(schema_of("ready")).validate(answer)
    assert ("covering" in answer, "zones" in answer, "today" in answer) == (
        more == ["C-1"], more == ["handover"], more == [])  # fmt: skip


@pytest.mark.parametrize("command", [name for name in ASKS if name != "ready"])
def test_a_key_that_is_missing_or_new_does_not_hold(asked, command):
    answer = asked(command, *ASKS[command], "--json")
    valid = Draft202012Validator(schema_of(command))
    said = said_in(answer, command)
    listed = isinstance(said, list)
    first = said[0] if listed and said else said
    if not first or command == "entries":
        return

    def whole(changed):
        return {**answer, command: [changed]} if listed else changed

    valid.validate(whole(first))
    for key in set(first) - {"as_of", "as_known_at"}:
        less = copy.deepcopy(first)
        del less[key]
        with pytest.raises(ValidationError):
            valid.validate(whole(less))
    with pytest.raises(ValidationError):
        valid.validate(whole({**first, "more": 1}))


@pytest.mark.parametrize("command", sorted({*ASKS} - ALIKE - {"entries"}))
def test_an_answer_as_it_stood_and_as_it_was_known_says_so_for_programs(asked, command):
    then = ("--as-of", "2031-05-21", "--as-known-at", "2031-06-02")
    answer = asked(command, *ASKS[command], "--json", *then)
    assert answer["as_of"] == "2031-05-21"
    assert answer["as_known_at"].startswith("2031-06-02")
    Draft202012Validator(schema_of(command)).validate(answer)  # which knows no key but its own


def test_the_words_beside_a_field_are_in_the_schema():
    hit = schema_of("beneath")["$defs"]["Hit"]["properties"]
    assert hit["off_m"]["description"].startswith("in plan from the spot")
    assert hit["top_m"]["type"] == ["number", "null"]


def test_a_command_prints_the_schema(capsys, monkeypatch):
    for words, status in ((["schema", "find"], 0), (["schema"], 0), (["schema", "post"], 2)):
        monkeypatch.setattr(sys, "argv", ["asburied", *words])
        monkeypatch.setattr(sys, "stdout", sys.stdout)
        with pytest.raises(SystemExit) as left:
            main()
        out, errors = capsys.readouterr()
        assert int(left.value.code or 0) == status
        assert ("find" in out) if status == 0 else ("these have: behind" in errors)
