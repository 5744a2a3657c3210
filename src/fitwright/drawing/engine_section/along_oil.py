"""The oil side along the crank: sump, pickup, pump where it sits, and the gallery."""

from __future__ import annotations

from fitwright.drawing.engine_section.along_crank import cap_foot
from fitwright.drawing.engine_section.along_ends import DRIVE, draw_relief
from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.ink import Ink
from fitwright.drawing.engine_section.outline import Outline, Point, round_box, rounded


def rail(figure: Figure) -> float:
    """Lower face of the crankcase, where the sump is bolted on."""
    return cap_foot(figure) - 0.05 * figure.sizes.bore


def well(figure: Figure) -> float:
    """Floor of the sump at its deepest."""
    deep = 0.26 if figure.dry_sump else 0.72
    return -(figure.case + deep * figure.sizes.bore)


def draw_case(ink: Ink, figure: Figure) -> None:
    """End walls of the crankcase below the crank, its lower rail, and the sump."""
    b, front, rear = figure.sizes.bore, figure.front, figure.rear
    wall = 0.09 * b
    for x in (front, rear - wall):
        ink.box(x, rail(figure), x + wall, 0.0, "cut")
    ink.line((front + wall, rail(figure)), (rear - wall, rail(figure)))
    ink.line((front + wall, rail(figure) + 0.05 * b), (rear - wall, rail(figure) + 0.05 * b))
    _pan(ink, figure)


def _pan(ink: Ink, figure: Figure) -> None:
    b, front, rear = figure.sizes.bore, figure.front, figure.rear
    shallow, deep = min(-(figure.case + 0.02 * b), rail(figure) - 0.1 * b), well(figure)
    x0, x1 = front + 0.03 * b, rear - 0.03 * b
    step = x0 + 0.42 * (x1 - x0) if not figure.dry_sump else x1 - 0.2 * b
    path = Outline().move((front - 0.02 * b, rail(figure))).line((x0 + 0.03 * b, rail(figure)))
    if figure.dry_sump or x1 - x0 < 2.2 * b:
        path.line((x0 + 0.05 * b, deep), (x1 - 0.05 * b, deep))
    else:
        path.line((x0 + 0.05 * b, shallow), (step, shallow), (step + 0.18 * b, deep), (x1 - 0.05 * b, deep))
    path.line((x1 - 0.03 * b, rail(figure)), (rear + 0.02 * b, rail(figure)))
    ink.draw(path, "wall")
    plug = x1 - 0.45 * b
    ink.box(plug - 0.09 * b, deep - 0.075 * b, plug + 0.09 * b, deep - 0.012 * b, "part")
    if not figure.dry_sump:
        level = deep + 0.42 * b
        left = x0 + 0.05 * b if x1 - x0 < 2.2 * b else step + 0.1 * b
        ink.line((left, level), (x1 - 0.05 * b, level), cls="level")
    ink.place("sump", (x1 - 0.05 * b, (deep + rail(figure)) / 2))


def draw_oil(ink: Ink, figure: Figure) -> None:
    """Pump, pickup and the pipes between them."""
    if figure.pump in {"none", "crank-driven internal rotor"}:
        if figure.pump != "none":
            _pickup(ink, figure, (figure.front - 0.45 * figure.sizes.bore, -0.75 * figure.sizes.bore))
        return
    if figure.dry_sump:
        _stages(ink, figure)
        return
    body = _wet_pump(ink, figure)
    _pickup(ink, figure, body)


def pump_at(figure: Figure) -> float:
    """Where a pump in the sump stands along the crank."""
    b = figure.sizes.bore
    if figure.pump == "chain-driven":
        return figure.front + 0.28 * b
    room = figure.rear - figure.front
    return figure.front + (0.30 if room < 2.2 * b else 0.5) * room


def _wet_pump(ink: Ink, figure: Figure) -> Point:
    """A pump in the sump; returns where its suction pipe joins."""
    b, x = figure.sizes.bore, pump_at(figure)
    top = -(figure.case + 0.05 * b)
    if figure.pump == "chain-driven":
        y = min(top - 0.12 * b, well(figure) + 0.5 * b)
        x0, x1 = figure.front + DRIVE[0] * b, figure.front + DRIVE[1] * b
        r = figure.sizes.main_journal / 2
        ink.box(x0 + 0.03 * b, -1.25 * r, x1 - 0.03 * b, y, "chain")
        ink.box(x0 + 0.02 * b, y - 0.05 * b, x + 0.2 * b, y + 0.05 * b, "part")
        ink.draw(round_box(x0, y - 0.24 * b, x1, y + 0.24 * b, 0.02 * b), "part")
        ink.place("pump_drive", ((x0 + x1) / 2, y + 0.2 * b))
        ink.draw(round_box(x - 0.14 * b, y - 0.30 * b, x + 0.20 * b, y + 0.30 * b, 0.03 * b), "cut")
        for way in (-1, 1):
            ink.box(x - 0.05 * b, y + way * 0.05 * b, x + 0.12 * b, y + way * 0.15 * b, "cut close")
            ink.box(x - 0.05 * b, y + way * 0.16 * b, x + 0.12 * b, y + way * 0.24 * b, "cut other")
        ink.place("pump", (x + 0.04 * b, y - 0.16 * b))
        draw_relief(ink, figure, (x + 0.24 * b, y + 0.18 * b))
        return x + 0.2 * b, y - 0.15 * b
    y0, y1 = well(figure) + 0.22 * b, well(figure) + 0.56 * b
    drive_top = 0.0 if figure.pump == "camshaft-driven" else -0.2 * b
    ink.box(x - 0.17 * b, y1, x - 0.07 * b, drive_top, "hidden")
    ink.draw(round_box(x - 0.32 * b, y0, x + 0.32 * b, y1 + 0.06 * b, 0.03 * b), "cut")
    ink.box(x - 0.25 * b, y0 + 0.07 * b, x + 0.25 * b, y1 - 0.02 * b, "void")
    for way in (-1, 1):
        ink.box(x + way * 0.005 * b, y0 + 0.075 * b, x + way * 0.245 * b, y1 - 0.025 * b, "part")
        for tooth in range(1, 5):
            ink.line(
                (x + way * tooth * 0.05 * b, y0 + 0.075 * b), (x + way * tooth * 0.05 * b, y1 - 0.025 * b)
            )
        ink.box(x + way * 0.09 * b, y0 + 0.03 * b, x + way * 0.15 * b, y1 + 0.03 * b, "part")
    ink.box(x - 0.16 * b, y1, x - 0.08 * b, y1 + 0.2 * b, "part")
    ink.place("pump", (x + 0.12 * b, (y0 + y1) / 2))
    ink.place("pump_drive", (x - 0.12 * b, y1 + 0.15 * b))
    draw_relief(ink, figure, (x + 0.36 * b, y1 - 0.03 * b))
    return x + 0.3 * b, y0 + 0.05 * b


def _pickup(ink: Ink, figure: Figure, pump: Point) -> None:
    """The pickup near the sump's floor and its pipe to the pump."""
    b, floor = figure.sizes.bore, well(figure)
    room = figure.rear - figure.front
    x = figure.front + 0.72 * room if room > 2.2 * b else figure.front + 0.70 * room
    mouth, top = floor + 0.10 * b, floor + 0.26 * b
    pipe = (
        Outline()
        .move(pump)
        .curve((pump[0] + 0.3 * b, pump[1]), (pump[0] + 0.1 * b, top), (pump[0] + 0.5 * b, top))
    )
    if pump[0] < figure.front:
        down = min(-(figure.case + 0.06 * b), rail(figure) - 0.15 * b)
        pipe = Outline().move(pump).line((pump[0], down + 0.12 * b))
        pipe.curve((pump[0], down), (pump[0], down), (pump[0] + 0.14 * b, down))
        pipe.line((max(x - 0.5 * b, pump[0] + 0.2 * b), down))
        pipe.curve((x - 0.2 * b, down), (x, down), (x, top))
    else:
        pipe.line((max(x - 0.1 * b, pump[0] + 0.5 * b), top)).curve((x, top), (x, top), (x, top - 0.06 * b))
    ink.draw(pipe, "pipe")
    ink.draw(pipe, "pipe-bore")
    bell = [(x - 0.05 * b, top), (x + 0.05 * b, top), (x + 0.22 * b, mouth), (x - 0.22 * b, mouth)]
    ink.draw(rounded(bell, 0.02 * b), "part")
    ink.line((x - 0.22 * b, mouth), (x + 0.22 * b, mouth), cls="mesh")
    ink.place("pickup", (x + 0.2 * b, (mouth + floor) / 2))


def _stages(ink: Ink, figure: Figure) -> None:
    """A dry sump pump: its stages in a row, outside the case, with the belt that turns it."""
    b = figure.sizes.bore
    count = figure.layout.pump_stages + 1
    y = well(figure) - 0.42 * b
    width = min(0.34 * b, (figure.rear - figure.front - 0.4 * b) / count)
    start = figure.front + 0.1 * b
    pulley = figure.front - 0.62 * b
    ink.box(pulley, y - 0.05 * b, start, y + 0.05 * b, "part")
    ink.draw(round_box(pulley, y - 0.27 * b, pulley + 0.2 * b, y + 0.27 * b, 0.02 * b), "part")
    ink.box(pulley + 0.04 * b, y, pulley + 0.16 * b, -0.5 * b, "chain")
    ink.place("pump_drive", (pulley + 0.1 * b, y + 0.2 * b))
    for stage in range(count):
        x = start + stage * width
        ink.draw(
            round_box(x, y - 0.24 * b, x + width, y + 0.24 * b, 0.03 * b), "cut other" if stage % 2 else "cut"
        )
        ink.box(x + 0.2 * width, y - 0.17 * b, x + 0.8 * width, y + 0.17 * b, "void")
        for way in (-1, 1):
            ink.box(x + 0.22 * width, y + way * 0.01 * b, x + 0.78 * width, y + way * 0.165 * b, "part")
        ink.place("pump", (x + width / 2, y - 0.1 * b), stage + 1)
        if stage:
            top = well(figure) - 0.02 * b
            ink.line((x + width / 2, y + 0.24 * b), (x + width / 2, top), cls="pipe")
            ink.line((x + width / 2, y + 0.24 * b), (x + width / 2, top), cls="pipe-bore")
            ink.place("pickup", (x + width / 2, top + 0.02 * b), stage)
    draw_relief(ink, figure, (start + count * width + 0.06 * b, y))
