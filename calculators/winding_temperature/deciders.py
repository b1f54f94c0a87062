"""What would decide a winding temperature that is left undecided: more readings, a cold start, nulled leads, a meter.

An entry is offered only after the same readings, judged with it, gave a verdict.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from calculators.contract import quantity
from calculators.findings import Decider, Verdict
from calculators.finer_meter import finer_meter
from calculators.units import to_base
from calculators.winding_temperature.case import SCATTER, Case
from calculators.winding_temperature.inputs import HOT, MOST_READINGS, OHMS, TIME

_AGAIN = "the same pair of pins, the same leads, after the next run"
GOOD_THERMOMETER = 0.5  # K; what contact thermometers of the trade reach at room temperature


def temperature_decided(case: Case) -> bool:
    """Whether the finding about the temperature has a verdict."""
    return case.verdict is not Verdict.UNDECIDED


def insulation_decided(case: Case) -> bool:
    """Whether the finding about the insulation's own limit has a verdict, or is not made at all."""
    return case.insulation_verdict is not Verdict.UNDECIDED


def decider_for(case: Case, decided: Callable[[Case], bool]) -> Decider:
    """What would lift the first weakness, or narrow the band."""
    if case.weaknesses:
        return _stronger(case, decided)
    return _finer(case, decided)


def _stronger(case: Case, decided: Callable[[Case], bool]) -> Decider:
    first, last, least = (
        case.standards.limit(f"winding_temperature.{key}")
        for key in ("first_reading", "last_reading", "least_readings")
    )
    fine = f"{case.meter.resolution:g} Ω as now"
    series = f"first within {first.text} of switch-off, then every 15 to 30 s up to {last.text}"
    weakness = case.weaknesses[0]
    if weakness in ("rising", "colder"):
        return Decider(
            "Cold and hot readings, all of them again", "leads nulled, steady figures", series, f"{HOT[0]}{OHMS}"
        )
    if weakness == "few":
        number = min(len(case.times) + 1, MOST_READINGS)
        return Decider(
            f"Hot readings, {least.value:g} or more", fine, f"{series}; {_AGAIN}", f"{HOT[number - 1]}{TIME}"
        )
    if weakness == "late":
        return Decider("The first hot reading", fine, f"{series}; {_AGAIN}", f"{HOT[0]}{TIME}")
    if weakness == "rest":
        rest = case.standards.limit("windings.rest_hours")
        alone = decided(replace(case, hours_rest=to_base(rest.value, rest.unit)))
        return Decider(
            "Cold reading, with the time since the last run",
            fine,
            f"after {rest.text} or longer at rest, shell and room at one temperature",
            "hours_rest",
            rest.text if alone else None,
        )
    return _leads(case, decided)


def _leads(case: Case, decided: Callable[[Case], bool]) -> Decider:
    alone = decided(replace(case, lead=0.0))
    return Decider(
        "Test leads shorted together",
        f"{case.meter.resolution:g} Ω as now",
        "before the cold reading; 0 when the meter has been zeroed on them, and all readings are taken that way",
        "lead",
        "0" if alone else None,
    )


def _finer(case: Case, decided: Callable[[Case], bool]) -> Decider:
    best = f"the band is ±{quantity(case.best.band, 'K', 1)}"
    finer = finer_meter(case.meter, lambda meter: decided(case.with_meter(meter)), "ohmmeter", "ohm")
    if finer is not None and finer.entry is not None:
        return Decider("Cold and hot readings", finer.words, _AGAIN, finer.enter_in, finer.entry)
    if not case.same_meter and decided(replace(case, same_meter=True)):
        return Decider(
            "Cold and hot readings", f"as now, {best}", "both by one meter on one range", "same_meter", "yes"
        )
    if case.lead is None and decided(replace(case, lead=0.0)):
        return _leads(case, decided)
    if case.thermometer_band > GOOD_THERMOMETER and decided(replace(case, thermometer_band=GOOD_THERMOMETER)):
        return Decider(
            "Temperature at the cold reading",
            f"a thermometer good to {GOOD_THERMOMETER:g} K",
            "shell and room at one temperature",
            "thermometer_band",
            f"{GOOD_THERMOMETER:g} K",
        )
    if case.metal == "unknown":
        for metal in ("copper", "aluminium"):
            if decided(replace(case, metal=metal)):
                return Decider("The metal of the winding", "no figure", "by the motor's data", "metal", metal)
    widest = max(case.best.parts, key=lambda part: part.kelvin)
    if finer is None and widest.words == SCATTER:
        return Decider(
            "Hot readings",
            f"clips instead of hand-held probes: of the band ±{quantity(widest.kelvin, 'K', 1)} is scatter about the"
            " line",
            f"steady figures; {_AGAIN}",
        )
    words = finer.words if finer is not None else f"{best}; a finer ohmmeter and a better thermometer together"
    return Decider(
        "Cold and hot readings",
        words,
        "the pair with the most ohms, by one meter on one range, leads nulled; after the next run",
    )
