"""What the readings show one by one: watts low or high, power factor down, amps up; certain, leaning, or not.

A state is certain only with its whole band beyond the limit. A wider band turns certain into leaning and nothing else.
"""

from __future__ import annotations

from enum import Enum

from calculators.findings import Placement, Verdict, judge
from calculators.limits import InForce, Limit
from calculators.running_power.case import Case, Span
from calculators.running_power.inputs import ON_DATA, RESISTANCE, RUN_LOW


class State(Enum):
    """How far one condition of a signature is met."""

    CERTAIN = "certain"
    LEANING = "leaning"
    NOT = "not"
    UNKNOWN = "unknown"


def beyond(span: Span | None, limit: Limit) -> State:
    """Where a number with its band lies against a limit."""
    if span is None:
        return State.UNKNOWN
    verdict = judge(span.value, span.low, span.high, limit).verdict
    return {Verdict.OUTSIDE: State.CERTAIN, Verdict.UNDECIDED: State.LEANING}.get(verdict, State.NOT)


def watts_low(case: Case) -> State:
    """Watts clearly less than expected."""
    return beyond(case.ratio, case.standards.limit("power.low_ratio"))


def watts_high(case: Case) -> State:
    """Watts clearly more than expected."""
    return beyond(case.ratio, case.standards.limit("power.high_ratio"))


def factor_down(case: Case) -> State:
    """Power factor down as in a motor without its load."""
    return beyond(case.drop, case.standards.limit("power.factor_drop"))


def factor_far_down(case: Case) -> State:
    """Power factor down as in a motor that has lost its run capacitor."""
    return beyond(case.drop, case.standards.limit("power.factor_drop_capacitor"))


def amps_high(case: Case) -> State:
    """Amps clearly more than expected."""
    return beyond(case.amps_ratio, case.standards.limit("amps.high_ratio"))


def run_winding_low(ohms: str) -> State:
    """Ohms of the run winding below its data."""
    return {RUN_LOW: State.CERTAIN, ON_DATA: State.NOT}.get(ohms, State.UNKNOWN)


def ohms_right(ohms: str) -> State:
    """Ohms of both windings on their data."""
    return {RUN_LOW: State.NOT, ON_DATA: State.CERTAIN}.get(ohms, State.UNKNOWN)


def place(span: Span, standards: InForce) -> tuple[Placement, Limit]:
    """Measured over expected watts between the low and the high limit, and the limit that says so."""
    low, high = standards.limit("power.low_ratio"), standards.limit("power.high_ratio")
    under, over = judge(span.value, span.low, span.high, low), judge(span.value, span.low, span.high, high)
    if under.verdict is not Verdict.WITHIN:
        return under, low
    return (over, high) if over.verdict is not Verdict.WITHIN else (over, high if over.crossing else low)


def crosses(span: Span, standards: InForce) -> bool:
    """True when the band of a ratio reaches past either limit."""
    low, high = standards.limit("power.low_ratio"), standards.limit("power.high_ratio")
    return judge(span.value, span.low, span.high, low).crossing or judge(span.value, span.low, span.high, high).crossing


def weakly_read(case: Case) -> bool:
    """True where ordinary wattmeters are poor: few watts, or a low power factor."""
    factor = case.power_factor
    few = case.watts < case.standards.value("power.weak_watts")
    return few or (factor is not None and factor.value < case.standards.value("power.weak_factor"))


def like_volt_amps(case: Case) -> bool:
    """True when the watts of a motor without run capacitor are nearly its volt-amps."""
    factor = case.power_factor
    most = case.standards.value("power.factor_like_volt_amps")
    return case.motor_type == RESISTANCE and factor is not None and factor.value >= most
