"""Exports: what other programs get, for whom, and that what is withheld is in no byte of it."""

import csv
import io
import json
import sys
import zipfile
from itertools import pairwise

import pytest

from record.exports import NotInstalled, csv_tables, geojson, read_tie, save_file, save_folder
from record.exports.ifc import ifc
from record.exports.workbook import SHEETS, tables, workbook
from record.log import LogFault
from tests.record.answers.shelter import SITE, block, fit_out, hull, panel, run, sheet
from tests.record.building import view_of

WAY = (
    (1, "95.00", "203.00", "49.00 ± 3 mm", "20 mm"),
    (2, "97.00", "203.00", "49.00 ± 3 mm", "20 mm"),
    (3, "97.00", "206.00", "48.80 ± 3 mm", "20 mm"),
)
STORE = block(
    "store CANARYTAG",
    name="canaryname",
    hull="A",
    from_near="5.17 m ± 10 mm",
    from_left="0.37 m",
    bottom="51.23 m ± 10 mm",
    along="0.40 m",
    across="0.09 m",
    height="0.40 m",
    readers="owner",
)
LANDMARK = block("landmark H1", what="=1+2, corner of the house", x="90.00 m", y="210.00 m")
SEEN_ELSEWHERE = fit_out("FO-2", from_near="1.10 m ± 5 mm", what="=1+2 stop")
#: Where it truly is, as the owner alone may know.
MOVED = sheet(
    block("fit-out FO-2", from_near="4.69 m ± 5 mm", readers="owner"), date="2031-05-15", part="b"
)
BLOCKS = (
    panel(), fit_out(), SEEN_ELSEWHERE, run(stations=WAY), LANDMARK, STORE,
    "## remark\n\nA stone, ½ m across.",
    "## remark\n\n- readers: owner\n\ncanaryremark by CANARYTAG.",
)  # fmt: skip


def seen(reader="owner", *more):
    return view_of(sheet(SITE, hull(), *BLOCKS, *more), MOVED, reader=reader)


def unzipped(data):
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return b"".join(archive.read(name) for name in archive.namelist())


FORMATS = {
    "geojson": geojson,
    "csv": lambda view: b"".join(name.encode() + data for name, data in csv_tables(view).items()),
    "workbook": lambda view: unzipped(workbook(view)),
    "ifc": ifc,
}
#: Tag, name, place in the hull, on the grid (x 105.17, y 199.63), level; and where FO-2 truly is.
CANARIES = (b"canary", b"5.17", b"105.57", b"199.63", b"51.23", b"51.63", b"4.69", b"104.79")


@pytest.mark.parametrize("name", FORMATS)
def test_what_a_reader_may_not_see_is_in_no_byte_of_an_export(name):
    owners = FORMATS[name](seen()).lower()
    assert b"canarytag" in owners and b"51.23" in owners and b"4.69" in owners
    for reader in ("technician", "trade", "responder"):
        data = FORMATS[name](seen(reader)).lower()
        assert b"fo-1" in data
        assert not [canary for canary in CANARIES if canary in data]


@pytest.mark.parametrize("name", FORMATS)
def test_an_export_says_for_whom_it_is_and_that_a_gap_is_no_empty_ground(name):
    for_trade, owners = FORMATS[name](seen("trade")), FORMATS[name](seen())
    assert (
        b"trade's copy" in for_trade
        or b"trade&apos;s copy" in for_trade
        or (b"trade''s copy" in for_trade)
    )
    assert b"no sign of empty ground" in for_trade and b"no sign of empty ground" not in owners
    for data in (for_trade, owners):
        assert b"the record is what counts" in data


@pytest.mark.parametrize("name", FORMATS)
def test_the_same_record_gives_the_same_bytes(name):
    raw = workbook if name == "workbook" else FORMATS[name]
    assert raw(seen()) == raw(seen())


def features(view, tie=None):
    whole = json.loads(geojson(view, tie))
    return whole, {each["id"]: each for each in whole["features"]}


def test_the_hull_is_a_ring_against_the_clock_of_its_outside():
    """Inside 6.00 × 3.00 from (100, 200) to the east and south, and 10 mm of plate round it."""
    whole, found = features(seen())
    assert whole["type"] == "FeatureCollection" and "NOT longitude" in whole["grid"]["coordinates"]
    (ring,) = found["A"]["geometry"]["coordinates"]
    assert ring[0] == ring[-1] and len(ring) == 5
    assert sorted(map(tuple, ring[1:])) == [
        (99.99, 196.99), (99.99, 200.01), (106.01, 196.99), (106.01, 200.01),
    ]  # fmt: skip
    area = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairwise(ring)) / 2
    assert area == pytest.approx(6.02 * 3.02)  # positive: against the clock


def test_a_run_is_one_line_through_its_stations_and_its_levels_are_beside_it():
    """Axis at 49.00, outside 160 mm: 48.92 to 49.08."""
    _, found = features(seen())
    assert found["W-1"]["geometry"] == {
        "type": "LineString",
        "coordinates": [[95.0, 203.0], [97.0, 203.0], [97.0, 206.0]],
    }
    first = found["W-1"]["properties"]["solids"][0]
    assert (first["bottom_m"], first["top_m"], first["radius_m"]) == (48.92, 49.08, 0.08)


def test_a_thing_with_a_point_is_a_point_and_one_without_a_place_has_no_geometry():
    _, found = features(seen("owner", block("valve V-9", type="ball")))
    assert found["H1"]["geometry"] == {"type": "Point", "coordinates": [90.0, 210.0]}
    assert found["V-9"]["geometry"] is None and found["V-9"]["properties"]["placed"] is False


def test_a_tied_site_is_in_longitude_and_latitude_and_says_so():
    """H1 lies 90 m east and 210 m north of the zero; of grid north at 90°, 210 east and 90 south.

    At 45° a degree is 111 132 m north and 78 847 m east (tables of WGS 84, from memory).
    """
    for bearing, east, north in ((0, 90, 210), (90, 210, -90)):
        whole, found = features(seen(), read_tie(f"45,7,{bearing}"))
        lon, lat = found["H1"]["geometry"]["coordinates"]
        assert lon == pytest.approx(7 + east / 78_847, abs=2e-7)
        assert lat == pytest.approx(45 + north / 111_132, abs=2e-7)
        assert whole["grid"]["tie"]["grid_north_bearing_deg"] == bearing
        assert "WGS 84" in whole["grid"]["coordinates"]


@pytest.mark.parametrize(
    "text", ["", "45,7", "45;7;0", "91,7,0", "45,181,0", "nan,0,0", "45,7,1e9"]
)
def test_what_is_no_tie_is_said_with_what_to_write(text):
    with pytest.raises(ValueError, match=r"44\.125"):
        read_tie(text)


def table(view, name):
    return list(csv.DictReader(io.StringIO(csv_tables(view)[name].decode(), newline="")))


def test_a_table_has_every_field_in_words_and_in_metres_with_its_place():
    row, _ = table(seen(), "fit-out.csv")
    assert (row["tag"], row["from_near"], row["from_near_si"]) == ("FO-1", "2.30 m ± 5 mm", "2.3")
    assert (row["bottom_m"], row["top_m"]) == ("50.800", "50.900")
    assert float(row["x_m"]) == pytest.approx(102.40) and row["entries"].startswith("ld-")
    assert [row["tag"] for row in table(seen(), "station.csv")] == ["W-1/1", "W-1/2", "W-1/3"]


def test_a_cell_is_never_taken_for_a_sum():
    (row,) = table(seen(), "landmark.csv")
    assert row["what"] == "'=1+2, corner of the house"
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.load_workbook(io.BytesIO(workbook(seen())))
    cells = [cell for page in book for row in page.iter_rows() for cell in row]
    assert cells and not [cell for cell in cells if cell.data_type == "f"]


def test_the_workbook_has_its_sheets_and_every_name_that_is_listed_stands_in_one():
    import openpyxl

    valve = block("valve V-9", type="ball", on_run="W-1", serial="S-4")
    book = openpyxl.load_workbook(io.BytesIO(workbook(seen("owner", valve))))
    assert book.sheetnames == ["Instruction", *SHEETS]
    rows = {
        page.title: [dict(zip([c.value for c in page[1]], values, strict=True))
                     for values in page.iter_rows(min_row=2, values_only=True)]
        for page in book
        if page.title in SHEETS
    }  # fmt: skip
    components = {row["Name"]: row for row in rows["Component"]}
    assert components["V-9"]["SerialNumber"] == "S-4"
    (system,) = rows["System"]
    assert system["ComponentNames"].split(",") == ["W-1", "V-9"]
    assert {row["TypeName"] for row in rows["Component"]} <= {r["Name"] for r in rows["Type"]}
    named = {sheet: {row["Name"] for row in rows[sheet]} for sheet in ("Floor", "Component")}
    for row in rows["Attribute"]:
        assert row["RowName"] in named.get(row["SheetName"], {row["RowName"]})


def test_a_sheet_has_the_columns_of_cobie_in_their_order_and_no_value_is_left_without_one():
    """First columns of each sheet, as the xBIM Toolkit's classes of COBie 2.4 rows declare them."""
    first = {
        "Contact": "Email CreatedBy CreatedOn Category Company Phone ExtSystem ExtObject",
        "Floor": "Name CreatedBy CreatedOn Category ExtSystem ExtObject ExtIdentifier Description",
        "Space": "Name CreatedBy CreatedOn Category FloorName Description ExtSystem ExtObject",
        "Type": "Name CreatedBy CreatedOn Category Description AssetType Manufacturer ModelNumber "
        "WarrantyGuarantorParts WarrantyDurationParts WarrantyGuarantorLabor",
        "Component": "Name CreatedBy CreatedOn TypeName Space Description ExtSystem ExtObject "
        "ExtIdentifier SerialNumber InstallationDate WarrantyStartDate TagNumber",
        "System": "Name CreatedBy CreatedOn Category ComponentNames ExtSystem ExtObject",
        "Attribute": "Name CreatedBy CreatedOn Category SheetName RowName Value Unit ExtSystem",
        "Coordinate": "Name CreatedBy CreatedOn Category SheetName RowName CoordinateXAxis "
        "CoordinateYAxis CoordinateZAxis ExtSystem",
    }
    for name, columns in first.items():
        named = columns.split()
        assert list(SHEETS[name][: len(named)]) == named
    for name, rows in tables(seen()).items():
        for row in rows:
            assert set(row) <= set(SHEETS[name]), name


def opened(data):
    import ifcopenshell

    return ifcopenshell.file.from_string(data.decode())


# The validator leaves a file of its own open.
@pytest.mark.filterwarnings(
    "ignore::pytest.PytestUnraisableExceptionWarning", "ignore::ResourceWarning"
)
def test_the_model_passes_the_validator_of_ifc_4_3_with_its_rules():
    import ifcopenshell.validate

    for reader in ("owner", "trade"):
        model = opened(ifc(seen(reader)))
        assert model.schema_identifier == "IFC4X3_ADD2"
        log = ifcopenshell.validate.json_logger()
        ifcopenshell.validate.validate(model, log, express_rules=True)
        assert log.statements == []


def test_a_pipe_of_the_model_is_a_cylinder_from_station_to_station():
    """2.00 m, then √(3.00² + 0.20²) = 3.0067 m, both 80 mm in radius."""
    (pipe,) = opened(ifc(seen())).by_type("IfcPipeSegment")
    (shown,) = pipe.Representation.Representations
    found = [(part.Depth, part.SweptArea.Radius) for part in shown.Items]
    assert found == [pytest.approx((2.0, 0.08)), pytest.approx((3.00666, 0.08), abs=1e-4)]
    assert (pipe.Tag, shown.RepresentationType) == ("W-1", "SweptSolid")


def test_a_box_of_the_model_stands_where_the_hull_has_it():
    """In hull A: middle of 2.30 to 2.50 is x 102.40, of l 0.00 to 0.05 is y 199.975, up 50.80."""
    model = opened(ifc(seen()))
    (box,) = [each for each in model.by_type("IfcBuildingElementProxy") if each.Name == "FO-1"]
    (part,) = box.Representation.Representations[0].Items
    assert part.Position.Location.Coordinates == pytest.approx((102.40, 199.975, 50.80))
    assert part.Position.RefDirection.DirectionRatios == pytest.approx((1.0, 0.0, 0.0))
    assert (part.SweptArea.XDim, part.SweptArea.YDim) == pytest.approx((0.20, 0.05))
    assert part.Depth == pytest.approx(0.10)


@pytest.mark.parametrize(("library", "write"), [("openpyxl", workbook), ("ifcopenshell", ifc)])
def test_where_a_library_is_not_installed_it_is_said_what_to_install(monkeypatch, library, write):
    monkeypatch.setitem(sys.modules, library, None)
    with pytest.raises(NotInstalled, match=rf"{library}.*pip install 'asburied\[exports\]'"):
        write(seen())


def test_what_is_written_is_for_its_owner_alone_and_over_nothing(tmp_path):
    save_file(b"x", tmp_path / "one")
    save_folder({"a.csv": b"x"}, tmp_path / "many")
    for path in (tmp_path / "one", tmp_path / "many", tmp_path / "many" / "a.csv"):
        assert path.stat().st_mode & 0o077 == 0
    for save in (lambda to: save_file(b"y", to), lambda to: save_folder({}, to)):
        for name in ("one", "many"):
            with pytest.raises(LogFault, match="is there already"):
                save(tmp_path / name)
    with pytest.raises(LogFault, match="cannot be written"):
        save_file(b"x", tmp_path / "nowhere" / "one")
    assert (tmp_path / "one").read_bytes() == b"x"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["many", "one"]
