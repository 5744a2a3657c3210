"""What sits on the crank's ends: nose with drives and damper, rear seal and flywheel."""

from __future__ import annotations

from fitwright.drawing.engine_section import valves as v
from fitwright.drawing.engine_section.along_crank import end_washer
from fitwright.drawing.engine_section.along_head import low_cam_level
from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.ink import Ink
from fitwright.drawing.engine_section.outline import Outline, polygon, round_box

DRIVE = (-0.30, -0.16)
"""Where the camshaft's drive runs, from the block's front face, as shares of the bore."""


def draw_nose(ink: Ink, figure: Figure) -> None:
    """The crank's front end: sprocket, pump where it sits there, cover, seal and damper."""
    b, front, r = figure.sizes.bore, figure.front, figure.sizes.main_journal / 2
    nose = 0.78 * r
    tip = front - (0.95 if figure.clutch_on_crank else 0.45) * b
    pump = figure.pump == "crank-driven internal rotor"
    cover = front - 0.40 * b
    ink.box(tip, -0.85 * nose, front + 0.02 * b, 0.85 * nose, "part")
    ink.box(cover, -nose, front, nose, "part")
    ink.place("nose", (tip + 0.04 * b, 0.5 * nose))
    if not figure.two_stroke:
        ink.draw(round_box(front + DRIVE[0] * b, -1.25 * r, front + DRIVE[1] * b, 1.25 * r, 0.02 * b), "part")
    if pump:
        draw_rotor_pump(ink, figure)
    elif figure.clutch_on_crank:
        end_washer(ink, cover - 0.05 * b, cover + 0.03 * b, nose + 0.06 * b, 1.9 * r, "cut")
        end_washer(ink, cover - 0.05 * b, cover + 0.02 * b, nose, nose + 0.06 * b, "solid")
    if figure.clutch_on_crank:
        _damper(ink, figure, tip, nose)


def _damper(ink: Ink, figure: Figure, tip: float, nose: float) -> None:
    b = figure.sizes.bore
    x0, x1 = tip + 0.08 * b, tip + 0.36 * b
    end_washer(ink, x0, x1, 0.85 * nose, 0.85 * nose + 0.11 * b, "cut other")
    end_washer(ink, x0 + 0.1 * b, x1 - 0.1 * b, 0.85 * nose + 0.11 * b, 0.64 * b, "cut other")
    end_washer(ink, x0, x1, 0.64 * b, 0.68 * b, "solid")
    end_washer(ink, x0, x1, 0.68 * b, 0.84 * b, "cut other")
    ink.box(tip - 0.06 * b, -0.2 * b, tip, 0.2 * b, "part")
    ink.place("damper", ((x0 + x1) / 2, 0.78 * b))


def draw_rotor_pump(ink: Ink, figure: Figure) -> None:
    """A rotor pump around the crank's nose: body, both rotors and cover, cut."""
    b, front = figure.sizes.bore, figure.front
    nose, pocket = 0.78 * figure.sizes.main_journal / 2, figure.sizes.pocket / 2
    pocket = min(max(pocket, nose + 0.18 * b), 0.95 * b)
    x0, x1 = front - 0.62 * b, front - 0.34 * b
    end_washer(ink, x0, x1, nose + 0.03 * b, pocket + 0.13 * b, "cut")
    end_washer(ink, x0 + 0.09 * b, x1 - 0.06 * b, nose, pocket, "void")
    middle = nose + 0.55 * (pocket - nose)
    end_washer(ink, x0 + 0.095 * b, x1 - 0.065 * b, nose, middle - 0.01 * b, "cut close")
    end_washer(ink, x0 + 0.095 * b, x1 - 0.065 * b, middle + 0.01 * b, pocket - 0.012 * b, "cut other")
    end_washer(ink, x0 - 0.02 * b, x0 + 0.06 * b, nose, nose + 0.06 * b, "solid")
    ink.place("pump", (x0 + 0.17 * b, middle + 0.12 * b))
    ink.place("pump", (x0 + 0.17 * b, -middle - 0.12 * b))
    ink.place("pump_drive", (x0 + 0.17 * b, nose))
    ink.place("pump_drive", (x0 + 0.17 * b, -nose))
    low = -pocket - 0.13 * b
    draw_relief(ink, figure, (x0 + 0.05 * b, low - 0.10 * b))


def draw_relief(ink: Ink, figure: Figure, foot: tuple[float, float]) -> None:
    """A relief valve lying along the crank: plunger, spring, plug."""
    b = figure.sizes.bore
    x, y = foot
    ink.draw(round_box(x - 0.04 * b, y - 0.08 * b, x + 0.52 * b, y + 0.08 * b, 0.02 * b), "cut")
    ink.box(x, y - 0.045 * b, x + 0.5 * b, y + 0.045 * b, "void")
    ink.box(x + 0.03 * b, y - 0.045 * b, x + 0.17 * b, y + 0.045 * b, "part")
    ink.spring((x + 0.17 * b, y), (x + 0.43 * b, y), 0.075 * b, 5)
    ink.box(x + 0.43 * b, y - 0.06 * b, x + 0.55 * b, y + 0.06 * b, "part")
    ink.place("relief", (x + 0.30 * b, y))


def draw_cam_drive(ink: Ink, figure: Figure, cam_level: float) -> None:
    """The band of chain, belt or gears in front of the block, from the crank to a camshaft."""
    b, r = figure.sizes.bore, figure.sizes.main_journal / 2
    x0, x1 = figure.front + DRIVE[0] * b, figure.front + DRIVE[1] * b
    big = max(2.5 * r if abs(cam_level) > 4.2 * r else abs(cam_level) - 1.25 * r, 0.25 * b)
    way = 1 if cam_level >= 0 else -1
    ink.box(x0 + 0.03 * b, 1.25 * r * way, x1 - 0.03 * b, cam_level, "chain")
    ink.draw(round_box(x0, cam_level - big * 0.5, x1, cam_level + big * 0.5, 0.02 * b), "part")
    ink.place("cam_drive", ((x0 + x1) / 2, (1.25 * r * way + cam_level) / 2))
    ink.place("timing", ((x0 + x1) / 2, cam_level + big * 0.35 * way))


def draw_timing_cover(ink: Ink, figure: Figure, level: float) -> None:
    """The cover over the drive, from below the crank to above the camshaft."""
    b, front = figure.sizes.bore, figure.front
    x, low = front - 0.345 * b, -figure.sizes.main_journal / 2 - 0.42 * b
    top = figure.face + 1.36 * b if figure.overhead_cams else min(level + 0.45 * b, figure.deck)
    cover = (
        Outline().move((front, low)).line((x + 0.08 * b, low)).curve((x, low), (x, low), (x, low + 0.08 * b))
    )
    cover.line((x, top - 0.12 * b)).curve((x, top), (x, top), (x + 0.12 * b, top)).line(
        (front + 0.04 * b, top)
    )
    ink.draw(cover, "wall")


def cam_level(figure: Figure) -> float | None:
    """Height of the camshaft that the drive runs to."""
    if figure.two_stroke:
        return None
    if figure.overhead_cams:
        return figure.face + v.CAM * figure.sizes.bore
    return low_cam_level(figure) if not figure.flat else None


def draw_rear(ink: Ink, figure: Figure) -> None:
    """The crank's rear end: seal in its carrier, flange, flywheel; or a tapered end."""
    b, rear, r = figure.sizes.bore, figure.rear, figure.sizes.main_journal / 2
    land = 0.95 * r if figure.clutch_on_crank else 0.75 * r
    ink.box(rear - 0.02 * b, -land, rear + 0.22 * b, land, "part")
    end_washer(ink, rear, rear + 0.14 * b, land + 0.09 * b, land + 0.34 * b, "cut other")
    for way in (-1, 1):
        seal = [
            (rear + 0.02 * b, land + 0.09 * b),
            (rear + 0.13 * b, land + 0.09 * b),
            (rear + 0.10 * b, land + 0.04 * b),
        ]
        seal += [(rear + 0.05 * b, land), (rear + 0.04 * b, land + 0.05 * b)]
        ink.draw(polygon([(x, way * y) for x, y in seal]), "solid")
        ink.place("rear_seal", (rear + 0.06 * b, way * (land + 0.05 * b)))
        ink.place("seal_carrier", (rear + 0.07 * b, way * (land + 0.26 * b)))
    if figure.clutch_on_crank:
        _flywheel(ink, figure, rear + 0.22 * b)
    else:
        _tapered_end(ink, figure, rear + 0.22 * b, land)


def _flywheel(ink: Ink, figure: Figure, x: float) -> None:
    b, r = figure.sizes.bore, figure.sizes.main_journal / 2
    flange, wheel = 1.15 * r, 1.35 * b
    ink.draw(round_box(x - 0.01 * b, -flange, x + 0.14 * b, flange, 0.02 * b), "part")
    x0 = x + 0.14 * b
    for way in (-1, 1):
        disc = [(x0, 0.42 * r), (x0 + 0.24 * b, 0.42 * r), (x0 + 0.24 * b, 1.3 * r), (x0 + 0.2 * b, 1.35 * r)]
        disc += [(x0 + 0.2 * b, wheel - 0.4 * b), (x0 + 0.26 * b, wheel - 0.36 * b), (x0 + 0.26 * b, wheel)]
        disc += [
            (x0, wheel),
            (x0, wheel - 0.3 * b),
            (x0 + 0.07 * b, wheel - 0.34 * b),
            (x0 + 0.07 * b, 1.45 * r),
            (x0, 1.35 * r),
        ]
        ink.draw(polygon([(px, way * py) for px, py in disc]), "cut")
        ink.box(x0 + 0.02 * b, way * wheel, x0 + 0.15 * b, way * (wheel + 0.05 * b), "part")
        ink.line((x0 - 0.16 * b, way * 0.8 * r), (x0 + 0.34 * b, way * 0.8 * r), cls="centre")
        ink.box(x0 + 0.24 * b, way * 0.62 * r, x0 + 0.33 * b, way * 0.98 * r, "part")
        ink.place("flywheel", (x0 + 0.15 * b, way * (wheel - 0.15 * b)))
    ink.place("clutch", (x0 + 0.26 * b, wheel - 0.2 * b))


def _tapered_end(ink: Ink, figure: Figure, x: float, land: float) -> None:
    b = figure.sizes.bore
    points = [(x, land), (x + 0.3 * b, 0.75 * land), (x + 0.3 * b, -0.75 * land), (x, -land)]
    ink.draw(polygon(points), "part")
    ink.box(x + 0.3 * b, -0.5 * land, x + 0.46 * b, 0.5 * land, "part")
    for way in (-0.3, 0.0, 0.3):
        ink.line((x + 0.31 * b, way * land), (x + 0.45 * b, way * land))
    ink.place("flywheel", (x + 0.15 * b, 0.8 * land))
