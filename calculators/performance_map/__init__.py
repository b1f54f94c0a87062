"""What does the maker's performance map expect this compressor to draw, at these two temperatures?

Reads the ten-coefficient polynomial of AHRI 540 and EN 12900 (form from memory) in the unit that the map states,
inside the map's limits only, and compares measured amps with it. The answer is the best evidence that expected
amps can have. Says nothing outside the limits, at another voltage or frequency, or for another return gas.
"""

from __future__ import annotations

from collections.abc import Mapping

from calculators.contract import Calculator, Example, Figure, Outcome
from calculators.expected_amps.drawing import figure_of
from calculators.expected_amps.evidence import power_factor_of
from calculators.expected_amps.ratio import Case
from calculators.inputs import Entered, Problem, RefusedError, Typed
from calculators.limits import InForce
from calculators.performance_map.account import notes_of, results_of, working_of
from calculators.performance_map.drawing import map_figure
from calculators.performance_map.inputs import COEFFICIENT_NAMES, INPUTS
from calculators.performance_map.the_map import MapReading, read_map
from calculators.performance_map.verdict import map_findings, reference_to
from calculators.running_condition import Supply

LIMITS = (
    "amps.band.map",
    "amps.band.watts",
    "amps.low_ratio",
    "amps.high_ratio",
    "amps.stop_ratio",
    "amps.weak_above",
    "amps.run_settle_minutes",
    "amps.start_over",
    "amps.voltage.uncorrected",
    "amps.voltage.no_verdict",
    "amps.voltage.extra_band",
    "amps.power_factor.resistance_start",
    "amps.power_factor.run_capacitor",
)


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """The expected amps or watts by the map, and the verdict on the running amps if there are any."""
    amps = entered.number("running_amps")
    if amps == 0.0:
        raise RefusedError(
            Problem(
                "running_amps",
                "Running amps: 0 is no running current. See that the motor runs and that the "
                "clamp is round one conductor only, then enter what it shows.",
            )
        )
    reading = read_map(entered, standards)
    supply = _supply_of(reading, entered, standards)
    reference = reference_to(reading, reading.temperature_band, standards).widened(supply.extra_band)
    clamp, case = entered.meters["clamp"], None
    if amps is not None and reading.gives == "A":
        case = Case(reference.pieces, reference, (), amps, clamp, supply, entered.number("run_time"), standards)
    power_factor = power_factor_of(entered, standards)
    figures: tuple[Figure, ...] = (map_figure(reading),)
    if reading.gives == "A":
        figures += (figure_of(reference.pieces, reference, case, standards),)
    return Outcome(
        results=tuple(results_of(reading, reference, supply, case, power_factor, standards)),
        findings=map_findings(reading, reference, case, clamp, standards),
        working=tuple(working_of(reading, reference, supply, case, power_factor)),
        figures=figures,
        notes=tuple(notes_of(reading, supply, case, amps)),
    )


def _supply_of(reading: MapReading, entered: Entered, standards: InForce) -> Supply:
    return Supply(
        reading.volts,
        entered.reading("running_volts"),
        reading.frequency,
        entered.choice("supply_frequency"),
        standards,
        whose="map",
    )


def _typed(coefficients: str, **texts: str) -> Mapping[str, Typed]:
    """One entry a field; the coefficients in a row, C1 first."""
    row = dict(zip(COEFFICIENT_NAMES, coefficients.split(), strict=True))
    return {name: Typed(text) for name, text in (texts | row).items()}


# An invented small R134a compressor of 115 V and 60 Hz, in amps and °C: 1.60 A at −23.3 °C and 54.4 °C.
_SMALL = "0.9748 -3.609e-2 3.139e-2 -8.533e-4 1.317e-3 -1.422e-4 -5.899e-6 1.308e-5 -3.624e-6 -5.026e-7"
_SMALL_MAP = {
    "map_gives": "A",
    "map_temperature_unit": "degC",
    "map_volts": "115",
    "map_frequency": "60",
    "evaporating_least": "-35",
    "evaporating_most": "-10",
    "condensing_least": "35",
    "condensing_most": "60",
}
# A published set in watts and °F, far larger than a household compressor. Its volts and limits are not printed.
_PUBLISHED = (
    "-561.3615705 -15.62601841 46.92506685 -0.217949552 0.435062616 -0.442400826 2.25E-04 2.37E-03 -3.32E-03 2.50E-03"
)
_PUBLISHED_MAP = {
    "map_gives": "W",
    "map_temperature_unit": "degF",
    "map_volts": "230",
    "map_frequency": "60",
    "evaporating_least": "20 F",
    "evaporating_most": "55 F",
    "condensing_least": "90 F",
    "condensing_most": "140 F",
}

CALCULATOR = Calculator(
    slug="performance-map",
    title="Performance map",
    question="What does the maker's performance map expect this compressor to draw here?",
    purpose="Reads a ten-coefficient map at the evaporating and condensing temperatures you measured.",
    does_not_tell="It does not tell anything outside the range of the map, at another voltage or frequency, "
    "nor whether the compressor pumps.",
    level="technician",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=(
        Example(
            "small-compressor-at-its-rating-point",
            "An invented map in °C and amps, read at −23.3 °C and 54.4 °C",
            "derived",
            _typed(
                _SMALL,
                **_SMALL_MAP,
                evaporating_now="-23.3",
                condensing_now="54.4",
                temperature_band="1",
                running_amps="1.55",
                running_volts="117",
                run_time="45",
                supply_frequency="60",
            ),
        ),
        Example(
            "small-compressor-on-a-pull-down",
            "The same compressor with a warm cabinet",
            "derived",
            _typed(
                _SMALL,
                **_SMALL_MAP,
                evaporating_now="-12",
                condensing_now="42",
                running_amps="2.6",
                running_volts="114",
                run_time="25",
            ),
        ),
        Example(
            "published-set-warm",
            "A published set in °F and watts, at 45 °F and 130 °F",
            "compressor-component-test",
            _typed(_PUBLISHED, **_PUBLISHED_MAP, evaporating_now="45 F", condensing_now="130 F"),
        ),
        Example(
            "published-set-mild",
            "The same set at 30 °F and 100 °F",
            "compressor-component-test",
            _typed(_PUBLISHED, **_PUBLISHED_MAP, evaporating_now="30 F", condensing_now="100 F", power_factor="0.9"),
        ),
    ),
    limits=LIMITS,
    sources=(
        "ahri-540",
        "en-12900",
        "compressor-component-test",
        "jcgm-100",
        "nec-440-52",
        "common-practice",
        "trade-memory",
        "derived",
    ),
    hazards=("electric-shock", "arc-flash", "moving-parts", "hot-surfaces", "refrigerant-release"),
    search_words=(
        "ten coefficient",
        "10 coefficient",
        "compressor polynomial",
        "AHRI 540",
        "EN 12900",
        "compressor map",
        "performance data",
        "capacity table",
        "evaporating temperature",
        "condensing temperature",
    ),
)
