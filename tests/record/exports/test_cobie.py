"""Jobs and documents of a COBie workbook: what is due, and what is on paper, for its reader."""

from __future__ import annotations

import pytest

from record.exports.workbook import SHEETS, tables, upkeep_told
from tests.record.answers.shelter import SITE, block, hull, run, sheet
from tests.record.building import view_of

FAN = block("equipment AU-1", type="air unit", name="fan", installed="2031-05-10",
            hand_operation="none")  # fmt: skip
FIRE = (
    "## procedure FIRE\n\n- event: fire inside\n- sign: smoke\n- signal word: danger\n"
    "- danger: smoke\n\n| step | do |\n|---|---|\n| 1 | out |\n| 2 | shut |\n"
)
STORE = block("store S-1", name="tins", hull="A", readers="owner")
W_1 = run("W-1", [("1", 99, 203, 49, "10 mm"), ("2", 108, 203, 49.2, "10 mm")])
HASH = {name: str(n) * 64 for n, name in enumerate(("pdf", "html", "calendar", "cards"), 1)}


def edition(number: int, reader: str) -> str:
    return block("edition issued", edition=str(number), reader=reader, recorded_to="2031-05-14",
                 checkpoint="c" * 64, **HASH)  # fmt: skip


PICTURE = block("photographed", file="Wide.JPG", caption="wide", shows="W-1, A")
OF_SECRET = block("photographed", file="s.jpg", caption="tins", shows="S-1", readers="owner")


def seen(reader: str, *more: str):
    every = (FAN, FIRE, STORE, W_1, edition(1, "owner"), edition(2, "trade"), PICTURE, OF_SECRET)
    return view_of(sheet(SITE, hull(), *every, *more), reader=reader)


def told(reader: str, *more: str):
    return tables(seen(reader, *more))


def hash_of(caption: str) -> str:
    """Return the hash that the picture's entry names."""
    (one,) = (
        p for p in seen("owner").built.happened("photographed") if p.text("caption") == caption
    )
    return str(one.text("sha256"))


def test_jobs_and_documents_have_the_columns_of_cobie_in_their_order():
    """COBieJobRow and COBieDocumentRow of the xBIM Toolkit (version 2.4)."""
    assert SHEETS["Job"] == (
        "Name", "CreatedBy", "CreatedOn", "Category", "Status", "TypeName", "Description",
        "Duration", "DurationUnit", "Start", "TaskStartUnit", "Frequency", "FrequencyUnit",
        "ExtSystem", "ExtObject", "ExtIdentifier", "TaskNumber", "Priors", "ResourceNames",
    )  # fmt: skip
    assert SHEETS["Document"] == (
        "Name", "CreatedBy", "CreatedOn", "Category", "ApprovalBy", "Stage", "SheetName",
        "RowName", "Directory", "File", "ExtSystem", "ExtObject", "ExtIdentifier", "Description",
        "Reference",
    )  # fmt: skip
    found = told("owner")
    for name in ("Job", "Document"):
        assert found[name] and not {key for row in found[name] for key in row} - {*SHEETS[name]}


def test_a_task_is_a_job_of_its_things_type_due_a_year_after_it_was_put_in():
    """Yearly is what public guidance on shelters has (as the task itself names its source)."""
    found = told("owner")
    (job,) = [row for row in found["Job"] if row["Name"] == "air-unit-run AU-1"]
    assert (job["Start"], job["Frequency"], job["FrequencyUnit"]) == ("2032-05-10", 12, "month")
    assert job["TypeName"] in {row["Name"] for row in found["Type"]}
    assert job["TaskNumber"] == "air-unit-run" and "AU-1 (fan)" in job["Description"]


def test_what_was_done_moves_the_job_on_and_what_was_missed_stays_on_its_day():
    done = block("serviced AU-1", task="air-unit-run", result="passed")
    (job,) = [row for row in told("owner", done)["Job"] if row["TaskNumber"] == "air-unit-run"]
    assert job["Start"] == "2032-05-14"
    late = tables(
        view_of(
            sheet(SITE, hull(), FAN.replace("2031-05-10", "2029-01-01")), sheet("## remark\n\nDry.")
        )
    )
    (job,) = [row for row in late["Job"] if row["TaskNumber"] == "air-unit-run"]
    assert job["Start"] == "2030-01-01"


def test_every_name_in_a_document_stands_on_the_sheet_it_names():
    found = told("owner")
    rows = {name: {row["Name"] for row in found[name]} for name in SHEETS if name != "Contact"}
    for document in found["Document"]:
        assert document["RowName"] in rows[document["SheetName"]]
    wide = f"{hash_of('wide')}.jpg"
    shown = {(d["SheetName"], d["RowName"]) for d in found["Document"] if d.get("File") == wide}
    assert shown == {("Component", "W-1"), ("Floor", "A")}


def test_files_are_named_as_the_record_and_a_bag_of_it_keep_them():
    files = {f"{d['Directory']}/{d['File']}" for d in told("owner")["Document"] if "File" in d}
    assert f"photos/{hash_of('wide')}.jpg" in files
    assert {f"editions/{'1' * 64}.pdf", f"editions/{'3' * 64}.ics"} <= files
    assert any(name.startswith("sheets/") and name.endswith(".md") for name in files)


def test_a_procedure_is_a_document_with_its_steps():
    (row,) = [d for d in told("technician")["Document"] if d["ExtObject"] == "procedure"]
    assert (row["Name"], row["Description"]) == ("FIRE", "fire inside: 2 steps")


@pytest.mark.parametrize(("reader", "issued"), [("owner", {1, 2}), ("trade", {2}),
                                                ("technician", set())])  # fmt: skip
def test_a_reader_is_told_of_their_own_editions_and_of_nothing_withheld(reader, issued):
    found = told(reader)
    names = {d["Description"] for d in found["Document"] if d["ExtObject"] == "edition issued"}
    assert {n for n in (1, 2) if any(name.startswith(f"edition {n} ") for name in names)} == issued
    every = str(found["Document"] + found["Job"])
    assert ("S-1" in every, hash_of("tins") in every, "day sheet" in every) == (
        reader == "owner",
    ) * 3


def test_a_reader_who_is_shown_no_services_has_no_jobs_and_is_told_so():
    assert told("responder")["Job"] == [] and told("trade")["Job"] == []
    for reader, says in (
        ("responder", "does not show services"),
        ("owner", "due as of 2031-05-14"),
    ):
        assert says in upkeep_told(view_of(sheet(SITE, hull(), FAN), reader=reader))[1]
