"""Main bearings that are plain: shells or white metal, and the tunnel that holds them."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.family import Family
from fitwright.starter.plan import Plan
from fitwright.starter.rules import bottom_end as rules
from fitwright.starter.rules.rule import Bounds
from fitwright.starter.subjects.tunnel import STATION, register_widths, registers, tunnel

HALVES = ("upper", "lower")
ENDS = ("front", "rear")
ROUND_A_JOURNAL = ("0", "90")
OFF_THE_JOINT = ("0", "45", "135")


def main_bearings(plan: Plan) -> Section:
    """Journals, housings, shells and the fits between them, one of each per main."""
    return Section(
        title="Main bearings",
        comment=(
            "Angles run clockwise seen from the nose, 0 towards the deck. Bores are read at 0, 45 and 135",
            "degrees: across the joint (90) a shell is relieved and always reads large.",
        ),
        stations=(_station(plan),),
        parts=_parts(plan),
        dimensions=(
            *_journals(plan),
            *(_shell_dimensions(plan) if plan.shells else _bearings(plan)),
            *register_widths(plan),
        ),
        fits=(
            *_clearance(plan),
            *(_shell_fits(plan) if plan.shells else ()),
            *_form(plan),
            *registers(plan),
        ),
    )


def journal_form(plan: Plan) -> tuple[Bounds, ...]:
    """Out-of-round and taper of a journal: closer for competition."""
    return ((rules.JOURNAL_FORM_CLOSE if plan.competition else rules.JOURNAL_FORM).bounds(),)


def closing(plan: Plan) -> str:
    """What holds the mains: caps, or the other half of the crankcase."""
    return "case halves tightened" if plan.split_case else "caps tightened"


def _station(plan: Plan) -> StationBlock:
    return StationBlock(
        id=STATION,
        title="Mains",
        caution=(
            "Check the stand's rating and bolt length against the engine's real weight, lock its head, "
            "and keep hands clear of the crank's throws. The maker's manual governs."
        ),
        eye_checks=(
            ("backs_clean", "Shell backs and housings clean and dry, tangs seated, oil holes in line?")
            if plan.shells
            else ("contact", "Blue shows even contact along every white-metal bearing, no hard edge?"),
            ("galleries_clean", "Every gallery brushed and flushed both ways, plugs back in?"),
            ("turns_by_hand", f"Crank turns by hand with all {closing(plan)}, no drag point?"),
        ),
    )


def _parts(plan: Plan) -> tuple[PartBlock, ...]:
    if plan.shells:
        return tuple(
            PartBlock(
                key=f"main.{{0}}.shell_{half}",
                title=f"Main {{0}} {half} shell",
                material="steel",
                family=plan.each_main,
            )
            for half in HALVES
        )
    return (
        PartBlock(
            key="main.{0}.bearing",
            title="Main {0} white-metal bearing",
            material="bronze",
            family=plan.each_main,
        ),
    )


def _journals(plan: Plan) -> tuple[DimensionBlock, ...]:
    return (
        DimensionBlock(
            key="main.{0}.journal",
            title="Main {0} journal",
            family=plan.each_main,
            part="crank",
            sense="diametral",
            nominal=plan.main_journal,
            nominal_guessed="main_journal" in plan.guessed,
            planes=ENDS,
            angles=ROUND_A_JOURNAL,
            condition="bare",
            instrument=("outside micrometer",),
            station=STATION,
            comment=("Off the oil hole. Replace the nominal size by your manual's.",),
        ),
    )


def _shell_dimensions(plan: Plan) -> tuple[DimensionBlock, ...]:
    journal = plan.main_journal
    each = plan.each_main
    return (
        DimensionBlock(
            key="main.{0}.housing_bore",
            title="Main {0} housing bore",
            family=each,
            part="block",
            sense="diametral",
            plausible=(journal * 1.02, journal * 1.02 + 0.012),
            planes=ENDS,
            angles=OFF_THE_JOINT,
            condition="mains_tightened_bare",
            instrument=("bore gauge",),
            station=STATION,
            comment=(f"Without shells, {closing(plan)}. The drawing's band belongs here as limits.",),
        ),
        *_walls(each),
        DimensionBlock(
            key="main.{0}.bare_gap",
            title="Main {0} gap at the joint, other side tightened",
            family=each,
            through=("main.{0}.housing_bore", "main.{0}.shell_upper", "main.{0}.shell_lower"),
            sense="linear",
            condition="one_side_tightened",
            instrument=("feeler blades",),
            station=STATION,
        ),
        fitted_bore(each, "main", "Main", "mains_tightened", STATION),
        *tunnel(plan),
    )


def _walls(each: Family) -> tuple[DimensionBlock, ...]:
    halves = Family((*each.groups, HALVES))
    return (
        DimensionBlock(
            key="main.{0}.shell_{1}.wall",
            title="Main {0} {1} shell, wall at the crown",
            family=halves,
            part="main.{0}.shell_{1}",
            sense="linear",
            plausible=(0.0008, 0.006),
            condition="free",
            instrument=("ball micrometer",),
            station=STATION,
            comment=("Also where only a box label states it: then it is a stated size, not a reading.",),
        ),
        DimensionBlock(
            key="main.{0}.shell_{1}.free_width",
            title="Main {0} {1} shell, free width across the joint",
            family=halves,
            part="main.{0}.shell_{1}",
            sense="diametral",
            condition="free",
            instrument=("caliper",),
            station=STATION,
        ),
    )


def fitted_bore(each: Family, name: str, title: str, condition: str, station: str) -> DimensionBlock:
    """The bore over fitted shells; it changes when housing or either shell does."""
    return DimensionBlock(
        key=f"{name}.{{0}}.fitted_bore",
        title=f"{title} {{0}} fitted bore",
        family=each,
        through=(f"{name}.{{0}}.housing_bore", f"{name}.{{0}}.shell_upper", f"{name}.{{0}}.shell_lower"),
        sense="diametral",
        planes=ENDS,
        angles=OFF_THE_JOINT,
        condition=condition,
        instrument=("bore gauge",),
        station=station,
        comment=("Set the bore gauge in the micrometer that read the journals: its error then cancels.",),
    )


def _bearings(plan: Plan) -> tuple[DimensionBlock, ...]:
    return (
        DimensionBlock(
            key="main.{0}.fitted_bore",
            title="Main {0} bored white metal",
            family=plan.each_main,
            part="main.{0}.bearing",
            sense="diametral",
            planes=ENDS,
            angles=OFF_THE_JOINT,
            condition="mains_tightened",
            instrument=("bore gauge",),
            station=STATION,
            comment=("Removing a shim leaf on each side lowers the cap by one leaf, not by two.",),
        ),
    )


def _clearance(plan: Plan) -> tuple[FitBlock, ...]:
    shells = (
        "main.{0}.housing_bore - main.{0}.shell_upper.wall - main.{0}.shell_lower.wall - main.{0}.journal"
    )
    rule = rules.MAIN_SHELLS if plan.shells else rules.WHITE_METAL
    return (
        FitBlock(
            key="main.{0}.running_clearance",
            title="Main {0} running clearance",
            family=plan.each_main,
            kind="running clearance",
            sense="diametral",
            by_parts=shells if plan.shells else None,
            fitted="main.{0}.fitted_bore - main.{0}.journal",
            governing="fitted" if plan.shells else None,
            station=STATION,
            critical=True,
            removes_metal=True,
            rules=(rule.bounds(plan.main_journal, also=f"{plan.block_material} block"),),
            comment=(
                ("If the two routes differ by more than 0.006 mm (0.2 thou), suspect crush, seat or gauge.",)
                if plan.shells
                else ()
            ),
        ),
    )


def _shell_fits(plan: Plan) -> tuple[FitBlock, ...]:
    halves = Family((*plan.each_main.groups, HALVES))
    return (
        FitBlock(
            key="main.{0}.shell_crush",
            title="Main {0} shell crush",
            family=plan.each_main,
            kind="gap",
            sense="linear",
            fitted="main.{0}.bare_gap",
            station=STATION,
            rules=(rules.SHELL_CRUSH.bounds(),),
            comment=("A wrong housing is not cured by another shell: crush stays wrong. Never file shells.",),
        ),
        FitBlock(
            key="main.{0}.shell_{1}.free_spread",
            title="Main {0} {1} shell, free spread",
            family=halves,
            kind="chain",
            sense="diametral",
            by_parts="main.{0}.shell_{1}.free_width - main.{0}.housing_bore",
            judged="mean",
            station=STATION,
            rules=(rules.SHELL_FREE_SPREAD.bounds(),),
        ),
        FitBlock(
            key="main.{0}.housing_out_of_round",
            title="Main {0} housing out-of-round",
            family=plan.each_main,
            kind="out-of-round",
            sense="diametral",
            form_of="main.{0}.housing_bore",
            station=STATION,
            removes_metal=True,
            rules=(rules.HOUSING_OUT_OF_ROUND.bounds(),),
        ),
    )


def _form(plan: Plan) -> tuple[FitBlock, ...]:
    return tuple(
        FitBlock(
            key=f"main.{{0}}.journal_{kind.replace('-', '_')}",
            title=f"Main {{0}} journal {kind}",
            family=plan.each_main,
            kind=kind,
            sense="diametral",
            form_of="main.{0}.journal",
            station=STATION,
            removes_metal=True,
            rules=journal_form(plan),
        )
        for kind in ("out-of-round", "taper")
    )
