"""What would decide a standing pressure that cannot be judged: rest, a finer gauge, a barometer, a finer thermometer.

Each is tried before it is named: the case is judged again with it.
"""

from __future__ import annotations

from dataclasses import replace

from calculators.contract import rounded
from calculators.findings import Decider
from calculators.finer_meter import finer_meter
from calculators.inputs import Entered
from calculators.readings import Meter
from calculators.saturation_pressure.case import Case, Standing, case_of

_GAUGE_STEPS = (1.0, 0.1, 0.01)
_THERMOMETER_STEPS = (0.1, 0.01)


def rest_decider(standing: Standing) -> Decider:
    """Time, where the pressures would give a verdict after it; the entry is left out where they would not."""
    return Decider(
        "Standing pressure and ambient temperature",
        "as now" if standing.decided else "finer than now: the band reaches over a limit as well",
        f"after {standing.rest.text} or longer at rest, unplugged, doors open, the room at one temperature",
        "hours_rest",
        f"{standing.rest.value:g} h" if standing.decided else None,
    )


def decider_for(case: Case) -> Decider:
    """The first single change that would decide; in words where no single one does."""
    condition = "with the machine still at rest and the room at the same temperature, the gauge's zero set to the air"
    gauge = finer_meter(
        case.entered.meters["gauge"],
        lambda meter: _decides(case, _with_meter(case, "gauge", meter)),
        "gauge",
        "kPa_gauge",
        steps=_GAUGE_STEPS,
    )
    if gauge is not None and gauge.entry is not None:
        return Decider("Standing pressure", gauge.words, condition, gauge.enter_in, gauge.entry)
    barometer = f"{rounded(case.air.pressure, 3)} kPa"
    if case.air.origin == "altitude" and _decides(case, _with_barometer(case, float(rounded(case.air.pressure, 3)))):
        return Decider(
            "The pressure of the air",
            f"a barometer at the place, where it also shows about {barometer}",
            condition,
            "barometer",
            barometer,
        )
    thermometer = finer_meter(
        case.entered.meters["thermometer"],
        lambda meter: _decides(case, _with_meter(case, "thermometer", meter)),
        "thermometer",
        "K",
        steps=_THERMOMETER_STEPS,
    )
    if thermometer is not None and thermometer.entry is not None:
        return Decider("Ambient temperature", thermometer.words, condition, thermometer.enter_in, thermometer.entry)
    return Decider(
        "Standing pressure, ambient temperature and the pressure of the air",
        "a gauge of 1 kPa (0.15 psi), a thermometer of 0.2 K and a barometer, all together",
        f"{condition}; if it still lies on the limit, at another steady temperature on another day",
    )


def _with_meter(case: Case, name: str, meter: Meter) -> Entered:
    return replace(case.entered, meters={**case.entered.meters, name: meter})


def _with_barometer(case: Case, pressure: float) -> Entered:
    return replace(case.entered, numbers={**case.entered.numbers, "barometer": pressure})


def _decides(case: Case, entered: Entered) -> bool:
    standing = case_of(entered, case.standards).standing
    return standing is not None and standing.decided
