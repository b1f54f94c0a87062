"""Does this compressor take the power that it should, and does its power factor fit the work it does?

Use after it has run long enough, beside the running amps. Tells a loaded motor from one that turns without work; says
nothing about where the cold stays, and condemns nothing: a low figure is a licensed pump test's question.
Conditions are weighed one by one in conditions, pictures that they make together stand in signatures, the watts alone
in findings, the start lead in start_lead, and what would decide in deciders.

Sources: PF = P / (U I) and S² = P² + Q² are definitions; bands by JCGM 100:2008; limits are common practice.
Valid for fixed-speed single-phase motors on a supply near the plate's volts and at its frequency.
"""

from __future__ import annotations

from collections.abc import Mapping

from calculators.contract import Calculator, Example, Outcome
from calculators.findings import Finding
from calculators.inputs import Entered, Typed
from calculators.limits import InForce
from calculators.running_power.account import notes_of, results_of, working_of
from calculators.running_power.case import Case, case_of
from calculators.running_power.drawing import figures_of
from calculators.running_power.findings import hindrances, judged, with_stop
from calculators.running_power.inputs import INPUTS
from calculators.running_power.signatures import pictures_of
from calculators.running_power.start_lead import start_lead_finding


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """Watts, power factor, and what they mean together."""
    case = case_of(entered, standards)
    return Outcome(
        results=tuple(results_of(case)),
        findings=_findings(case, entered),
        working=tuple(working_of(case)),
        figures=figures_of(case),
        notes=tuple(notes_of(case, entered, standards)),
    )


def _findings(case: Case, entered: Entered) -> tuple[Finding, ...]:
    found = tuple(hindrances(case, entered.choice("wattmeter_kind")))
    if not found:
        found = (judged(case), *pictures_of(case, entered.choice("winding_ohms")))
    found = with_stop(case, found)
    lead = start_lead_finding(case, entered)
    if lead is None:
        return found
    return (lead, *found) if lead.stop else (*found, lead)


def _typed(**texts: str) -> Mapping[str, Typed]:
    return {name: Typed(text) for name, text in texts.items()}


CALCULATOR = Calculator(
    slug="running-power",
    title="Running watts and power factor",
    question="Does this compressor take the power that it should, and does its power factor fit?",
    purpose="Works out power factor, volt-amps and the watts against the expected ones, and what they fit together.",
    does_not_tell="It does not tell where the cold stays, and it condemns nothing by itself.",
    level="technician",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=(
        Example(
            "runs-all-day-warm",
            "68 W where 150 W are expected, and the amps look right",
            "common-practice",
            _typed(
                plate_volts="115",
                motor_type="resistance",
                watts="150",
                expected_amps="2.0",
                running_watts="68",
                running_volts="116",
                running_amps="1.75",
                run_time="40",
            ),
        ),
        Example(
            "run-capacitor-open",
            "1.36 times last year's amps, and the power factor down from 0.93 to 0.72",
            "common-practice",
            _typed(
                plate_volts="115",
                motor_type="run_capacitor",
                record_watts="118",
                power_factor="0.93",
                expected_amps="1.10",
                running_watts="125",
                running_volts="115",
                running_amps="1.50",
                run_time="30",
            ),
        ),
        Example(
            "resistor-and-coil",
            "60 Ω and 160 mH on 120 V, 60 Hz",
            "kuphaldt-lessons",
            _typed(
                plate_volts="120", running_watts="119.365", running_volts="120", running_amps="1.41046", run_time="30"
            ),
        ),
        Example(
            "third-horsepower-textbook-motor",
            "400 W at 115 V and 5.35 A",
            "kosow-machinery-10",
            _typed(
                plate_volts="115",
                motor_type="resistance",
                watts="400",
                running_watts="400",
                running_volts="115",
                running_amps="5.35",
                run_time="30",
            ),
        ),
        Example(
            "coil-and-capacitor",
            "561.76 W at 240 V and 2.4332 A",
            "bird-circuits-16",
            _typed(
                plate_volts="240", running_watts="561.76", running_volts="240", running_amps="2.4332", run_time="30"
            ),
        ),
        Example(
            "relay-stays-in",
            "5.2 A still in the start lead at 8 seconds",
            "common-practice",
            _typed(
                plate_volts="115",
                motor_type="resistance",
                running_watts="700",
                running_volts="114",
                running_amps="7.4",
                run_time="8 s",
                start_lead_amps="5.2",
                start_device="relay",
            ),
        ),
    ),
    limits=(
        "power.low_ratio",
        "power.high_ratio",
        "power.factor_drop",
        "power.factor_drop_capacitor",
        "power.factor_most",
        "power.factor_like_volt_amps",
        "power.weak_watts",
        "power.weak_factor",
        "power.band.map",
        "power.band.data_sheet",
        "power.band.record",
        "power.factor_spread.data_sheet",
        "power.factor_spread.resistance_start",
        "power.factor_spread.run_capacitor",
        "power.start_lead_after",
        "power.start_lead_relay",
        "power.start_lead_ptc",
        "amps.power_factor.resistance_start",
        "amps.power_factor.run_capacitor",
        "amps.high_ratio",
        "amps.stop_ratio",
        "amps.weak_above",
        "amps.run_settle_minutes",
        "amps.start_over",
        "amps.voltage.uncorrected",
        "amps.voltage.no_verdict",
        "amps.voltage.extra_band",
        "amps.shift.r134a_r600a",
        "amps.shift.r290",
        "amps.shift.spread",
        "amps.shift.most",
        "amps.shift.condensing_r134a_r600a",
        "amps.shift.condensing_r290",
        "amps.shift.condensing_spread",
        "amps.shift.condensing_most",
    ),
    sources=(
        "common-practice",
        "derived",
        "jcgm-100",
        "euramet-cg-15",
        "trade-memory",
        "kuphaldt-lessons",
        "kosow-machinery-10",
        "bird-circuits-16",
    ),
    hazards=("electric-shock", "arc-flash", "moving-parts", "terminal-venting", "flammable-refrigerant"),
    search_words=(
        "watts",
        "power factor",
        "PF",
        "VA",
        "wattmeter",
        "plug-in meter",
        "runs but not pumping",
        "not pumping",
        "low watts",
        "high watts",
        "start winding stays in",
        "run capacitor open",
    ),
)
