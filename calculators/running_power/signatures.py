"""Pictures that several readings make together: which fault they would fit, and never more than that.

Every condition of a picture has to be certain before it is said; one that is not met takes the picture away; one that
only leans, or was not measured, leaves it undecided with what would decide it. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from calculators.contract import quantity, rounded
from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.running_power.case import Case
from calculators.running_power.conditions import (
    State,
    amps_high,
    factor_down,
    factor_far_down,
    ohms_right,
    run_winding_low,
    watts_high,
    watts_low,
)
from calculators.running_power.deciders import decider_for, other_quantity, steady
from calculators.running_power.findings import AIRFLOW
from calculators.running_power.inputs import NOT_COMPARED, ON_DATA, RUN_CAPACITOR

_CAPACITOR = NextStep(
    "Unplug it, prove it dead, discharge the run capacitor and measure it off the circuit.", "discharge-capacitors"
)
_WINDINGS = NextStep(
    "Read the windings again, dead, at a known temperature, with a meter that shows 0.01 Ω.", "identify-the-windings"
)
Conditions = Callable[[Case], tuple[State, ...]]


@dataclass(frozen=True)
class Picture:
    """One picture: when it is met, what it fits, and what comes next."""

    name: str
    conditions: Conditions
    limit: str
    verdict: Verdict
    fits: str
    plain: str
    next_step: NextStep
    low: bool = False
    by_factor: bool = False
    decided_by: Decider | None = None


def pictures_of(case: Case, ohms: str) -> Iterator[Finding]:
    """Every picture that these readings make or lean to."""
    for one in _pictures(case, ohms):
        finding = _finding(case, one)
        if finding is not None:
            yield finding
    if case.conflict is None and ohms == NOT_COMPARED and watts_high(case) in (State.CERTAIN, State.LEANING):
        yield _ohms_asked(case)


def _pictures(case: Case, ohms: str) -> Iterator[Picture]:
    if case.conflict is None:
        yield Picture(
            "not-pumping",
            lambda one: (watts_low(one), factor_down(one)),
            "power.low_ratio",
            Verdict.OUTSIDE,
            "a motor that turns without its load: it does not pump, the charge is lost, or there is no heat to carry",
            "Amps can look right while watts and power factor are down. A licensed person's pump test condemns, not"
            " this.",
            AIRFLOW,
            low=True,
            by_factor=True,
        )
        if ohms != NOT_COMPARED:
            yield from _high_pictures(ohms)
    if case.motor_type == RUN_CAPACITOR:
        yield Picture(
            "run-capacitor",
            lambda one: (factor_far_down(one), amps_high(one)),
            "power.factor_drop_capacitor",
            Verdict.OUTSIDE,
            "a run capacitor that is open or has lost its value",
            "Without its run capacitor such a motor draws more amps for the same work. The capacitor itself tells.",
            _CAPACITOR,
            by_factor=True,
            decided_by=Decider(
                "Microfarads of the run capacitor",
                "0.1 µF, a meter of 4 % + 5 counts is enough for an open one",
                "off the circuit, proved dead and discharged",
            ),
        )


def _high_pictures(ohms: str) -> Iterator[Picture]:
    yield Picture(
        "shorted-turns",
        lambda one: (watts_high(one), run_winding_low(ohms)),
        "power.high_ratio",
        Verdict.OUTSIDE,
        "shorted turns in the run winding",
        "More power than the work needs, and less wire than the data say. Both must be seen twice before it is"
        " written.",
        _WINDINGS,
    )
    yield Picture(
        "tight-or-loaded",
        lambda one: (watts_high(one), ohms_right(ohms), _unless_normal(amps_high(one))),
        "power.high_ratio",
        Verdict.WATCH,
        "a heavy load or tight bearings, not the windings",
        "Load comes first: airflow, a warm cabinet, warm goods. Bearings come last, when all of that is ruled out.",
        AIRFLOW,
    )


def _unless_normal(amps: State) -> State:
    """Amps that were not compared do not stand in the way."""
    return State.CERTAIN if amps is State.UNKNOWN else amps


def _finding(case: Case, one: Picture) -> Finding | None:
    states = one.conditions(case)
    if State.NOT in states or set(states) <= {State.UNKNOWN}:
        return None
    said = _said(case)
    if one.by_factor and case.amps_unclear:
        return _amps_of_what(case, one, said)
    if set(states) == {State.CERTAIN}:
        return Finding(
            one.name,
            one.verdict,
            f"Together this fits {one.fits}: {said}.",
            one.plain,
            one.next_step,
            case.standards.limit(one.limit),
        )

    def decides(tried: Case) -> bool:
        return not set(one.conditions(tried)) & {State.LEANING, State.UNKNOWN}

    decider = _missing(case, one) if State.UNKNOWN in states else None
    if decider is None:
        decider = decider_for(case, decides, one.decided_by or other_quantity(case, one.low))
    return Finding(
        one.name,
        Verdict.UNDECIDED,
        f"Leans to {one.fits}, and does not show it yet: {said}.",
        "One of the readings is missing or its band reaches back over its limit, so this is a hint and no finding.",
        one.next_step,
        case.standards.limit(one.limit),
        decider,
    )


def _amps_of_what(case: Case, one: Picture, said: str) -> Finding:
    return Finding(
        one.name,
        Verdict.UNDECIDED,
        f"Cannot tell: {said} would fit {one.fits}, but other loads were in the watts, and these amps may be theirs"
        " too.",
        "A plug-in meter shows the amps of everything. Over the watts of the compressor alone they make the power"
        " factor look too low.",
        one.next_step,
        case.standards.limit(one.limit),
        Decider(
            "Watts, volts and amps of the compressor alone",
            "as now",
            f"all other loads switched off, or unplugged; {steady(case)}",
            "other_watts",
        ),
    )


def _missing(case: Case, one: Picture) -> Decider | None:
    """The reading or the figure that the picture lacks."""
    if case.amps is None:
        return Decider("Amps of the compressor alone", "0.01 A", steady(case), "running_amps")
    if case.usual_power_factor is None:
        return Decider(
            "The motor type",
            "with or without run capacitor",
            "by diagram, data sheet, or a look with it dead",
            "motor_type",
        )
    if one.name == "run-capacitor" and case.expected_amps is None:
        return Decider(
            "Expected running amps",
            "with their half-band",
            "by the calculator of that name, for this very compressor",
            "expected_amps",
        )
    return None


def _said(case: Case) -> str:
    parts = []
    if case.ratio is not None:
        parts.append(f"watts {rounded(case.ratio.value, 2)} times the expected")
    if case.drop is not None and case.power_factor is not None:
        way = "below" if case.drop.value >= 0.0 else "above"
        parts.append(
            f"power factor {rounded(case.power_factor.value, 2)}, {rounded(abs(case.drop.value), 2)} {way} the expected"
        )
    if case.amps_ratio is not None:
        parts.append(f"amps {rounded(case.amps_ratio.value, 2)} times the expected")
    return ", ".join(parts) or f"{quantity(case.watts, 'W', 1)}"


def _ohms_asked(case: Case) -> Finding:
    return Finding(
        "winding-ohms",
        Verdict.UNDECIDED,
        "High watts alone do not part a heavy load from shorted turns: the windings were not compared with their data.",
        "Ohms below the data at the same temperature point at the winding, ohms on the data at load or bearings.",
        _WINDINGS,
        decider=Decider(
            "Ohms of both windings against the data",
            "0.01 Ω, leads nulled",
            "dead, off the circuit, at a known temperature of the winding",
            "winding_ohms",
            ON_DATA,
        ),
    )
