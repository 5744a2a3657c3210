"""What was measured with, and by which rule a reading proves something."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess.rules import rules_of
from fitwright.dossier.sections.teller import Teller, amount_typed, at_of, day_of
from fitwright.dossier.tree import Block, Column, Facts, Section, Table, Words
from fitwright.physics.metrology.conformity import DecisionRule
from fitwright.records.kinds import Instrument, Reading
from fitwright.units.display import approximately


def instruments(teller: Teller) -> Section:
    """The chapter of gauges, blades, calibration and people."""
    if not teller.complete:
        return Section("instruments", "Instruments, calibration, people", tuple(_in_short(teller)))
    blocks: list[Block] = [
        Table(
            "Instruments",
            (
                Column("Code", 0.7, mono=True),
                Column("Instrument", 2.0),
                Column("Resolution", 1.0, mono=True),
                Column("Calibration", 2.2),
                Column("Standard uncertainty", 1.5, mono=True),
            ),
            tuple(_rows(teller)),
        )
    ]
    blades = tuple(
        (
            code,
            held.body.title,
            ", ".join(each.marking + ("" if each.available else " (missing)") for each in held.body.blades),
        )
        for code, held in teller.known.shop.blade_sets.items()
    )
    if blades:
        blocks.append(
            Table(
                "Blade and plug sets",
                (Column("Code", 0.7, mono=True), Column("Set", 1.6), Column("Blades", 4.0)),
                blades,
            )
        )
    blocks += list(_settings(teller))
    people = tuple(
        (each.body.code, each.body.name, each.body.role or "–") for each in teller.known.shop.people.values()
    )
    if people:
        blocks.append(
            Table(
                "People named",
                (Column("Code", 1.0, mono=True), Column("Name", 2.0), Column("Role", 2.0)),
                people,
            )
        )
    return Section("instruments", "Instruments, calibration, people", tuple(blocks))


def _in_short(teller: Teller) -> Iterator[Block]:
    """For the owner: what was measured with and when it was calibrated, and who is named."""
    gauges = "; ".join(f"{code} {title} ({calibration})" for code, title, _, calibration, _ in _rows(teller))
    yield Words(f"Measured with: {gauges or 'nothing recorded'}.", "small")
    people = "; ".join(
        f"{each.body.name}{f', {each.body.role}' if each.body.role else ''}"
        for each in teller.known.shop.people.values()
    )
    if people:
        yield Words(f"People named: {people}.", "small")


def _used(teller: Teller) -> frozenset[str]:
    """The instruments and blade sets that some reading or pass was taken with."""
    known, found = teller.known, set()
    for reading in known.state.readings.values():
        gauge = (
            known.current.judge.gauges.gauge(reading)
            if _is_value(reading.body) and reading.effective
            else None
        )
        if gauge is not None:
            found.add(gauge.instrument.code)
        for blade in getattr(reading.body.observation, "blades", ()):
            found.add(blade.partition(":")[0])
    for group in teller.standing.groups.values():
        found |= {
            each.wrench.code for one in group.fasteners for each in one.passes if each.wrench is not None
        }
    found |= {each.body.instrument or "" for each in known.state.pressure_readings}
    return frozenset(found)


def _is_value(body: Reading) -> bool:
    return body.observation.type == "value"


def _rows(teller: Teller) -> Iterator[tuple[str, ...]]:
    used = None if teller.complete else _used(teller)
    for code, held in teller.known.shop.instruments.items():
        if used is None or code in used:
            yield _row(teller, held.body)


def _row(teller: Teller, found: Instrument) -> tuple[str, ...]:
    held = teller.known.shop.calibration_of(found.code)
    if held is None:
        calibration, unsure = "none recorded", found.calibration_uncertainty
        calibration += ", a typical value is used" if found.typical else ""
    else:
        unsure = held.body.standard_uncertainty
        calibration = "never calibrated" if held.body.never else (held.body.date or "without a date")
        calibration += f", {held.body.certificate}" if held.body.certificate else ""
    title = found.title + ("" if teller.complete or not found.comparison else ", set against a master")
    return found.code, title, _fine(found.resolution, found.unit), calibration, _fine(unsure, found.unit)


def _fine(value: float, unit: str) -> str:
    """A small amount of a gauge in the gauge's own unit."""
    return approximately(value, unit) if value else "none stated"


def _settings(teller: Teller) -> Iterator[Block]:
    shop = teller.known.shop
    rows = tuple(
        (
            code,
            held.body.instrument,
            held.body.against
            or (
                f"{held.body.master}, {held.body.master_setting or 'no setting'}" if held.body.master else "–"
            ),
            amount_typed(held.body.size),
            amount_typed(held.body.zero),
            day_of(at_of(held.entry)),
            "; ".join(f"drift {amount_typed(each.body.drift)}" for each in shop.check_backs.get(code, []))
            or "not looked at again",
        )
        for code, held in shop.settings.items()
    )
    if rows:
        columns = (
            Column("Setting", 0.9, mono=True),
            Column("Gauge", 0.8, mono=True),
            Column("Against", 1.6),
            Column("Size", 1.1, mono=True),
            Column("Zero", 1.0, mono=True),
            Column("Day", 1.0, mono=True),
            Column("Check-back", 1.4),
        )
        yield Table("Settings", columns, rows)


def decision_rule(teller: Teller) -> Section:
    """The chapter that says when something counts as proven."""
    rules = rules_of(teller.known.shop)
    rows = (("Critical fits", _rule(rules.critical)), ("Other fits", _rule(rules.normal)))
    words = (
        "A reading is never exact. From what each instrument, setting, person and temperature adds, it is "
        "computed how sure it is that a fit lies inside a limit. Only what is surer than the rule below is "
        "called within or outside; what lies between is called unproven, with the reading that would settle "
        "it. Uncertainties (u) are standard uncertainties; a bar on a limit scale holds 95 %."
    )
    blocks = (Words(words), Facts("Decision rule of this shop", rows))
    return Section("decision-rule", "When something counts as proven", blocks)


def _rule(rule: DecisionRule) -> str:
    return f"within at a probability of {rule.within:.3g} or more, outside below {rule.outside:.3g}"
