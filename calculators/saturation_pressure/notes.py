"""What stands beside the numbers of the saturation check."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.saturation_pressure.account import band_in_table
from calculators.saturation_pressure.case import Case

LICENSED = (
    "Fitting a gauge opens the refrigerant circuit: that is work for a person licensed for it, and the last step, after"
    " everything that is found without gauges."
)


def notes_of(case: Case) -> Iterator[str]:
    """Who may take such a reading, what is doubtful about these numbers, and what they do not say."""
    yield LICENSED
    if case.fluid.flammable:
        yield (
            f"{case.fluid.name} burns (class A3): detector quiet at the floor and running, no flame and nothing that "
            "sparks, before a fitting is touched."
        )
    if case.air.origin == "nothing":
        yield (
            "Neither altitude nor barometer was entered: gauge values are for sea level. A gauge shows about 12 kPa "
            "(1.7 psi) more for every 1000 m (3300 ft) of altitude, at the same absolute pressure."
        )
    if case.air.origin == "altitude":
        weather = case.standards.limit("pressures.weather")
        yield (
            f"The air's pressure is that of the altitude; weather moves it by up to ±{weather.text}. A barometer at the"
            " place is better."
        )
    if case.pressure is not None:
        yield (
            "On a small exact charge the hose alone can take a good part of it, and a pressure is no measure of the "
            "quantity: the charge is weighed, not judged by pressure."
        )
        yield (
            "A machine that runs has no one temperature; its pressures are compared with tube temperatures, not with"
            " the room."
        )
        if not band_in_table(case, case.pressure):
            yield (
                "The band of the reading reaches out of the table, so the saturation temperature is printed without"
                " one."
            )
    if case.fluid.blend:
        yield (
            f"{case.fluid.name} is a blend: after a leak the rest may be of another composition, and then this table "
            "is not its table. Its equation is a fit that its author gives 0.5 % for."
        )
    error = case.standards.limit("pressures.table_error")
    yield f"Read between the lines of the table, these pressures are within {error.text} of the equation of state."
