"""What a gauge or a blade set can prove of the fits of all builds, in words and with a picture."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from fitwright.assess.proving import Provable, provable_by
from fitwright.assess.proving_blades import ProvableByBlades, provable_by_blades
from fitwright.assess.results import State
from fitwright.assess.subjects import Subject
from fitwright.drawing.proof_bar import proof_bar
from fitwright.physics.metrology.blade_sets import Bracket, MissingBlade
from fitwright.records.kinds import BladeSet, Instrument
from fitwright.units import Family, approximately, shop_unit
from fitwright.units.senses import DIMENSION_OF
from fitwright.web.addresses import fit_address
from fitwright.web.hands import Hands
from fitwright.web.pages.shop.amounts import family_of_unit, limits_words

MOST_BRACKETS = 2


@dataclass(frozen=True, slots=True)
class FitProof:
    """A fit that can or cannot be proven: how wide its limits are, with what, and a picture of it."""

    build: str
    fit: str
    likes: str
    address: str
    limits: str
    band: str
    can: bool
    word: str
    words: str
    picture: Markup


def proofs_of(hands: Hands, instrument: Instrument) -> tuple[FitProof, ...]:
    """What an instrument can prove of the fits of every build, what it cannot first."""
    family = family_of_unit(instrument.unit)
    found = [
        _proof(hands, each, family)
        for code in hands.shop.builds()
        for each in provable_by(
            hands.shop.assessor(code).judge, code, hands.shop.assessment(code).verdicts, instrument
        )
    ]
    return tuple(sorted(found, key=lambda each: each.can))


def proven_words(proofs: tuple[FitProof, ...], which: str) -> str:
    """How many kinds of fit can be proven, of those listed."""
    can = sum(each.can for each in proofs)
    if can == len(proofs):
        return f"All {can} kinds of fit {which} can be proven with it."
    return f"{can} of {len(proofs)} kinds of fit {which} can be proven with it."


def _proof(hands: Hands, found: Provable, family: Family) -> FitProof:
    subject = hands.shop.assessor(found.build).judge.subjects[found.subject]
    capability = found.capability
    can = capability is not None and capability.can_prove
    if capability is None:
        word, words = "no", f"nothing on the shelf reads {', '.join(found.missing)}"
    else:
        word = "yes" if can else "no, too coarse"
        words = ", ".join(_how(hands, found, subject, family))
    limits, band = _limits(found.lower, found.upper, subject, family, governs=found.governs)
    return FitProof(
        build=hands.shop.builds()[found.build].title,
        fit=found.title,
        likes=_likes(found.likes),
        address=fit_address(found.build, found.subject, State.CURRENT, family),
        limits=limits,
        band=band,
        can=can,
        word=word,
        words=words,
        picture=_picture(capability.share if capability is not None else 0.0, can=can, found=found),
    )


def _how(hands: Hands, found: Provable, subject: Subject, family: Family) -> Iterator[str]:
    yield f"with {' and '.join(found.gauges)}"
    capability = found.capability
    if capability is not None and capability.share is not None and capability.can_prove:
        yield f"over {capability.share:.0%} of the band"
    elif capability is not None and capability.acceptance_zone is not None:
        low, high = capability.acceptance_zone
        dimension = DIMENSION_OF[subject.sense]
        edge = low if low is not None else high
        side = "from" if low is not None else "up to"
        if edge is not None:
            unit = shop_unit(dimension, family, edge)
            yield f"when it reads {side} {approximately(edge, unit, dimension)}"
    anew = found.set_anew
    if anew is not None and anew.can_prove and anew.share is not None:
        held = hands.shop.state.instruments
        compared = next(each for each in found.gauges if held[each].body.comparison)
        master = next(each for each in found.gauges if each != compared)
        yield f"over {anew.share:.0%} if {compared} is set in {master} first: they share its error then"


def blade_proofs_of(hands: Hands, blade_set: BladeSet, family: Family) -> tuple[FitProof, ...]:
    """What a blade set can prove of the fits of every build, what it cannot first."""
    found = [
        _blade_proof(hands, each, family)
        for code in hands.shop.builds()
        for each in provable_by_blades(
            hands.shop.assessor(code).judge, code, hands.shop.assessment(code).verdicts, blade_set
        )
    ]
    return tuple(sorted(found, key=lambda each: each.can))


def _blade_proof(hands: Hands, found: ProvableByBlades, family: Family) -> FitProof:
    subject = hands.shop.assessor(found.build).judge.subjects[found.subject]
    capability = found.capability
    if capability.can_prove:
        words = "; ".join(_bracket(each) for each in capability.brackets[:MOST_BRACKETS])
        more = len(capability.brackets) - MOST_BRACKETS
        words += f"; and {more} more" if more > 0 else ""
    else:
        missing = capability.missing
        words = _missing(missing[0], family) if missing else "no single blade more would do it"
    limits, band = _limits(found.lower, found.upper, subject, family, governs=found.governs)
    return FitProof(
        build=hands.shop.builds()[found.build].title,
        fit=found.title,
        likes=_likes(found.likes),
        address=fit_address(found.build, found.subject, State.CURRENT, family),
        limits=limits,
        band=band,
        can=capability.can_prove,
        word="yes" if capability.can_prove else "no, too coarse",
        words=words,
        picture=_picture(capability.share, can=capability.can_prove, found=found),
    )


def _bracket(bracket: Bracket) -> str:
    goes, stops = (
        " with ".join(blade.key.partition(":")[2] for blade in stack) if stack else ""
        for stack in (bracket.goes, bracket.does_not_go)
    )
    parts = [f"{goes} goes" if goes else "", f"{stops} does not" if stops else ""]
    return " and ".join(each for each in parts if each)


def _missing(blade: MissingBlade, family: Family) -> str:
    ends = (blade.thinnest, blade.thickest)
    unit = shop_unit("length", family, blade.thickest)
    low, high = (approximately(each, unit, "length") for each in ends)
    beside = blade.beside.key.partition(":")[2]
    return f"missing: a blade above {low} up to {high} that {blade.answer.value}, beside {beside}"


def _likes(number: int) -> str:
    return "" if not number else f"and {number} like it"


def _limits(
    lower: float | None, upper: float | None, subject: Subject, family: Family, *, governs: bool
) -> tuple[str, str]:
    """The limits, and how far they are apart."""
    dimension = DIMENSION_OF[subject.sense]
    text = limits_words(lower, upper, family, dimension) + ("" if governs else " (not adopted)")
    if lower is None or upper is None:
        return text, ""
    unit = shop_unit(dimension, family, upper - lower)
    return text, f"a band of {approximately(upper - lower, unit, dimension)}"


def _picture(share: float | None, *, can: bool, found: Provable | ProvableByBlades) -> Markup:
    sides = (found.lower is not None, found.upper is not None)
    return Markup(proof_bar(share, sides, can=can))  # noqa: S704  (our own drawing, no text in it)
