"""The sheets of a COBie workbook and their columns, and which kinds go onto which.

Sheets and columns are those of version 2.4, in their order, as an open implementation of it
declares them (the row classes of the xBIM Toolkit).
"""

from __future__ import annotations

from collections.abc import Mapping

NONE = "n/a"
SYSTEM = "asburied"


def _named(columns: str) -> tuple[str, ...]:
    return tuple(columns.split())


SHEETS: Mapping[str, tuple[str, ...]] = {
    "Contact": _named("""Email CreatedBy CreatedOn Category Company Phone ExtSystem ExtObject
        ExtIdentifier Department OrganizationCode GivenName FamilyName Street PostalBox Town
        StateRegion PostalCode Country"""),
    "Facility": _named("""Name CreatedBy CreatedOn Category ProjectName SiteName LinearUnits
        AreaUnits VolumeUnits CurrencyUnit AreaMeasurement ExternalSystem ExternalProjectObject
        ExternalProjectIdentifier ExternalSiteObject ExternalSiteIdentifier ExternalFacilityObject
        ExternalFacilityIdentifier Description ProjectDescription SiteDescription Phase"""),
    "Floor": _named("""Name CreatedBy CreatedOn Category ExtSystem ExtObject ExtIdentifier
        Description Elevation Height"""),
    "Space": _named("""Name CreatedBy CreatedOn Category FloorName Description ExtSystem ExtObject
        ExtIdentifier RoomTag UsableHeight GrossArea NetArea"""),
    "Type": _named("""Name CreatedBy CreatedOn Category Description AssetType Manufacturer
        ModelNumber WarrantyGuarantorParts WarrantyDurationParts WarrantyGuarantorLabor
        WarrantyDurationLabor WarrantyDurationUnit ExtSystem ExtObject ExtIdentifier
        ReplacementCost ExpectedLife DurationUnit WarrantyDescription NominalLength NominalWidth
        NominalHeight ModelReference Shape Size Color Finish Grade Material Constituents Features
        AccessibilityPerformance CodePerformance SustainabilityPerformance"""),
    "Component": _named("""Name CreatedBy CreatedOn TypeName Space Description ExtSystem ExtObject
        ExtIdentifier SerialNumber InstallationDate WarrantyStartDate TagNumber BarCode
        AssetIdentifier"""),
    "System": _named("""Name CreatedBy CreatedOn Category ComponentNames ExtSystem ExtObject
        ExtIdentifier Description"""),
    "Job": _named("""Name CreatedBy CreatedOn Category Status TypeName Description Duration
        DurationUnit Start TaskStartUnit Frequency FrequencyUnit ExtSystem ExtObject ExtIdentifier
        TaskNumber Priors ResourceNames"""),
    "Document": _named("""Name CreatedBy CreatedOn Category ApprovalBy Stage SheetName RowName
        Directory File ExtSystem ExtObject ExtIdentifier Description Reference"""),
    "Attribute": _named("""Name CreatedBy CreatedOn Category SheetName RowName Value Unit ExtSystem
        ExtObject ExtIdentifier Description AllowedValues"""),
    "Coordinate": _named("""Name CreatedBy CreatedOn Category SheetName RowName CoordinateXAxis
        CoordinateYAxis CoordinateZAxis ExtSystem ExtObject ExtIdentifier ClockwiseRotation
        ElevationalRotation YawRotation"""),
}  # fmt: skip
#: Kinds that are a place in the building, and not a part of it.
FLOORS, SPACES = ("hull",), ("room",)
PARTS = (
    "run",
    "store",
    "panel",
    "valve",
    "drain",
    "equipment",
    "fitting",
    "penetration",
    "door",
    "way out",
    "cable",
    "marker",
    "insulation",
    "fit-out",
    "dip pipe",
    "concealed entry",
)


def sheet_of(kind: str) -> str:
    """Return the sheet that has a row for each thing of a kind; Facility where none has."""
    if kind in FLOORS:
        return "Floor"
    if kind in SPACES:
        return "Space"
    return "Component" if kind in PARTS else "Facility"
