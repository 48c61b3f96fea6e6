"""IFC 4.3 (ISO 16739-1:2024): the site, its hulls, and everything in them that has a place.

Geometry is plain: pipes are cylinders between their stations, all else the box or ball that holds
it. Coordinates are the site grid's, metres; nothing says where on earth it lies. What the record
says of each stands beside it as properties, with the entries it rests on.
"""

from __future__ import annotations

import math
import re
import uuid
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from record.exports.items import Item, Solid, about, items
from record.exports.needed import needed
from record.place.solids import ANY_M, Block, Capsule
from record.readers import View

SCHEMA = "IFC4X3_ADD2"
#: Kind of thing → the class of IFC that means it; anything else is a proxy.
CLASSES: Mapping[str, str] = {
    "run": "IfcPipeSegment",
    "valve": "IfcValve",
    "drain": "IfcWasteTerminal",
    "fitting": "IfcPipeFitting",
    "door": "IfcDoor",
    "cable": "IfcCableSegment",
    "insulation": "IfcCovering",
}
OURS = "AsBuried_Record"  # names that begin with Pset_ are the standard's own
_NAMESPACE = uuid.UUID("6f0f5a3e-6d0b-5c0e-9d55-1f6b0f0f7a11")


def ifc(view: View) -> bytes:
    """Return the model as a STEP file (ISO 10303-21). Raises NotInstalled."""
    return _Model(view, needed("ifcopenshell", "ifc")).written()


class _Model:
    """One file while it is written."""

    def __init__(self, view: View, library: Any) -> None:
        self.view, self.library = view, library
        self.file = library.file(schema_version=(4, 3, 2, 0))
        self.origin = self._axes()
        self.body = self._context()
        self.grid = self._made("IfcLocalPlacement", RelativePlacement=self.origin)

    def written(self) -> bytes:
        project = self._rooted("IfcProject", "project", Name=self.view.built.site)
        project.RepresentationContexts = [self.body.ParentContext]
        project.UnitsInContext = self._units()
        site = self._rooted(
            "IfcSite", "site", Name=self.view.built.site_name(), ObjectPlacement=self.grid,
            CompositionType="ELEMENT",
        )  # fmt: skip
        house = self._rooted(
            "IfcBuilding", "shelter", Name=self.view.built.site_name(), ObjectPlacement=self.grid,
            CompositionType="ELEMENT",
        )  # fmt: skip
        self._relate(
            "IfcRelAggregates", "in project", RelatingObject=project, RelatedObjects=[site]
        )
        self._relate("IfcRelAggregates", "on site", RelatingObject=site, RelatedObjects=[house])
        self._properties(site, about(self.view))
        parts = [self._element(item) for item in items(self.view) if item.solids]
        if parts:
            self._relate(
                "IfcRelContainedInSpatialStructure", "in shelter",
                RelatedElements=parts, RelatingStructure=house,
            )  # fmt: skip
        return self._header(str(self.file.to_string())).encode("ascii")

    def _header(self, text: str) -> str:
        """Put the newest entry's day where the library puts the clock."""
        stamps = [e.link.recorded for e in self.view.built.entries if e.content]
        stamp = max(stamps, default="1970-01-01T00:00:00Z").removesuffix("Z")
        return re.sub(
            r"FILE_NAME\('[^']*','[^']*'", f"FILE_NAME('{self.view.built.site}.ifc','{stamp}'", text
        )

    def _made(self, kind: str, **values: Any) -> Any:
        return self.file.create_entity(kind, **values)

    def _rooted(self, kind: str, what: str, **values: Any) -> Any:
        """Make what has an identity: the same thing of the same site has the same, each time."""
        name = f"{self.view.built.site}\n{kind}\n{what}"
        found = self.library.guid.compress(uuid.uuid5(_NAMESPACE, name).hex)
        return self._made(kind, GlobalId=found, **values)

    def _relate(self, kind: str, what: str, **values: Any) -> None:
        self._rooted(kind, what, **values)

    def _units(self) -> Any:
        units = [
            self._made("IfcSIUnit", UnitType=kind, Name=name)
            for kind, name in (
                ("LENGTHUNIT", "METRE"),
                ("AREAUNIT", "SQUARE_METRE"),
                ("VOLUMEUNIT", "CUBIC_METRE"),
                ("PLANEANGLEUNIT", "RADIAN"),
            )
        ]
        return self._made("IfcUnitAssignment", Units=units)

    def _context(self) -> Any:
        whole = self._made(
            "IfcGeometricRepresentationContext", ContextType="Model", CoordinateSpaceDimension=3,
            Precision=1e-4, WorldCoordinateSystem=self.origin,
        )  # fmt: skip
        return self._made(
            "IfcGeometricRepresentationSubContext", ContextIdentifier="Body", ContextType="Model",
            ParentContext=whole, TargetView="MODEL_VIEW",
        )  # fmt: skip

    def _point(self, *at: float) -> Any:
        return self._made("IfcCartesianPoint", Coordinates=tuple(round(v, 6) for v in at))

    def _direction(self, *to: float) -> Any:
        return self._made("IfcDirection", DirectionRatios=tuple(to))

    def _axes(
        self,
        at: Sequence[float] = (0.0, 0.0, 0.0),
        up: Sequence[float] | None = None,
        right: Sequence[float] | None = None,
    ) -> Any:
        return self._made(
            "IfcAxis2Placement3D", Location=self._point(*at),
            Axis=self._direction(*up) if up else None,
            RefDirection=self._direction(*right) if right else None,
        )  # fmt: skip

    def _element(self, item: Item) -> Any:
        kind = CLASSES.get(item.kind, "IfcBuildingElementProxy")
        # A pipe of no known level is no pipe that can be drawn: it has its words alone.
        forms = [self._solid(solid) for solid in item.solids if solid.bottom_m is not None]
        made = self._rooted(
            kind, item.tag, Name=item.tag, Description=item.solids[0].shape.words, Tag=item.tag,
            ObjectPlacement=self._made(
                "IfcLocalPlacement", PlacementRelTo=self.grid, RelativePlacement=self.origin
            ),
            Representation=self._shape(forms) if forms else None,
        )  # fmt: skip
        if kind == "IfcBuildingElementProxy":
            made.ObjectType = item.kind
        self._properties(made, [("tag", item.tag), ("kind", item.kind), *item.fields, *_sure(item)])
        return made

    def _shape(self, forms: Sequence[Any]) -> Any:
        kinds = {form.is_a() for form in forms}
        swept = kinds == {"IfcExtrudedAreaSolid"}
        shown = self._made(
            "IfcShapeRepresentation", ContextOfItems=self.body, RepresentationIdentifier="Body",
            RepresentationType="SweptSolid" if swept else "SolidModel", Items=forms,
        )  # fmt: skip
        return self._made("IfcProductDefinitionShape", Representations=[shown])

    def _solid(self, solid: Solid) -> Any:
        form = solid.shape.form
        return self._box(solid, form) if isinstance(form, Block) else self._bar(solid, form)

    def _box(self, solid: Solid, form: Block) -> Any:
        (x0, y0), (x1, y1) = solid.corners[0], solid.corners[1]
        long = math.dist((x0, y0), (x1, y1)) or 1.0
        right = ((x1 - x0) / long, (y1 - y0) / long, 0.0)
        middle = [(a + b) / 2 for a, b in zip(solid.corners[0], solid.corners[2], strict=True)]
        sides = [max(form.high[n] - form.low[n], 1e-4) for n in range(3)]
        profile = self._made(
            "IfcRectangleProfileDef", ProfileType="AREA", XDim=sides[0], YDim=sides[1]
        )
        at = self._axes((*middle, solid.bottom_m or 0.0), (0.0, 0.0, 1.0), right)
        return self._raised(profile, at, min(sides[2], ANY_M))

    def _bar(self, solid: Solid, form: Capsule) -> Any:
        start, end = solid.line
        long = math.dist(start, end)
        if long < 1e-4:
            ball = self._made("IfcSphere", Position=self._axes(start), Radius=form.radius_m)
            return self._made("IfcCsgSolid", TreeRootExpression=ball)
        along = tuple((b - a) / long for a, b in zip(start, end, strict=True))
        profile = self._made("IfcCircleProfileDef", ProfileType="AREA", Radius=form.radius_m)
        aside = (0.0, 0.0, 1.0) if abs(along[2]) < 0.9 else (1.0, 0.0, 0.0)
        return self._raised(profile, self._axes(start, along, aside), long)

    def _raised(self, profile: Any, at: Any, depth: float) -> Any:
        return self._made(
            "IfcExtrudedAreaSolid", SweptArea=profile, Position=at, Depth=depth,
            ExtrudedDirection=self._direction(0.0, 0.0, 1.0),
        )  # fmt: skip

    def _properties(self, of: Any, told: Iterable[tuple[str, str]]) -> None:
        # A set holds a name once; of two the later is the record's own word on itself.
        named = dict(told)
        values = [
            self._made(
                "IfcPropertySingleValue",
                Name=name,
                NominalValue=self.file.create_entity("IfcText", words),
            )
            for name, words in named.items()
        ]
        held = self._rooted(
            "IfcPropertySet", f"words of {of.GlobalId}", Name=OURS, HasProperties=values
        )
        self._relate(
            "IfcRelDefinesByProperties", f"of {of.GlobalId}",
            RelatedObjects=[of], RelatingPropertyDefinition=held,
        )  # fmt: skip


def _sure(item: Item) -> list[tuple[str, str]]:
    """How sure the place is, of the least sure of its solids, and what the record rests on."""
    solids = item.solids
    told = [
        ("tolerance across", f"{max(solid.tolerance_m for solid in solids):.3f} m"),
        ("tolerance up", f"{max(solid.tolerance_up_m for solid in solids):.3f} m"),
        ("place is", ", ".join(sorted({solid.shape.basis for solid in solids}))),
        ("tolerance assumed", "yes" if any(solid.shape.assumed for solid in solids) else "no"),
        ("entries", ", ".join(item.entries)),
    ]
    missing = sorted({name for solid in solids for name in solid.shape.missing})
    if missing:
        told.append(("measures not recorded", ", ".join(missing)))
    if any(solid.bottom_m is None for solid in solids):
        told.append(("level", "not recorded: it is not drawn, and it is there"))
    return told
