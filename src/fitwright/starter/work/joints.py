"""The tightening groups of a starter sheet: which joints there are, where they sit, and no values.

Thread, class, lubricant and torques are the maker's; each group says which lines to fill in. How many
fasteners a joint has is what such an engine usually has, and the table says so. Distances only place
them in the picture and set the order.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitwright.starter.assumed import Assumed
from fitwright.starter.blocks import TableBlock, Value
from fitwright.starter.family import ONE, Family, numbered
from fitwright.starter.plan import Plan
from fitwright.starter.work.found import Found, literal

OUTWARDS: Final = "from the centre outwards"
CROSSWISE: Final = "crosswise"
COUNT: Final = "as many as usual: write yours"
PICTURE: Final = "distances assumed, for picture and order only"
_TO_FILL: Final = (
    "No value yet. From your manual, with its page:",
    'thread = "M.."',
    'property_class = ".."',
    'lubricant = "engine_oil"',
    'passes = [{ torque = ".. N m" }, { torque = ".. N m" }]',
    'source = "manual"',
    'at = "p."',
)
_TO_FILL_INCH: Final = tuple(line.replace("N m", "lbf ft").replace('"M.."', '".."') for line in _TO_FILL)


def joints(plan: Plan, found: Found) -> tuple[TableBlock, ...]:
    """All groups that this sheet's engine has, in the order of the job."""
    return (*_bottom_end(plan, found), *_pump(plan, found), *_top_end(plan, found), *_outside(plan, found))


def case_of(plan: Plan) -> bool:
    """Whether the mains are held by halves of a case or by carriers, without caps."""
    return plan.split_case or not plan.plain


def heads(plan: Plan) -> Family:
    """One member for each head: for each bank, for each cylinder that is cooled by air, else one."""
    if plan.banks:
        return Family((plan.banks,))
    return plan.each_cylinder if plan.air_cooled and plan.cylinders > 1 else ONE


def head_joint(plan: Plan) -> str:
    """The key of the joint of the head (or of each head), as a template."""
    return "head_bolts.{0}" if heads(plan).groups else "head_bolts"


def cam_joint(plan: Plan) -> str:
    """The key of the joint of the cam caps, as a template."""
    return ".".join(["cam_caps", *(f"{{{number}}}" for number in range(len(plan.cam_groups)))])


def _group(
    plan: Plan,
    key: str,
    title: str,
    fasteners: tuple[str, ...],
    *,
    pattern: dict[str, str | int] | None = None,
    order: str | tuple[str, ...] | None = None,
    family: Family = ONE,
    critical: bool = False,
    comment: tuple[str, ...] = (),
) -> TableBlock:
    values: dict[str, Value] = {"title": title, "fasteners": fasteners}
    if pattern is not None:
        values["pattern"] = pattern
    if order is not None:
        values["order"] = order
    if critical:
        values["critical"] = True
    return TableBlock(
        section="tightening_groups",
        key=key,
        values=values,
        family=family,
        remarks={"fasteners": COUNT, **({"pattern": PICTURE} if pattern else {})},
        comment=comment,
        to_fill=_TO_FILL_INCH if plan.units == "inch" else _TO_FILL,
    )


def _rows(plan: Plan, columns: int, rows: int, row_spacing: float, **more: str) -> dict[str, str | int]:
    """Columns a little further apart than the bore, rows so many bores apart."""
    write = Assumed(plan).length
    pattern: dict[str, str | int] = {"columns": columns, "rows": rows}
    if columns > 1:
        pattern["column_spacing"] = write(1.15 * plan.bore)
    if rows > 1:
        pattern["row_spacing"] = write(row_spacing * plan.bore)
    return {**pattern, **more}


def _circle(plan: Plan, bores: float) -> dict[str, str | int]:
    return {"circle": Assumed(plan).length(bores * plan.bore)}


def _bottom_end(plan: Plan, found: Found) -> Iterator[TableBlock]:
    if not found.has("mains"):
        return
    mains = plan.each_main.key("{0}")
    if case_of(plan):
        yield _group(
            plan,
            "case_bolts",
            "Crankcase halves, or carriers of the main bearings",
            (literal(f"case.bolt.{{1..{2 * plan.mains}}}"),),
            pattern=_rows(plan, plan.mains, 2, 1.2),
            order=OUTWARDS,
            critical=True,
        )
    else:
        yield _group(
            plan,
            "main_caps",
            "Main caps",
            (literal(f"main_cap.{mains}.bolt.{{a,b}}"),),
            pattern=_rows(plan, plan.mains, 2, 1.0),
            order=OUTWARDS,
            critical=True,
            comment=("The crank is turned after each cap.",),
        )
    if plan.plain:
        rods = plan.each_cylinder.key("{0}")
        yield _group(
            plan,
            "rod_bolts",
            "Rod bolts",
            (literal(f"rod.{rods}.bolt.{{a,b}}"),),
            pattern=_rows(plan, plan.cylinders, 2, 0.7),
            critical=True,
            comment=(
                'By stretch, where the maker states it: method = "stretch", and in the last pass',
                'stretch_low = "..", stretch_high = ".."; then log the free length of each bolt first.',
            ),
        )


def _pump(plan: Plan, found: Found) -> Iterator[TableBlock]:
    if not found.has("pump"):
        return
    yield _group(
        plan,
        "pump_cover",
        "Oil pump cover",
        (literal("pump.cover.screw.{1..4}"),),
        pattern=_circle(plan, 0.9),
        order=CROSSWISE,
    )
    yield _group(
        plan,
        "pump_body",
        "Oil pump body",
        (literal("pump.body.bolt.{1..4}"),),
        pattern=_circle(plan, 1.2),
        order=CROSSWISE,
    )
    yield _group(plan, "pickup", "Oil pickup", (literal("pickup.bolt.{a,b}"),))


def _top_end(plan: Plan, found: Found) -> Iterator[TableBlock]:
    if not found.has("chambers"):
        return
    family = heads(plan)
    own = family.groups and not plan.banks
    columns = 2 if own else plan.cylinders // max(1, len(plan.banks)) + 1
    name = "head.{0}.bolt" if family.groups else "head.bolt"
    yield _group(
        plan,
        head_joint(plan),
        "Head bolts or nuts, {0}" if family.groups else "Head bolts or nuts",
        (f"{name}.{literal(f'{{1..{2 * columns}}}')}",),
        pattern=_rows(plan, columns, 2, 1.3, filled="row by row"),
        order=OUTWARDS,
        family=family,
        critical=True,
        comment=(
            "Once more after a heat cycle, where the maker says so: a last pass with after_heat = true,",
            "and a step of its own that tightens this group again.",
        ),
    )
    if plan.overhead_cams:
        yield _cam_caps(plan)
    if plan.rockers:
        yield _group(
            plan,
            "rocker_pillars",
            "Rocker shaft or rockers",
            (literal(f"rocker_pillar.{plan.each_cylinder.key('{0}')}.bolt"),),
            pattern=_rows(plan, plan.cylinders, 1, 1.0),
            order=OUTWARDS,
        )


def _cam_caps(plan: Plan) -> TableBlock:
    family = Family(plan.cam_groups)
    title = " ".join(f"{{{number}}}" for number in range(len(plan.cam_groups)))
    bearings = Family((numbered(plan.cam_bearings),)).key("{0}")
    name = cam_joint(plan).replace("cam_caps", "cam_cap", 1)
    return _group(
        plan,
        cam_joint(plan),
        f"Cam caps, {title}" if title else "Cam caps",
        (f"{name}.{literal(f'{bearings}.bolt.{{a,b}}')}",),
        pattern=_rows(plan, plan.cam_bearings, 2, 0.5),
        order=OUTWARDS,
        family=family,
    )


def _outside(plan: Plan, found: Found) -> Iterator[TableBlock]:
    if not found.has("crank_ends"):
        return
    yield _group(
        plan,
        "flywheel",
        "Flywheel",
        (literal("flywheel.bolt.{1..6}"),),
        pattern=_circle(plan, 0.85),
        order=CROSSWISE,
        critical=True,
        comment=("New bolts each time, where the maker says so: one_time_use = true.",),
    )
    yield _group(plan, "damper_bolt", "Damper or pulley", ("damper.bolt",), critical=True)
