"""What is said about a reading against a performance map, and what would decide it where the map cannot.

The verdict itself is that of expected amps; here stands only what differs: the evidence is one map, so better
temperatures may decide, and no other evidence is asked for.
"""

from __future__ import annotations

from calculators.contract import quantity
from calculators.expected_amps.deciders import better_supply, clamps_tried, decides, finer_clamp, second_quantity
from calculators.expected_amps.evidence import Piece
from calculators.expected_amps.hindrances import no_reading
from calculators.expected_amps.ratio import Case, Placed
from calculators.expected_amps.reference import Reference, reference_of
from calculators.expected_amps.verdict import findings_of
from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.limits import InForce
from calculators.performance_map.the_map import MapReading
from calculators.readings import Meter

_FINER_KELVINS = (2.0, 1.0, 0.5)  # what thermometers on a tube are good to


def reference_to(reading: MapReading, kelvin: float, standards: InForce) -> Reference:
    """The map's amps as the evidence a reading is compared with, for temperatures good to this much."""
    band = reading.half_band(kelvin)
    return reference_of((Piece("map_amps", reading.value, band, band),), standards)


def map_findings(
    reading: MapReading, reference: Reference, case: Case | None, clamp: Meter, standards: InForce
) -> tuple[Finding, ...]:
    """The one verdict, or every reason why there is none."""
    if reading.gives == "W":
        return (_watts_only(reading),)
    if case is None:
        return (no_reading(reference, clamp, standards),)
    return findings_of(case, lambda judged, placed: _decider_for(judged, placed, reading))


def _decider_for(case: Case, placed: Placed, reading: MapReading) -> Decider:
    """A finer clamp if that is enough, else finer temperatures, else a better supply, else watts."""
    finer = finer_clamp(case)
    if finer is not None:
        return finer
    for clamp, words in clamps_tried(case):
        better = _finer_temperatures(case, clamp, words, reading) or better_supply(case, clamp, words)
        if better is not None:
            return better
    return second_quantity(case, placed)


def _finer_temperatures(case: Case, clamp: Meter, words: str, reading: MapReading) -> Decider | None:
    for kelvin in _FINER_KELVINS:
        if kelvin >= reading.temperature_band:
            continue
        better = reference_to(reading, kelvin, case.standards).widened(case.supply.extra_band)
        if decides(case, clamp, better):
            return Decider(
                "Evaporating and condensing temperature",
                f"good to {quantity(kelvin, 'K', 1)} ({quantity(kelvin, 'degF_diff', 1)}) or better{words}",
                "where they also come to about the same temperatures, read with the amps",
                None if words else "temperature_band",
                None if words else f"{kelvin:g} K",
            )
    return None


def _watts_only(reading: MapReading) -> Finding:
    half = quantity(100.0 * reading.half_band(reading.temperature_band), "percent", 0)
    return Finding(
        "map-watts",
        Verdict.UNDECIDED,
        f"No watts were compared: the map expects {quantity(reading.value, 'W', 0)} ±{half} at these temperatures.",
        "This is what to expect. Measure the watts of the compressor alone and put them beside it.",
        NextStep(
            "Measure watts, amps and volts together, steady, on the compressor alone, and compare them there.",
            "running-watts",
        ),
        decider=Decider(
            "Input watts of the compressor alone",
            "1 W, a wattmeter of 2 % is enough",
            f"at {quantity(reading.volts, 'V', 0)} and {reading.frequency} Hz, at these temperatures, "
            "fans, lamp and heaters off or taken off",
        ),
    )
