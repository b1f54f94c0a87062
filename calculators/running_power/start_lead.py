"""Is the start winding still in circuit while the motor runs?

A relay's contact opens within about a second of the start; a PTC leaves a small current that keeps it hot. In a motor
with a run capacitor the start lead always carries the capacitor's current, so this says nothing there. Common practice.
"""

from __future__ import annotations

import math
from dataclasses import replace

from calculators.contract import quantity, rounded
from calculators.findings import Decider, Finding, NextStep, Verdict, judge_side
from calculators.finer_meter import finer_meter
from calculators.inputs import Entered
from calculators.limits import Limit
from calculators.readings import Meter
from calculators.running_power.case import FLOAT_DIGITS, Case
from calculators.running_power.inputs import PTC, RELAY, RESISTANCE, RUN_CAPACITOR
from calculators.units import to_base

_UNPLUG = NextStep("Unplug it, prove it dead, and look at the start device: it has not let go.", "make-safe-prove-dead")
_AGAIN = NextStep("Measure the start lead again as the page says.", "running-watts")
_GOOD = NextStep("The start winding is not left in: go on with watts, power factor and airflow.", "running-watts")
_BROUGHT_OUT = "on the start lead brought out dead, the cover back on, after the start is over"


def start_lead_finding(case: Case, entered: Entered) -> Finding | None:
    """The start lead's current after the start; None where none was read or a run capacitor feeds it anyway."""
    amps = entered.number("start_lead_amps")
    if amps is None or case.motor_type == RUN_CAPACITOR:
        return None
    device, first = entered.choice("start_device"), entered.number("start_lead_first")
    early = _too_early(case)
    if case.motor_type != RESISTANCE:
        return _asked(
            "whether the motor has a run capacitor, which feeds the start lead for good, is not known",
            Decider(
                "The motor type",
                "with or without run capacitor",
                "by diagram, data sheet, or a look with it dead",
                "motor_type",
            ),
        )
    if device not in (RELAY, PTC):
        return _asked(
            "a relay leaves no current, a PTC a little, and which it is was not noted",
            Decider("The start device", "relay or PTC", "by diagram, or a look with it dead", "start_device"),
        )
    if device == PTC and first is None:
        return _asked(
            "what a PTC leaves is judged as a part of the current at the start, and that was not read",
            Decider(
                "The highest current in the start lead at the start",
                "a clamp that holds the highest reading of a tenth of a second",
                "at a start after a rest long enough for PTC and pressures",
                "start_lead_first",
            ),
        )
    judged = _judged(case, amps, first if device == PTC else None)
    if early is None:
        return judged
    limit = case.standards.limit("power.start_lead_after")
    if judged.decider is not None:  # these amps would not be decided later either, so the time alone is no answer
        return _asked(early, replace(judged.decider, condition=_BROUGHT_OUT, enter_in=None, entry=None))
    return _asked(early, Decider("Amps in the start lead", "as now", _BROUGHT_OUT, "run_time", limit.text))


def _too_early(case: Case) -> str | None:
    limit = case.standards.limit("power.start_lead_after")
    if case.run_seconds is None:
        return "when it was read after the start is not known"
    if case.run_seconds < to_base(limit.value, limit.unit):
        return f"it was read within {limit.text} of the start"
    return None


def _asked(why: str, decider: Decider) -> Finding:
    return Finding(
        "start-lead",
        Verdict.UNDECIDED,
        f"The start lead cannot be judged yet: {why}.",
        "Current in the start lead means one thing with a relay, another with a PTC, and nothing with a run capacitor.",
        _AGAIN,
        decider=decider,
    )


def _judged(case: Case, amps: float, first: float | None) -> Finding:
    limit = case.standards.limit("power.start_lead_relay" if first is None else "power.start_lead_ptc")
    value, low, high = _span(case.clamp, amps, first)
    verdict = judge_side(value, low, high, limit=limit.value, side="most", guard="reject").verdict
    said = quantity(amps, "A", 2)
    if first is not None:
        said += f", {rounded(value, 1)} % of the {quantity(first, 'A', 2)} at the start"
    if verdict is Verdict.WITHIN:
        return Finding(
            "start-lead",
            verdict,
            f"Not shown to be left in: the start lead carries {said}, not more than {limit.text}.",
            "The start device has let go.",
            _GOOD,
            limit,
        )
    if verdict is Verdict.OUTSIDE:
        return Finding(
            "start-lead",
            verdict,
            f"The start winding is still in: the start lead carries {said}, with its whole band above {limit.text}. "
            "Unplug it.",
            "The start winding is made for a second. Left in, the motor draws several times its amps and burns.",
            _UNPLUG,
            limit,
            stop=True,
        )
    return _undecided(case, amps, first, said, limit)


def _undecided(case: Case, amps: float, first: float | None, said: str, limit: Limit) -> Finding:
    def decides(clamp: Meter) -> bool:
        placed = judge_side(*_span(clamp, amps, first), limit=limit.value, side="most", guard="reject")
        return placed.verdict is not Verdict.UNDECIDED

    finer = finer_meter(case.clamp, decides, "clamp", "A")
    decider = Decider("Amps in the start lead", "turns of the start lead through the clamp", _BROUGHT_OUT)
    if finer is not None:
        words = f"{finer.words}, or turns of the start lead through the clamp"
        decider = Decider("Amps in the start lead", words, _BROUGHT_OUT, finer.enter_in, finer.entry)
    return Finding(
        "start-lead",
        Verdict.UNDECIDED,
        f"Cannot tell: the start lead carries {said}, above {limit.text}, and the band reaches back over it.",
        "There is more current than there should be, but this clamp is too coarse to say so.",
        _AGAIN,
        limit,
        decider,
    )


def _span(clamp: Meter, amps: float, first: float | None) -> tuple[float, float, float]:
    """Amps with their band, or percent of the current at the start with the worst of both bands (one clamp, linear)."""
    band = clamp.band(amps)
    if first is None:
        return amps, amps - band, amps + band
    other = clamp.band(first)
    most = (amps + band) / (first - other) if first > other else math.inf
    ends = (amps / first, (amps - band) / (first + other), most)
    value, low, high = (round(100.0 * one, FLOAT_DIGITS) for one in ends)
    return value, low, high
