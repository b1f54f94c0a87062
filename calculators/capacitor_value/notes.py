"""What stands beside the verdict on a capacitor: what was not looked at, and what a value does not show."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.capacitor_value.case import Case
from calculators.capacitor_value.conduction import conducts, leak_of, ohms_text
from calculators.findings import Verdict


def notes_of(case: Case) -> Iterator[str]:
    """Everything that stands beside the numbers."""
    yield from _ohm_notes(case)
    yield from _size_notes(case)
    if case.can == "unknown":
        yield "The can was not looked at: swelling, oil, burns or an open vent condemn it whatever it reads."
    if case.kind == "start":
        yield (
            "A capacitance meter has a few volts. An electrolytic that leaks at full voltage passes it, so a start "
            "capacitor in value is only proved by a start."
        )
        yield "A start capacitor that is left in circuit heats, and its vent opens: then look at the start device."
    elif case.measured is not None and case.measured.value < case.marking.open_below:
        yield "A run capacitor near nothing may have parted inside by itself, as some cans are made to when they fail."
    if case.live is not None and case.measured is not None:
        yield "The verdict is by the meter off the circuit. The amps only count where they show it out of value."
    if case.live is not None:
        yield "By amps and volts a waveform that is no sine, or a second part in the clamp, gives a wrong capacitance."
    yield "Read it near room temperature: cold and heat change the value, of an electrolytic most."
    yield "A new one has the same µF, the same or higher volts, and is of the same kind: never an electrolytic to run."


def _ohm_notes(case: Case) -> Iterator[str]:
    if case.ohms is None or not case.alone:
        yield "Its own ohms were not read: a short or a leak is not excluded."
    elif conducts(case):
        yield "A capacitance meter is fooled by a part that conducts, so its microfarads are not judged."
    elif leak_of(case, case.ohms).verdict(case) is Verdict.WITHIN:
        if case.bleed is not None and not math.isinf(case.bleed) and not case.ohms.open_line:
            yield f"The {ohms_text(case.ohms.value)} across it are its bleed resistor's, not leakage."
        yield "No short and no leak at the ohmmeter's few volts; that proves nothing at full voltage."
    limit = case.standards.limit("capacitors.case_ohms")
    if case.case_ohms is not None and case.case_ohms.low >= case.ohm_limit("case_ohms"):
        yield f"Nothing below {limit.text} to the case that an ohmmeter can see; an insulation tester sees more."


def _size_notes(case: Case) -> Iterator[str]:
    least, most = (case.standards.limit(f"capacitors.{case.kind}_usual_{end}") for end in ("least", "most"))
    if least.value <= case.marking.marked <= most.value:
        return
    other = "run" if case.kind == "start" else "start"
    wrong = (
        "A run capacitor in the place of a start capacitor gives no torque."
        if case.kind == "start"
        else "A start capacitor left in the place of a run capacitor gets hot and vents."
    )
    yield (
        f"A {case.kind} capacitor of this trade usually has {least.value:g} to {most.text}: see whether this is a "
        f"{other} capacitor. {wrong}"
    )
