"""The oil that a build is filled with, as a person types it: one of the sheet, a data sheet, or a grade."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from fitwright.bench.amounts import amount
from fitwright.bench.context import Bench, near
from fitwright.bench.entry_words import oil_words
from fitwright.bench.errors import CannotEnterError, UnknownNameError
from fitwright.bench.oil_entries import entries_of
from fitwright.bench.plausible import Amounts, Asked, read_amounts
from fitwright.bench.taking import typed
from fitwright.bench.work_taking import EntryTaking, check_correction
from fitwright.model.checks.oils import GRADE
from fitwright.model.slips import Question, Window
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import OilChosen, OilDataSheet

GRADE_ONLY: Final = (
    "A grade is a range: what is computed with it takes values in the middle of it. "
    "The data sheet of the oil says what this one is."
)
NO_SOURCE: Final = "Where these values come from was not said."

_WRITTEN: Final = re.compile(r"(?:SAE\s*)?(\d{1,2}W)?[\s/-]*(\d{1,2})?", re.IGNORECASE)
_EITHER: Final = "choose an oil of the sheet, or type a data sheet, or a grade"

DATA_SHEET: Final = (
    Asked(
        name="kinematic_viscosity_40",
        label="Kinematic viscosity at 40 °C",
        dimension="kinematic_viscosity",
        unit="mm2/s",
        window=Window(amount("4", "mm2/s"), amount("800", "mm2/s")),
        needed=True,
    ),
    Asked(
        name="kinematic_viscosity_100",
        label="Kinematic viscosity at 100 °C",
        dimension="kinematic_viscosity",
        unit="mm2/s",
        window=Window(amount("1.5", "mm2/s"), amount("50", "mm2/s")),
        needed=True,
    ),
    Asked(
        name="high_shear_viscosity_150",
        label="High-shear viscosity at 150 °C",
        dimension="dynamic_viscosity",
        unit="mPa s",
        window=Window(amount("1", "mPa s"), amount("10", "mPa s")),
    ),
    Asked(
        name="density_15",
        label="Density at 15 °C",
        dimension="density",
        unit="kg/m3",
        window=Window(amount("700", "kg/m3"), amount("1100", "kg/m3")),
    ),
)
"""The amounts of a data sheet, as a form asks for them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OilTyped:
    """An oil as it was chosen or typed, text by text: `oil` (an id of the sheet), or `grade`, or the rest."""

    oil: str = ""
    grade: str = ""
    title: str = ""
    kinematic_viscosity_40: str = ""
    kinematic_viscosity_100: str = ""
    high_shear_viscosity_150: str = ""
    density_15: str = ""
    source: str = ""

    @property
    def amounts(self) -> Mapping[str, str]:
        """The texts of the data sheet's amounts by their names."""
        return {each.name: getattr(self, each.name).strip() for each in DATA_SHEET}

    @property
    def is_data_sheet(self) -> bool:
        """Whether anything of a data sheet was typed."""
        return bool(self.title.strip() or self.source.strip() or any(self.amounts.values()))


@dataclass(frozen=True, slots=True)
class OilTaken:
    """The entries that a choice of oil makes: the choice first, then answers to what was asked about it."""

    entries: tuple[NewEntry, ...]
    body: OilChosen
    words: str
    cautions: tuple[str, ...]


def choose_oil(bench: Bench, chosen: OilTyped, taking: EntryTaking) -> OilTaken | Question:
    """An oil chosen: the entries to append, or the question to ask first.

    Raises
    ------
    BenchError
        If none or several are given, the sheet has no such oil, the text is no grade, or something of
        the data sheet is missing or contradicts itself.
    QuantityError
        If a text is no amount.
    """
    _check_one(chosen)
    check_correction(bench, OilChosen, taking, "choice of oil")
    why = {"supersedes": taking.supersedes, "reason": (taking.reason or "").strip() or None}
    if not chosen.is_data_sheet:
        named = (
            {"grade": grade_from(chosen.grade)} if chosen.grade.strip() else {"oil": _of_sheet(bench, chosen)}
        )
        return _taken(bench, OilChosen.model_validate(named | why), None, taking)
    amounts = read_amounts(DATA_SHEET, chosen.amounts, taking.answers)
    if isinstance(amounts, Question):
        return amounts
    sheet = _data_sheet(chosen, amounts)
    return _taken(bench, OilChosen.model_validate({"data_sheet": sheet} | why), amounts, taking)


def grade_from(text: str) -> str:
    """A grade of SAE J300 as it is written here: `sae 10w40` is `10W-40`, `SAE 30` is `30`.

    Raises
    ------
    CannotEnterError
        If the text is none.
    """
    found = _WRITTEN.fullmatch(text.strip())
    grade = "-".join(each.upper() for each in found.groups() if each) if found is not None else ""
    if GRADE.fullmatch(grade) is None:
        wrong = f'"{text.strip()[:40]}" is no grade of SAE J300'
        raise CannotEnterError(wrong, "write it as 10W-40 or 30")
    return grade


def _check_one(chosen: OilTyped) -> None:
    given = (bool(chosen.oil.strip()), bool(chosen.grade.strip()), chosen.is_data_sheet)
    if sum(given) == 0:
        raise CannotEnterError("No oil was named", _EITHER)
    if sum(given) > 1:
        raise CannotEnterError("More than one oil was named", _EITHER)


def _of_sheet(bench: Bench, chosen: OilTyped) -> str:
    name, known = chosen.oil.strip(), bench.sheet.oils
    if name not in known:
        raise UnknownNameError("oil of the sheet", name, near(name, known) or list(known))
    return name


def _data_sheet(chosen: OilTyped, amounts: Amounts) -> OilDataSheet:
    if not chosen.title.strip():
        raise CannotEnterError("The oil has no name", "type what its data sheet calls it")
    found = {name: typed(quantity) for name, quantity in amounts.quantities.items()}
    cold, warm = found["kinematic_viscosity_40"], found["kinematic_viscosity_100"]
    if warm.si >= cold.si:
        wrong = f"{warm.typed} at 100 °C is not less than {cold.typed} at 40 °C"
        raise CannotEnterError(wrong, "oil thins as it warms: exchange the two, or look again")
    return OilDataSheet(title=chosen.title.strip(), source=chosen.source.strip() or None, **found)


def _taken(bench: Bench, body: OilChosen, amounts: Amounts | None, taking: EntryTaking) -> OilTaken:
    unsourced = body.data_sheet is not None and body.data_sheet.source is None
    cautions = (GRADE_ONLY if body.grade is not None else "", NO_SOURCE if unsourced else "")
    return OilTaken(
        entries=entries_of(bench, body, amounts.answered if amounts is not None else (), taking),
        body=body,
        words=f"filled with {oil_words(body, bench.sheet.oils)}",
        cautions=tuple(each for each in cautions if each),
    )
