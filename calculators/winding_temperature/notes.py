"""What stands beside the winding temperature: what the method leaves out, and on which side it errs."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.contract import quantity
from calculators.winding_temperature.case import Case, temperature_by_resistance


def notes_of(case: Case) -> Iterator[str]:
    """Everything that stands beside the numbers."""
    best = case.best
    if len(case.times) > 1:
        lead = case.lead or 0.0
        straight = math.fsum(
            weight * (ohms - lead) for weight, ohms in zip(best.line.weights, case.hot_ohms, strict=True)
        )
        other = temperature_by_resistance(straight / best.cold, case.cold_temperature, best.zero_resistance)
        yield (
            f"Reckoned back by least squares of ln R; a straight line of ohms gives {quantity(other, 'degC', 1)}. A"
            " winding cools fastest in the first seconds, so either reads low rather than high."
        )
    else:
        yield "One hot reading is the temperature at its own moment: the winding was hotter when it was switched off."
    yield "Resistance gives the average of the winding. Its hottest place is several kelvin warmer."
    if case.metal == "aluminium":
        yield "For aluminium k is 225. Taking copper by mistake would read some kelvin high."
    yield (
        "Another standard for motors prints 235 for copper in place of 234.5; that changes the result by a tenth of a"
        " kelvin or two."
    )
    yield (
        "Start gear, fans, lamps or heaters that lie across the pair spoil the ratio, most of all a PTC, which has few"
        " ohms cold and many hot: the pair has to be alone both times."
    )
    yield (
        "A contact that was good cold and poor hot, or the other way round, is in no band: use clip probes, and leads"
        " that stay on the pins."
    )
