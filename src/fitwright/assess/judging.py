"""One fit or dimension judged in one state: evidence, routes, bounds, hot states, verdict."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace

from fitwright.assess import words
from fitwright.assess.bounds import Asked, asked_of, in_hand, overall, verdicts_of
from fitwright.assess.centring import centring_of
from fitwright.assess.chains import (
    Chain,
    Member,
    chain_of,
    member_of,
)
from fitwright.assess.evidence import Evidence, gather, members_of, occupant
from fitwright.assess.form import form_seen
from fitwright.assess.gauges import Gauges
from fitwright.assess.grip import STILL_GRIPS, grip_bound, grips
from fitwright.assess.hot import hot_states
from fitwright.assess.missing import size_wanted
from fitwright.assess.posed import Posed, posed_chain, posed_form, posed_hot, posed_ratio
from fitwright.assess.results import (
    BoundVerdict,
    CentringFound,
    FitVerdict,
    Grip,
    Reason,
    RouteVerdict,
    State,
    Unused,
    Verdict,
)
from fitwright.assess.routes import compare
from fitwright.assess.rules import Rules, rules_of
from fitwright.assess.subjects import Subject, same_fit, subjects_of
from fitwright.model.dimension import Dimension
from fitwright.model.fit import FitKind, Route
from fitwright.model.governing import Adopted, RuledLimit, rule_limits
from fitwright.model.part import TemperatureCase
from fitwright.model.sheet import Sheet
from fitwright.physics.metrology.conformity import Bound
from fitwright.physics.metrology.result import ChainResult
from fitwright.physics.numerics.errors import PhysicsError
from fitwright.records.projection import BuildState, ShopState


@dataclass(frozen=True, slots=True)
class Judged:
    """What a way of judging found, before it is put into words."""

    result: ChainResult | None
    bounds: tuple[BoundVerdict, ...]
    chains: tuple[tuple[Route, Chain, ChainResult | None], ...]
    governing: Chain
    centring: CentringFound | None = None
    grip: tuple[Grip, ...] = ()
    not_computed: str = ""


class Judge:
    """Judges the fits and dimensions of one build in one state; forgets nothing it gathered."""

    def __init__(
        self,
        sheet: Sheet,
        shop: ShopState,
        build: BuildState,
        state: State,
        members: Mapping[str, Member] | None = None,
    ) -> None:
        self.sheet, self.state = sheet, state
        self.gauges = Gauges(shop, sheet, build)
        self.rules: Rules = rules_of(shop)
        self.subjects = subjects_of(sheet)
        self._members: dict[str, Member] = dict(members or {})
        self._same_fit = same_fit(self.subjects, sheet)

    @property
    def build(self) -> BuildState:
        """The build that is judged."""
        return self.gauges.build

    @property
    def members(self) -> Mapping[str, Member]:
        """What is known of the dimensions that were asked for."""
        return self._members

    def member(self, dimension_id: str) -> Member:
        """What is known of one dimension, gathered once."""
        found = self._members.get(dimension_id)
        if found is None:
            dimension = self.sheet.dimensions[dimension_id]
            found = member_of(self.gauges, 1.0, self._evidence(dimension))
            self._members[dimension_id] = found
        return found

    def chain(self, route: Route) -> Chain:
        """A route with what is known of its members."""
        names = {term.dimension for term in route.chain}
        return chain_of({name: self.member(name) for name in names}, route.chain)

    def forget(self, subject_ids: Iterable[str]) -> None:
        """Gather anew what these subjects rest on."""
        for subject_id in subject_ids:
            for name in self.subjects[subject_id].dimensions():
                self._members.pop(name, None)

    def forget_features(self, features: Collection[str]) -> None:
        """Gather anew what was read, also where no subject rests on it: it is recorded now."""
        for name, member in list(self._members.items()):
            if member.dimension.feature in features:
                del self._members[name]

    def _evidence(self, dimension: Dimension) -> Evidence:
        return gather(self.gauges, dimension, self.state, self._same_fit[dimension.id])

    def verdict(self, subject: Subject) -> FitVerdict:
        """The verdict on one subject."""
        asked = asked_of(self._ruled(subject))
        try:
            return self._put_together(subject, self._judge(subject, asked), asked)
        except PhysicsError as error:
            return self._put_together(subject, self._not_computed(subject, asked, error), asked)

    def _not_computed(self, subject: Subject, asked: list[Asked], error: PhysicsError) -> Judged:
        """One number that makes no sense leaves its own fits unproven, and no others."""
        chain = Chain(tuple(self.member(name) for name in subject.dimensions()))
        bounds = tuple(verdicts_of(self.sheet, asked, None))
        return Judged(None, bounds, (), chain, not_computed=str(error))

    def _ruled(self, subject: Subject) -> tuple[RuledLimit, ...]:
        adoptions = self.build.adopted_limits(subject.id)
        taken = None
        if adoptions:
            body = adoptions[-1].body
            taken = Adopted(
                source=body.source,
                adopted_by=body.adopted_by,
                lower=words.written(body.lower),
                upper=words.written(body.upper),
            )
        return rule_limits(
            subject.limits,
            subject.limit_class,
            self.sheet.sources,
            used=self._used(subject),
            adopted=taken,
        )

    def _used(self, subject: Subject) -> bool:
        """Whether any part that it rests on in this state is declared used."""
        positions = {
            member.position
            for name in subject.dimensions()
            for member in members_of(self.sheet, self.sheet.dimensions[name])
        }
        parts = [occupant(self.build, position, self.state) for position in positions]
        return any(self.build.is_used(part) for part in parts if part is not None)

    def _judge(self, subject: Subject, asked: list[Asked]) -> Judged:
        if subject.fit_kind is FitKind.CENTRING:
            return self._judge_centring(subject, asked)
        if subject.fit_kind is FitKind.RATIO and subject.fit and subject.fit.compression:
            return self._judge_ratio(subject, asked)
        if subject.fit_kind in (FitKind.TAPER, FitKind.OUT_OF_ROUND):
            return self._judge_form(subject, asked)
        return self._judge_routes(subject, asked)

    def _judge_routes(self, subject: Subject, asked: list[Asked]) -> Judged:
        cold = [one for one in asked if one.case is None]
        chains = []
        for route in subject.routes:
            chain = self.chain(route)
            chains.append((route, chain, self._chain_result(subject, chain, cold)))
        _, chain, result = next(each for each in chains if each[0] is subject.governing)
        bounds = verdicts_of(self.sheet, cold, result)
        bounds.extend(self._hot_bounds(subject, chain, [one for one in asked if one.case]))
        gripping = grips(self.gauges, subject, chain, result)
        bounds.extend(self._grip_bound(subject, chain) if len(gripping) > 1 else ())
        return Judged(result, tuple(bounds), tuple(chains), chain, grip=gripping)

    def _chain_result(self, subject: Subject, chain: Chain, asked: list[Asked]) -> ChainResult | None:
        if chain.missing:
            return None
        rule = self.rules.of(subject.limit_class)
        return posed_chain(subject, chain).judged([one.bound for one in asked], rule)

    def _hot_bounds(self, subject: Subject, chain: Chain, asked: list[Asked]) -> list[BoundVerdict]:
        found: list[BoundVerdict] = []
        for name in dict.fromkeys(one.case for one in asked):
            these = [one for one in asked if one.case == name]
            case = self.sheet.temperature_cases[name or ""]
            result = self._hot_result(subject, chain, case, [one.bound for one in these])
            found.extend(verdicts_of(self.sheet, these, result))
        return found

    def _hot_result(
        self, subject: Subject, chain: Chain, case: TemperatureCase, bounds: list[Bound]
    ) -> ChainResult | None:
        """The chain moved by what grows in a case; as read where the sheet does not say what grows."""
        if chain.missing:
            return None
        return posed_hot(self, subject, chain, case).judged(bounds, self.rules.of(subject.limit_class))

    def _grip_bound(self, subject: Subject, chain: Chain) -> list[BoundVerdict]:
        """One more bound: at its loosest places in its loosest state the fit must still grip."""
        results = [
            (case, result.bounds[0])
            for case in self.sheet.temperature_cases.values()
            for result in [self._hot_result(subject, chain, case, [STILL_GRIPS])]
            if result is not None and result.bounds
        ]
        return [grip_bound(*min(results, key=lambda one: one[1].probability or 0.0))] if results else []

    def _judge_form(self, subject: Subject, asked: list[Asked]) -> Judged:
        assert subject.fit is not None and subject.fit.form_of is not None  # noqa: S101, PT018
        chain = Chain((self.member(subject.fit.form_of),))
        return self._judge_posed(subject, asked, chain, posed_form(self, subject))

    def _judge_ratio(self, subject: Subject, asked: list[Asked]) -> Judged:
        chain = Chain(tuple(self.member(name) for name in subject.dimensions()))
        return self._judge_posed(subject, asked, chain, posed_ratio(self, subject))

    def _judge_posed(self, subject: Subject, asked: list[Asked], chain: Chain, posed: Posed | None) -> Judged:
        bounds, rule = [one.bound for one in asked], self.rules.of(subject.limit_class)
        result = posed.judged(bounds, rule) if posed is not None else None
        return Judged(result, tuple(verdicts_of(self.sheet, asked, result)), (), chain)

    def _judge_centring(self, subject: Subject, asked: list[Asked]) -> Judged:
        assert subject.fit is not None and subject.fit.centring is not None  # noqa: S101, PT018
        member = self.member(subject.fit.centring.gaps)
        chain = Chain((member,))
        found = centring_of(self, subject.fit.centring, member, asked, self.rules.of(subject.limit_class))
        result = found.result if found is not None else None
        bounds = tuple(verdicts_of(self.sheet, asked, result))
        return Judged(result, bounds, (), chain, centring=found.found if found else None)

    def _put_together(self, subject: Subject, judged: Judged, asked: list[Asked]) -> FitVerdict:
        verdict, reason = self._conclude(judged)
        result = judged.result
        value = result.value if result is not None else None
        results = [each for _, _, each in judged.chains] or [result]
        found = FitVerdict(
            id=subject.id,
            kind=subject.kind,
            name=subject.title,
            fit_kind=subject.fit_kind.value if subject.fit_kind else "dimension",
            sense=subject.sense.value,
            unit=subject.unit,
            station=subject.station,
            limit_class=subject.limit_class.value,
            verdict=verdict,
            reason=reason,
            words="",
            value=value,
            standard_uncertainty=result.standard_uncertainty if result else None,
            degrees_of_freedom=result.degrees_of_freedom if result else None,
            interval=result.interval if result else (None, None),
            in_hand=in_hand(judged.bounds, value),
            bounds=judged.bounds,
            readings=_entries(judged),
            unused=self._unused(subject),
            missing=judged.governing.missing,
            routes=_routes(subject, judged),
            comparison=compare(judged.chains),
            hot=hot_states(self, subject, judged.governing, result),
            grip=judged.grip,
            centring=judged.centring,
            form=form_seen(judged.governing),
            size_wanted=size_wanted(self, subject, judged.governing, asked),
            rests_on_stated=judged.governing.stated,
            cautions=_cautions(judged),
            removes_metal=subject.removes_metal,
            budget=result.budget if result is not None else (),
            unread=judged.governing.unread if result is not None else (),
            contradictions=tuple(clash for each in results if each for clash in each.contradictions),
        )
        return replace(found, words=words.verdict_words(found))

    def _conclude(self, judged: Judged) -> tuple[Verdict, Reason | None]:
        if judged.not_computed:
            return Verdict.UNPROVEN, Reason.NOT_COMPUTED
        chain = judged.governing
        others = [chain for _, chain, _ in judged.chains if chain.read]
        if not chain.read and not others:
            changed = chain.changed or any(each.changed for _, each, _ in judged.chains)
            return (Verdict.UNPROVEN, Reason.CHANGED_SINCE) if changed else (Verdict.NOT_MEASURED, None)
        if chain.changed:
            return Verdict.UNPROVEN, Reason.CHANGED_SINCE
        if judged.result is None:
            complete = any(result is not None for _, _, result in judged.chains)
            return Verdict.UNPROVEN, Reason.ROUTE_NOT_READ if complete else Reason.INCOMPLETE
        if not chain.read:
            return Verdict.UNPROVEN, Reason.ROUTE_NOT_READ
        doubt = chain.doubt or (Reason.CONTRADICTORY if judged.result.contradictions else None)
        return (Verdict.UNPROVEN, doubt) if doubt is not None else overall(judged.bounds)

    def _unused(self, subject: Subject) -> tuple[Unused, ...]:
        return tuple(unused for name in subject.dimensions() for unused in self.member(name).evidence.unused)


def _cautions(judged: Judged) -> tuple[str, ...]:
    if judged.not_computed:
        return (judged.not_computed,)
    return judged.result.cautions if judged.result is not None else ()


def _entries(judged: Judged) -> tuple[str, ...]:
    chains = [chain for _, chain, _ in judged.chains] or [judged.governing]
    found = [
        record.entry.id for chain in chains for member in chain.members for record in member.evidence.used
    ]
    return tuple(dict.fromkeys(found))


def _routes(subject: Subject, judged: Judged) -> tuple[RouteVerdict, ...]:
    return tuple(
        RouteVerdict(
            name=route.name.value,
            governs=len(judged.chains) == 1 or route.name is subject.governing_route,
            result=result,
            missing=chain.missing,
            stated=chain.stated,
        )
        for route, chain, result in judged.chains
    )
