"""The keys of a blade set at a place: one for each blade, with what each did here, and the one proposed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from markupsafe import Markup

from fitwright.assess.settling import BLADES, PLUGS
from fitwright.bench.context import Bench
from fitwright.bench.progress import GOES
from fitwright.drawing.marks import blade_drawing
from fitwright.model.dimension import Dimension
from fitwright.records.kinds import BladeObservation, BladeSet
from fitwright.web.pages.measure.here import Here

ANSWERS = (("goes", "+"), ("drags", "+-"), ("does not go", "-"))
"""What a blade can do, and how a numeric keypad says it."""


@dataclass(frozen=True, slots=True)
class BladeKey:
    """A blade to press; `did` is what it did at this place in this sitting."""

    name: str
    marking: str
    did: str
    proposed: bool


@dataclass(frozen=True, slots=True)
class AnswerKey:
    """What a blade did, to press: word, picture, and how a keypad says it."""

    word: str
    typed: str
    drawing: Markup


@dataclass(frozen=True, slots=True)
class SetChoice:
    """A blade set to choose."""

    code: str
    title: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class BladeKeys:
    """The keys of the set chosen; `first` where the place is read by blades only."""

    first: bool
    sets: tuple[SetChoice, ...]
    blades: tuple[BladeKey, ...]
    together: str
    answers: tuple[AnswerKey, ...]


def blade_keys(here: Here, dimension: Dimension, place: str) -> BladeKeys | None:
    """The keys for a place; None where no blade reads it, or none is on the shelf."""
    wanted = {*dimension.instruments}
    if not may_be_tried(dimension):
        return None
    offered = [each for each in _sets(here.bench) if not each.plugs or PLUGS in wanted or not wanted]
    if not offered:
        return None
    proposed = proposed_blades(here, dimension.id)
    chosen = _chosen(here, offered, proposed)
    did = _answers(here.bench, dimension, place, here.sitting)
    together = proposed if "+" in proposed else ""
    return BladeKeys(
        first=by_blades(dimension),
        sets=tuple(SetChoice(each.code, each.title, each is chosen) for each in offered),
        blades=tuple(_keys(chosen, did, proposed)),
        together=together,
        answers=tuple(AnswerKey(word, keys, Markup(blade_drawing(word))) for word, keys in ANSWERS),  # noqa: S704
    )


def by_blades(dimension: Dimension) -> bool:
    """Whether the sheet asks for blades or plugs only."""
    return bool(dimension.instruments) and {*dimension.instruments} <= {BLADES, PLUGS}


def may_be_tried(dimension: Dimension) -> bool:
    """Whether blades or plugs are among what the sheet asks for, or it asks for nothing."""
    return not dimension.instruments or bool({*dimension.instruments} & {BLADES, PLUGS})


def proposed_blades(here: Here, dimension: str) -> str:
    """The blade, or blades together, most likely to settle a fit of this dimension; nothing where none is."""
    assessor = here.hands.shop.assessor(here.code)
    for subject in assessor.judge.subjects.values():
        if dimension not in subject.dimensions():
            continue
        settling = assessor.settling(subject.id)
        for proposal in settling.proposals if settling is not None else ():
            if proposal.blades:
                return "+".join(blade.key for blade in proposal.blades)
    return ""


def _sets(bench: Bench) -> list[BladeSet]:
    return [held.body for held in bench.shop.blade_sets.values()]


def _chosen(here: Here, offered: list[BladeSet], proposed: str) -> BladeSet:
    """The set that the sitting names; else that of the blade proposed; else the first."""
    sitting = here.held
    named = [*sitting.instruments.values()] if sitting is not None else []
    wanted = [*named, proposed.partition(":")[0]]
    return next((each for code in wanted for each in offered if each.code == code), offered[0])


def _keys(chosen: BladeSet, did: dict[str, str], proposed: str) -> Iterator[BladeKey]:
    for blade in chosen.blades:
        if blade.available:
            name = f"{chosen.code}:{blade.marking}"
            yield BladeKey(name, blade.marking, did.get(name, ""), name == proposed)


def contradicts(here: Here, dimension: Dimension, place: str) -> bool:
    """Whether a blade went here in this sitting that is no thinner than one that did not go freely."""
    thickness = {
        f"{each.code}:{blade.marking}": blade.thickness for each in _sets(here.bench) for blade in each.blades
    }
    went: list[float] = []
    stopped: list[float] = []
    for observation in _tried(here.bench, dimension, place, here.sitting):
        size = sum(thickness.get(name, 0.0) for name in observation.blades)
        (went if observation.answer in GOES else stopped).append(size)
    return bool(went and stopped) and max(went) >= min(stopped)


def _answers(bench: Bench, dimension: Dimension, place: str, sitting: str | None) -> dict[str, str]:
    """What single blades did at a place in a sitting, the last answer of each."""
    tried = _tried(bench, dimension, place, sitting)
    return {each.blades[0]: each.answer for each in tried if len(each.blades) == 1}


def _tried(bench: Bench, dimension: Dimension, place: str, sitting: str | None) -> Iterator[BladeObservation]:
    """What blades did at a place in a sitting."""
    for record in bench.build.readings_of(dimension.feature):
        observation = record.body.observation
        if (
            record.effective
            and record.place == place
            and record.dimension == dimension.id
            and record.body.sitting == sitting
            and isinstance(observation, BladeObservation)
        ):
            yield observation


def sets_named(choices: Iterable[SetChoice]) -> tuple[str, ...]:
    """The set chosen, to look through first for a blade named by its marking."""
    return tuple(each.code for each in choices if each.chosen)
