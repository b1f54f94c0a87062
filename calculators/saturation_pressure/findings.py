"""What the pressure of a machine at rest says, and what has to be known of a circuit below the air's pressure.

A pressure below saturation is suspicious and no more: in a small charge all of it can be vapour, or dissolved in the
oil. A pressure above saturation is what no pure refrigerant can give.
"""

from __future__ import annotations

from calculators.contract import quantity, rounded
from calculators.findings import Finding, NextStep, Verdict
from calculators.saturation_pressure.case import Case, Pressure, Span, Standing
from calculators.saturation_pressure.deciders import decider_for, rest_decider

_WITHOUT_GAUGES = NextStep(
    "Leave the gauges for now: go back to what is found without them, amps and watts, airflow, frost. Only a charge "
    "that is taken out and weighed, by a licensed person, tells how much there was.",
    "running-amps",
)
_IDENTIFY = NextStep(
    "Have the gas identified before anything is run, let out or added, and see that no part is warmer than the room.",
    "pressure-checks",
)
_OPEN_CIRCUIT = NextStep(
    "Do not run it. Look for the opening with the machine dead and the detector quiet.",
    "flammable-refrigerant-precautions",
)
_WAIT = NextStep("Leave it at rest, unplugged, with its doors open, and read again.", "pressure-checks")
_READ_AGAIN = NextStep("Read again as the decider says, with nothing else changed.", "pressure-checks")
_KEEP_SHUT = NextStep(
    "Leave the circuit shut; whoever is licensed plans for it before fitting a gauge.", "pressure-checks"
)


def findings_of(case: Case) -> tuple[Finding, ...]:
    """The comparison at rest, then what lies below the air's pressure."""
    found = []
    if case.standing is not None and case.pressure is not None:
        found.append(_standing_finding(case, case.standing, case.pressure))
    below = _below_air(case)
    if below is not None and not any(one.stop for one in found):
        found.append(below)
    return tuple(found)


def _standing_finding(case: Case, standing: Standing, pressure: Pressure) -> Finding:
    if not standing.rested:
        return _not_rested(case, standing, pressure)
    if not standing.decided:
        return _undecided(case, standing, pressure)
    if standing.low.verdict is Verdict.OUTSIDE:
        return _below_saturation(case, standing, pressure)
    if standing.high.verdict is Verdict.OUTSIDE:
        return _above_saturation(case, standing, pressure)
    return _at_saturation(case, standing, pressure)


def _said(case: Case, span: Span, standing: Standing, pressure: Pressure, line: str) -> str:
    which = f" ({line})" if case.fluid.blend else ""
    ambient = f"{quantity(standing.ambient.value, 'degC', 1)} ({quantity(standing.ambient.value, 'degF', 1)})"
    return (
        f"{quantity(pressure.value, 'kPa_abs', 1)} is {rounded(span.value, 1)} % of the saturation pressure of "
        f"{case.fluid.name}{which} at {ambient}, somewhere {span.ends}"
    )


def _not_rested(case: Case, standing: Standing, pressure: Pressure) -> Finding:
    hours = standing.hours
    known = "how long it has been at rest is not known" if hours is None else f"it has rested {hours / 3600.0:.3g} h"
    said = _said(case, standing.of_dew, standing, pressure, "dew")
    return Finding(
        "standing-pressure",
        Verdict.UNDECIDED,
        f"Cannot tell: {known}, and a standing pressure counts after {standing.rest.text}. {said}.",
        "Soon after a run the parts are not equally warm, and the pressure belongs to none of them.",
        _WAIT,
        standing.rest,
        rest_decider(standing),
    )


def _undecided(case: Case, standing: Standing, pressure: Pressure) -> Finding:
    if Verdict.UNDECIDED not in (standing.low.verdict, standing.high.verdict):
        return _too_wide(case, standing, pressure)
    low = standing.low.verdict is Verdict.UNDECIDED
    limit, line = (standing.low_limit, "dew") if low else (standing.high_limit, "bubble")
    span = standing.of_dew if low else standing.of_bubble
    side = "below" if low else "above"
    return Finding(
        "standing-pressure",
        Verdict.UNDECIDED,
        f"Cannot tell: {_said(case, span, standing, pressure, line)}. It is {side} {limit.text}, and the band reaches "
        "back over it.",
        "The gauge, the thermometer or the air's pressure is not known well enough to say which side it is on.",
        _READ_AGAIN,
        limit,
        decider_for(case),
    )


def _too_wide(case: Case, standing: Standing, pressure: Pressure) -> Finding:
    said = _said(case, standing.of_dew, standing, pressure, "dew")
    return Finding(
        "standing-pressure",
        Verdict.UNDECIDED,
        f"Cannot tell: {said}. A band wider than {standing.weak_band.text} of saturation holds a full charge and an"
        " empty circuit alike.",
        "At so low a pressure, or with so coarse instruments, this reading says nothing.",
        _READ_AGAIN,
        standing.weak_band,
        decider_for(case),
    )


def _below_saturation(case: Case, standing: Standing, pressure: Pressure) -> Finding:
    said = _said(case, standing.of_dew, standing, pressure, "dew")
    flat = case.standards.limit("pressures.flat")
    sentence = (
        f"Below saturation: {said}, below {standing.low_limit.text} with the whole band. No free liquid is where this"
        " pressure stands. That is suspicious and by itself no proof of a low charge: a small charge can be all"
        " vapour, or dissolved in the oil."
    )
    if case.air.origin != "nothing" and pressure.value - case.air.pressure <= flat.value:
        return Finding(
            "standing-pressure",
            Verdict.WATCH,
            f"{sentence} It also stands no more than {flat.text} above the air's pressure: the circuit may be open, "
            "and air may be in it. Do not run it.",
            "It has about the pressure of the room, as a circuit with a hole has. Running it would pump air.",
            _OPEN_CIRCUIT,
            standing.low_limit,
            stop=True,
        )
    return Finding(
        "standing-pressure",
        Verdict.WATCH,
        sentence,
        "There is less pressure than liquid would make. It may be too little gas, or only little gas, as planned.",
        _WITHOUT_GAUGES,
        standing.low_limit,
    )


def _above_saturation(case: Case, standing: Standing, pressure: Pressure) -> Finding:
    said = _said(case, standing.of_bubble, standing, pressure, "bubble")
    return Finding(
        "standing-pressure",
        Verdict.OUTSIDE,
        f"Above saturation: {said}, above {standing.high_limit.text} with the whole band. {case.fluid.name} alone "
        "cannot stand there: air or another gas is with it, or it is another refrigerant, or a part is warmer than "
        "the room. Until that is settled the gas counts as not identified.",
        "There is more pressure than this refrigerant can make at this temperature. Something else is in there.",
        _IDENTIFY,
        standing.high_limit,
        stop=True,
    )


def _at_saturation(case: Case, standing: Standing, pressure: Pressure) -> Finding:
    said = _said(case, standing.of_dew, standing, pressure, "dew")
    between = f"between {standing.low_limit.text} and {standing.high_limit.text}"
    crossing = standing.low.crossing or standing.high.crossing
    words = f"Not shown abnormal: {said}, {between}, and the band reaches past one of them"
    return Finding(
        "standing-pressure",
        Verdict.WITHIN,
        f"{words if crossing else f'As saturation: {said}, {between} with the whole band'}. It says that liquid is "
        "there, not how much: the last drop gives the same pressure as a full charge.",
        "The pressure is that of the refrigerant at this temperature. It is no proof that the charge is right.",
        _WITHOUT_GAUGES,
        standing.low_limit,
    )


def _below_air(case: Case) -> Finding | None:
    """A circuit that stands below the air's pressure, or would: what is opened then draws air in."""
    read, air = case.pressure, case.air
    if read is not None:
        absolute, what = read.value, "The pressure read"
    elif case.temperature is not None:
        absolute, what = (
            case.fluid.dew.pressure(case.temperature),
            f"Saturation at {quantity(case.temperature, 'degC', 1)}",
        )
    else:
        return None
    if absolute >= air.pressure or (read is not None and read.gauge is None and air.origin == "nothing"):
        return None
    return Finding(
        "below-air",
        Verdict.WATCH,
        f"{what} lies {quantity(air.pressure - absolute, 'kPa_abs', 1).removesuffix(' abs')} below the air's pressure,"
        f" {air.words}. For a low side that runs cold this is normal, with R600a nearly always. A circuit that is"
        " opened or pierced there draws air in.",
        "There is suction inside, not pressure. A look by opening lets air in and ruins it.",
        _KEEP_SHUT,
        stop=False,
    )
