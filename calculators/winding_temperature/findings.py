"""What the winding temperature means, in a technician's sentences, and what comes next."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.contract import quantity, rounded
from calculators.findings import Finding, NextStep, Verdict
from calculators.limits import Limit
from calculators.units import to_base
from calculators.winding_temperature.case import Case
from calculators.winding_temperature.deciders import decider_for, insulation_decided, temperature_decided

PAGE = "winding-temperature-after-a-run"
_UNPLUG = NextStep(
    "Leave it unplugged and proved dead. Airflow, supply and what it draws come before the next run.",
    "make-safe-prove-dead",
)
_CAUSE = NextStep(
    "Find the cause of the heat: condenser, fan, clearances, then amps and volts.", "airflow-and-heat-exchange"
)
_GO_ON = NextStep("Write it down with the time and the room's temperature, and go on as the page says.", PAGE)
_AGAIN = NextStep("Take the readings again after the next run, as the page says.", PAGE)
_NOT_PASSED = NextStep(
    "Leave it unplugged and proved dead: nothing shows that it was cool enough. Airflow, supply and what it draws come "
    "before the next run; then take the readings again.",
    "make-safe-prove-dead",
)
_NULL = NextStep("Short the probes, write down what the leads alone show, and enter it.", PAGE)


def degrees(celsius: float) -> str:
    """A temperature in both units: "109.2 °C (229 °F)"."""
    return f"{quantity(celsius, 'degC', 1)} ({quantity(celsius, 'degF', 0)})"


def band_words(case: Case) -> str:
    """The band of the temperature as it is said in a sentence."""
    if math.isinf(case.high):
        return f"at least {quantity(case.low, 'degC', 1)}, and no upper end"
    return f"band {rounded(case.low, 1)} to {quantity(case.high, 'degC', 1)}"


def findings_of(case: Case) -> tuple[Finding, ...]:
    """The verdict on the temperature, on the insulation's own limit where it adds something, and on the leads."""
    return (_on_temperature(case), *_on_insulation(case), *_on_leads(case))


def when(case: Case) -> str:
    """Of which moment the temperature is."""
    if len(case.times) > 1:
        return "at switch-off"
    return f"{quantity(case.times[0], 's', 0)} after switch-off, not reckoned back"


def _on_temperature(case: Case) -> Finding:
    said = f"the winding was at {degrees(case.best.celsius)} {when(case)} ({band_words(case)})"
    verdict = case.verdict
    if verdict is Verdict.OUTSIDE:
        return Finding(
            "winding-temperature",
            verdict,
            f"Too hot: {said}, above {case.stop.text} with its whole band.",
            "Heat like this ages the winding fast. It is not run again before the cause is found.",
            _UNPLUG,
            case.stop,
            stop=True,
        )
    if verdict is Verdict.WATCH:
        return Finding(
            "winding-temperature",
            verdict,
            f"Warm: {said}, up to {case.stop.text} with its whole band and not up to {case.warn.text} with all of it.",
            "It may run, and something makes it warmer than it should be, or the band is too wide to say that not.",
            _CAUSE,
            case.warn,
        )
    if verdict is Verdict.WITHIN:
        return Finding(
            "winding-temperature",
            verdict,
            f"Not shown too hot: {said}, up to {case.warn.text} with its whole band.",
            "The winding's average stayed below the warning. Its hottest place is warmer than its average.",
            _GO_ON,
            case.warn,
        )
    return _undecided(case, said)


def _undecided(case: Case, said: str) -> Finding:
    reaches = case.placed.verdict is Verdict.UNDECIDED
    over = f" The band reaches over {case.stop.text}." if reaches else ""
    if case.weaknesses:
        why = "; ".join(_why(case, name) for name in case.weaknesses)
        sentence = f"Cannot tell: {said}, but {why}.{over}"
        plain = "Each of these makes the figure too low, so the winding may have been hotter than this."
    else:
        sentence = f"Cannot tell: {said}.{over}"
        plain = "The readings are too coarse to say on which side of the limit it was."
    return Finding(
        "winding-temperature",
        Verdict.UNDECIDED,
        sentence,
        plain,
        _NOT_PASSED if reaches else _AGAIN,
        case.stop if reaches else case.warn,
        decider_for(case, temperature_decided),
        stop=reaches,
    )


def _why(case: Case, weakness: str) -> str:
    rest, first, least, most = (
        case.standards.limit(key)
        for key in (
            "windings.rest_hours",
            "winding_temperature.first_reading",
            "winding_temperature.least_readings",
            "windings.lead_most",
        )
    )
    rested = "it is not known how long it had rested before the cold reading"
    if case.hours_rest is not None:
        rested = (
            f"it had rested only {quantity(case.hours_rest, 'h', 1)} before the cold reading, less than {rest.text}"
        )
    return {
        "rising": "the ohms rise after switch-off, and a winding that is off cools",
        "colder": "that is colder than the winding was before the run",
        "few": (
            f"{len(case.times)} hot reading{'s' if len(case.times) > 1 else ''} cannot show how fast it cooled;"
            f" {least.value:g} can"
        ),
        "late": (
            f"the first hot reading came {quantity(min(case.times), 's', 0)} after switch-off, later than {first.text}"
        ),
        "rest": rested,
        "leads": f"the leads were not taken off, and on ohms this small leads of {most.text} could hide any heat",
    }[weakness]


def _on_insulation(case: Case) -> Iterator[Finding]:
    """The appliance standard's limit for the insulation, only where the temperature is or may be above it."""
    limit, verdict = case.insulation_limit, case.insulation_verdict
    if limit is None or verdict in (None, Verdict.WITHIN):
        return
    what = f"{limit.text} for {case.insulation} insulation"
    if verdict is Verdict.OUTSIDE:
        yield Finding(
            "winding-insulation",
            Verdict.OUTSIDE,
            f"Above {what}, with its whole band.",
            "Hotter than the appliance standard lets such a winding get in its overload tests.",
            _UNPLUG,
            limit,
            stop=True,
        )
        return
    yield Finding(
        "winding-insulation",
        Verdict.UNDECIDED,
        f"Cannot tell whether it was above {what}: {band_words(case)}.",
        "The band reaches over the limit of the winding's own insulation.",
        _NOT_PASSED,
        limit,
        decider_for(case, insulation_decided),
        stop=True,
    )


def _on_leads(case: Case) -> Iterator[Finding]:
    """Leads that were not taken off read low, which is the dangerous side: always said aloud."""
    if case.lead is not None:
        return
    most: Limit = case.standards.limit("windings.lead_most")
    ohms = to_base(most.value, most.unit)
    if math.isinf(case.high):
        hidden = "how much cannot be said"
    else:
        kelvin = _hidden(case, "copper" if case.metal == "unknown" else case.metal, ohms)
        if kelvin <= 0.0:  # not hotter than before the run, and then it is not the leads that are asked about
            return
        hidden = f"leads of {most.text} hide {quantity(kelvin, 'K', 1)}"
    yield Finding(
        "leads",
        Verdict.WATCH,
        f"The leads were not taken off: the temperature reads low by it, {hidden}.",
        "Ohms of the leads are in both readings and make their ratio smaller, so the winding is hotter than it looks.",
        _NULL,
        most,
    )


def _hidden(case: Case, metal: str, ohms: float) -> float:
    return case.estimate(metal, ohms).celsius - case.estimate(metal, 0.0).celsius
