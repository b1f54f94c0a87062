"""An overload outside the shell, read dead and off the pin: does it conduct while it is cold?

A contact that is open while it is hot is doing its work; nothing is condemned before it is cold and read twice.
A contact that conducts shows that much and no more: not that it opens at the right heat.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from calculators.contract import Named, Result, quantity
from calculators.drawing import Mark, scale_figure
from calculators.findings import Finding, NextStep, Placement, Verdict, judge
from calculators.finer_meter import finer_meter
from calculators.inputs import Entered
from calculators.limits import InForce, Limit
from calculators.nulling import fits_leads, nulled, ohms_steps
from calculators.overload_check.deciders import HERE
from calculators.parts import Missing, Part, decider_of, joined
from calculators.readings import Meter, Reading

_COOL = NextStep("Leave it off the pin until it is cold, then read it again.", HERE)
_RENEW = NextStep("Write the readings down; fit the part that the motor's list names, with the plug out.", HERE)
_ON = NextStep("Read the windings with everything off the pins.", "identify-the-windings")


def contact_part(entered: Entered, standards: InForce) -> Part:
    """The contact, and the heater where there is one."""
    fields = [("contact_ohms", "contact", "Across the contact")]
    if entered.choice("kind") == "external_heater":
        fields.append(("heater_ohms", "heater", "Across the heater"))
    parts = [_one(entered, standards, *row) for row in fields if row[0] in entered.numbers]
    return joined(parts)


def not_cold(entered: Entered, standards: InForce) -> tuple[Missing, ...]:
    """What is missing before an open or a high reading may be judged."""
    cold, rest = standards.limit("overload.external_cold"), standards.limit("overload.external_rest")
    temperature, band = entered.number("part_temperature"), entered.needed("thermometer_band")
    hours = entered.number("hours_rest")
    found = []
    if temperature is None or temperature + band > cold.value:
        found.append(
            Missing(
                f"the part measured at {cold.text} or less with the thermometer's band",
                "part_temperature",
                f"{math.floor(cold.value - band)} °C",
            )
        )
    if hours is None or hours < 60.0 * rest.value:
        found.append(Missing(f"{rest.text} or more since the last run or trip", "hours_rest", f"{rest.value:g} min"))
    if entered.choice("repeated") != "yes":
        found.append(Missing("read again on clean metal, with other probes, meter proved", "repeated", "yes"))
    return tuple(found)


@dataclass(frozen=True)
class Ohms:
    """One pair of terminals: its field and names, what was typed, and the reading with the leads taken off."""

    field: str
    name: str
    label: str
    typed: float
    reading: Reading


def _one(entered: Entered, standards: InForce, field: str, name: str, label: str) -> Part:
    typed = entered.needed(field)
    ohms = Ohms(field, name, label, typed, nulled(entered, field, label, typed, entered.meters["ohmmeter"]))
    reading, limit = ohms.reading, standards.limit("overload.contact_ohms")
    finding = _finding(entered, standards, ohms)
    if reading.open_line:
        result = Named(name, label, "OL", "No path through it when it was read.")
        return Part((finding,), (result,), ohms_steps(entered, ohms.label, ohms.typed, reading))
    low, high = max(reading.low, 0.0), reading.high
    plain = "What the part itself reads."
    number = Result(name, f"{label}, leads off", reading.value, "ohm", 2, plain, low, high, (("milliohm", 0),))
    part = Part((finding,), (number,), ohms_steps(entered, ohms.label, ohms.typed, reading))
    if reading.value > 20.0 * limit.value:
        return part
    marks = [Mark(limit.value, "most")]
    figure = scale_figure(name, label, value=reading.value, low=low, high=high, marks=marks, unit="Ω", digits=2)
    return replace(part, figures=(figure,))


def _finding(entered: Entered, standards: InForce, ohms: Ohms) -> Finding:
    """Within when it conducts; outside only when it does not, or poorly, and was cold, at rest and read twice."""
    reading, most = ohms.reading, standards.limit("overload.contact_ohms")
    placed = Placement(Verdict.OUTSIDE) if reading.open_line else _place(reading, most)
    if placed.verdict is Verdict.WITHIN:
        shown = (
            "not shown abnormal, though the meter's band reaches past the limit" if placed.crossing else "it conducts"
        )
        sentence = f"{ohms.label}: {quantity(reading.value, 'ohm', 2)}, {most.text} or less: {shown}."
        plain = "It lets current through. That does not show that it opens at the right heat."
        return Finding(ohms.name, Verdict.WITHIN, sentence, plain, _ON, most)
    limit = standards.limit("overload.external_cold") if reading.open_line else most
    cold = not_cold(entered, standards)
    missing = [*cold, *_finer(entered, ohms, placed, most)]
    said = "open" if reading.open_line else f"{quantity(reading.value, 'ohm', 2)}, more than {most.text}"
    if not missing:
        fault = "it does not close" if reading.open_line else "a burnt or loose contact"
        sentence = f"{ohms.label}: {said}, cold, rested and repeated: {fault}. The overload has failed."
        plain = "Cold and at rest it has to let current through. This one does not, so the motor cannot run on it."
        return Finding(ohms.name, Verdict.OUTSIDE, sentence, plain, _RENEW, limit)
    why = "that is not yet a cold reading, taken twice" if cold else "the meter's band reaches back over the limit"
    sentence = f"{ohms.label}: {said}. No verdict: {why}."
    plain = "Open while it is hot is what it is there for. Only a cold one may be condemned."
    resolution = "any meter that has been proved" if len(missing) == len(cold) else missing[-1].words
    decider = decider_of(f"{ohms.label}, off the pin and dead", resolution, missing)
    return Finding(ohms.name, Verdict.UNDECIDED, sentence, plain, _COOL, limit, decider)


def _place(reading: Reading, limit: Limit) -> Placement:
    return judge(reading.value, reading.low, reading.high, limit)


def _finer(entered: Entered, ohms: Ohms, placed: Placement, limit: Limit) -> list[Missing]:
    """The meter that would decide, where this one's band lies across the limit."""
    if placed.verdict is not Verdict.UNDECIDED:
        return []

    def decides(meter: Meter) -> bool:
        if not fits_leads(entered, ohms.typed, meter):
            return False
        again = nulled(entered, ohms.field, ohms.label, ohms.typed, meter)
        return _place(again, limit).verdict is not Verdict.UNDECIDED

    finer = finer_meter(entered.meters["ohmmeter"], decides, "ohmmeter", "ohm")
    if finer is None:
        return [Missing("a four-wire low-ohm meter", "ohmmeter_resolution")]
    return [Missing(finer.words, finer.enter_in or "ohmmeter_resolution", finer.entry)]
