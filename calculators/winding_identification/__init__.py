"""Which pin is common, which is run, which is start, and are the windings whole?

Three readings between the three pins, everything off the pins, dead and discharged. The largest is
run and start in series, the odd pin is common, the smaller of the other two is the run winding.
Says nothing about insulation to the shell, and cannot find a few shorted turns by ohms alone.

Sources: highest pair, odd pin and order from Goodheart-Willcox, Heating and Cooling Essentials (2022), 25.8;
series sum from circuit theory; temperature by R2 = R1 (k + T2) / (k + T1), IEC 60335-1 clause 11, with k = 234.5
for copper and 225 for aluminium.
Valid for single-phase motors with two windings joined at common. Not for three-phase drive motors.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import permutations

from calculators.contract import Calculator, Example, Named, Outcome, Result, Step, quantity, rounded
from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.inputs import Choice, ChoiceInput, Entered, MeterInput, NumberInput, Typed
from calculators.limits import InForce
from calculators.pin_drawing import PINS, ROLE_WORDS, pin_figure
from calculators.winding_identification.data_sheet import TO_SHELL, against_data
from calculators.winding_identification.open_lines import open_lines, open_results
from calculators.winding_identification.readings import (
    FIELD,
    METALS,
    MOST_OHMS,
    PAIRS,
    READ_AGAIN,
    Pair,
    Pins,
    SumCheck,
    diagram_roles,
    enter_resolution,
    enter_to_name,
    finest_asked,
    nulled,
    nulling_steps,
    pair_of,
    resistance_at,
    resolution_to_tell_apart,
    resolution_words,
    short_sum_note,
    sum_check,
    sum_finding,
)

_NEGATIVE = "Ohms below zero mean voltage or charge on the part: prove it dead, discharge it, then read again."


def _reading_input(pair: Pair) -> NumberInput:
    return NumberInput(
        FIELD[pair],
        f"Reading {pair[0]}–{pair[1]}",
        ("ohm", "kilohm", "milliohm"),
        0.0,
        MOST_OHMS,
        open_line=True,
        meter="ohmmeter",
        negative_hint=_NEGATIVE,
        group="Readings",
        help=f"Ohms between pin {pair[0]} and pin {pair[1]}, as the meter shows it. OL when it shows open line.",
    )


def _diagram_choices() -> tuple[Choice, ...]:
    orders = [Choice("unknown", "not known")]
    for letters in permutations("CRS"):
        orders.append(
            Choice("".join(letters), ", ".join(f"pin {p} {ROLE_WORDS[r]}" for p, r in zip(PINS, letters, strict=True)))
        )
    return tuple(orders)


INPUTS = (
    _reading_input(("1", "2")),
    _reading_input(("2", "3")),
    _reading_input(("1", "3")),
    NumberInput(
        "lead",
        "Test leads shorted together",
        ("ohm", "milliohm"),
        0.0,
        2.0,
        required=False,
        meter="ohmmeter",
        group="Readings",
        negative_hint=_NEGATIVE,
        help="What the meter shows with its probes touching. Enter 0 when the meter has been zeroed on them.",
    ),
    MeterInput("ohmmeter", "Ohmmeter", "ohm", 0.1, group="Meter"),
    NumberInput(
        "shell_temperature",
        "Shell temperature",
        ("degC", "degF"),
        -10.0,
        120.0,
        required=False,
        group="Condition",
        help="By probe or surface thermometer, when the readings were taken.",
    ),
    NumberInput(
        "thermometer_band",
        "Thermometer good to within",
        ("K", "degF_diff"),
        0.0,
        20.0,
        default="2",
        group="Condition",
        help="How far the shell reading may be from the winding's own temperature.",
    ),
    NumberInput(
        "hours_cool",
        "Time the shell has been cool",
        ("h", "min"),
        0.0,
        3.6e7,
        required=False,
        group="Condition",
        help="Only needed when a reading is OL: how long the shell has been too cool to hold an overload open.",
    ),
    NumberInput(
        "hours_rest",
        "Time since it last ran or tripped",
        ("h", "min"),
        0.0,
        3.6e7,
        required=False,
        group="Condition",
        help="Only needed when a reading is OL.",
    ),
    ChoiceInput(
        "repeated",
        "OL seen again after cleaning the pins, with other probes, meter proved on a known resistor",
        (Choice("no", "not yet"), Choice("yes", "yes")),
        "no",
        group="Condition",
    ),
    ChoiceInput(
        "layout",
        "How the pins stand",
        (
            Choice("unknown", "not noted"),
            Choice("single pin above", "one pin above two"),
            Choice("single pin below", "one pin below two"),
        ),
        "unknown",
        group="Picture and data",
        help=(
            "Seen square-on. One above: 1 is on top, 2 lower left, 3 lower right. One below: 1 upper left, 2 upper"
            " right, 3 below."
        ),
    ),
    ChoiceInput(
        "diagram", "Pins by the machine's own diagram", _diagram_choices(), "unknown", group="Picture and data"
    ),
    NumberInput("data_run", "Data sheet: run winding", ("ohm",), 0.05, 300.0, required=False, group="Picture and data"),
    NumberInput(
        "data_start", "Data sheet: start winding", ("ohm",), 0.05, 300.0, required=False, group="Picture and data"
    ),
    NumberInput(
        "data_temperature",
        "Data sheet: at temperature",
        ("degC", "degF"),
        -10.0,
        60.0,
        default="25",
        group="Picture and data",
    ),
    ChoiceInput(
        "metal",
        "Winding metal",
        (Choice("copper", "copper"), Choice("aluminium", "aluminium")),
        "copper",
        group="Picture and data",
    ),
)


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """Name the pins, check the sum, compare with data where there is any; or say what must be read again."""
    pins = nulled(entered)
    working = list(nulling_steps(entered, pins))
    if pins.opens:
        finding = open_lines(entered, pins, standards)
        return Outcome(
            open_results(pins),
            (finding,),
            tuple(working),
            (pin_figure(entered.choice("layout"), diagram_roles(entered), pins.text()),),
            _notes(entered, pins, {}),
        )
    pattern = _no_order(pins, standards)
    if pattern is not None:
        return Outcome(
            (),
            (pattern,),
            tuple(working),
            (pin_figure(entered.choice("layout"), {}, pins.text()),),
            _notes(entered, pins, {}),
        )
    check = sum_check(pins, standards)
    working.append(check.step)
    if not check.good:
        return Outcome(
            (),
            (sum_finding(pins, check, standards),),
            tuple(working),
            (pin_figure(entered.choice("layout"), {}, pins.text()),),
            _notes(entered, pins, {}),
        )
    roles, finding, naming = _name(entered, pins, check, standards)
    working += naming
    findings = [finding, *_weak(pins, standards), *_diagram_conflict(entered, roles)]
    results: list[Result | Named] = [_named(roles, role) for role in "CRS" if role in roles.values()]
    results += _resistances(entered, pins, roles, standards, working)
    if len(roles) == 3:
        findings += against_data(entered, pins, roles, standards, working)
    figure = pin_figure(entered.choice("layout"), roles, pins.text())
    return Outcome(
        tuple(results),
        tuple(findings),
        tuple(working),
        (figure,),
        _notes(entered, pins, roles) + short_sum_note(pins, check, standards),
    )


def _no_order(pins: Pins, standards: InForce) -> Finding | None:
    """Patterns in which the pairs cannot be put in order: near zero, all alike, or largest and next too close."""
    largest, middle, smallest = pins.ordered
    factor = standards.value("windings.gap_factor")
    if pins.reading(smallest).low <= 0.0:
        needed = pins.ohms[smallest] / 2.0 / max(pins.meter.counts, 1.0)
        return Finding(
            "near zero",
            Verdict.UNDECIDED,
            f"{'–'.join(smallest)} reads {quantity(pins.ohms[smallest], 'ohm', 2)}, which this meter cannot tell from"
            " zero.",
            "Either two pins are joined, the meter is too coarse for this motor, or something is still connected.",
            READ_AGAIN,
            decider=Decider(
                f"Reading {'–'.join(smallest)}",
                resolution_words(needed),
                "a low-ohm meter, leads nulled, everything off the pins",
            ),
        )
    spread = pins.gap(largest, smallest)
    tolerance = standards.value("windings.sum_tolerance") / 100.0
    if spread <= max(pins.gap_needed(largest, smallest, factor), tolerance * pins.ohms[largest]):
        return Finding(
            "three equal",
            Verdict.UNDECIDED,
            "All three pairs read alike: that is how a three-phase motor on an electronic drive reads, not a"
            " single-phase one.",
            "This handbook stops here for such a machine. Its maker's own drive procedure takes over.",
            NextStep(
                "Look for a drive board beside the compressor; if there is one, follow the maker's drive procedure."
            ),
            decider=Decider(
                "all three pairs",
                resolution_words(pins.meter.resolution / 10.0),
                "a drive board seen, or a finer meter that tells the pairs apart",
            ),
            stop=True,
        )
    if not pins.told_apart(largest, middle, factor):
        return _too_close(pins, standards, largest, middle, "run–start")
    return None


def _too_close(pins: Pins, standards: InForce, larger: Pair, smaller: Pair, what: str) -> Finding:
    factor = standards.value("windings.gap_factor")
    gap = pins.gap(larger, smaller)
    needed = resolution_to_tell_apart(pins, gap, factor)
    return Finding(
        "pins",
        Verdict.UNDECIDED,
        f"{'–'.join(larger)} and {'–'.join(smaller)} differ by {quantity(gap, 'ohm', 2)}; this meter tells apart only"
        f" what differs by more than {quantity(pins.gap_needed(larger, smaller, factor), 'ohm', 2)}. The {what} pair"
        " cannot be picked.",
        "The two readings are too close for this meter. Guessing which is larger would name the pins by luck.",
        READ_AGAIN,
        decider=Decider(
            f"Readings {'–'.join(larger)} and {'–'.join(smaller)}",
            resolution_words(needed),
            "all three pairs read again with that meter, leads nulled; else the machine's own diagram",
            *enter_to_name(pins, needed, standards),
        ),
    )


def _name(
    entered: Entered, pins: Pins, check: SumCheck, standards: InForce
) -> tuple[dict[str, str], Finding, list[Step]]:
    largest, middle, smallest = pins.ordered
    factor = standards.value("windings.gap_factor")
    common = next(pin for pin in PINS if pin not in largest)
    working = [
        Step(
            "Common pin",
            "the pin that is not in the largest pair",
            f"largest pair {'–'.join(largest)}, {quantity(pins.ohms[largest], 'ohm', 2)}",
            f"pin {common}",
            "goodheart-willcox-25-8",
        )
    ]
    total = quantity(pins.ohms[middle] + pins.ohms[smallest], "ohm", 2)
    added = f"{quantity(pins.ohms[largest], 'ohm', 2)} against a sum of {total}"
    if not pins.told_apart(middle, smallest, factor):
        return _equal_windings(entered, pins, common, standards, added, working)
    run = next(pin for pin in smallest if pin != common)
    start = next(pin for pin in middle if pin != common)
    working.append(
        Step(
            "Run and start",
            "from common, the smaller is run, the larger is start",
            f"{rounded(pins.ohms[smallest], 2)} < {rounded(pins.ohms[middle], 2)},"
            f" {rounded(pins.gap(middle, smallest), 2)} apart, needs"
            f" {rounded(pins.gap_needed(middle, smallest, factor), 2)}",
            f"run pin {run}, start pin {start}",
            "goodheart-willcox-25-8",
        )
    )
    return (
        {common: "C", run: "R", start: "S"},
        Finding(
            "pins",
            Verdict.WITHIN,
            f"Pin {common} is common, pin {run} is run, pin {start} is start; sum check good, {added}.",
            "The windings conduct and add up. That does not yet clear their insulation, nor a few shorted turns.",
            TO_SHELL,
            standards.limit("windings.sum_tolerance"),
        ),
        working,
    )


def _equal_windings(
    entered: Entered, pins: Pins, common: str, standards: InForce, added: str, working: list[Step]
) -> tuple[dict[str, str], Finding, list[Step]]:
    _, middle, smallest = pins.ordered
    diagram = diagram_roles(entered)
    if diagram.get(common) == "C":
        run = next(pin for pin in PINS if diagram[pin] == "R")
        start = next(pin for pin in PINS if diagram[pin] == "S")
        return (
            diagram,
            Finding(
                "pins",
                Verdict.WITHIN,
                f"Pin {common} is common by ohms, {added}. The two windings read alike; by the diagram pin {run} is"
                f" run, pin {start} is start.",
                "Ohms gave the common pin; the diagram gave the other two.",
                TO_SHELL,
            ),
            working,
        )
    gap = pins.gap(middle, smallest)
    needed = resolution_to_tell_apart(pins, gap, standards.value("windings.gap_factor"))
    return (
        {common: "C"},
        Finding(
            "pins",
            Verdict.UNDECIDED,
            f"Pin {common} is common, {added}. The two windings differ by {quantity(gap, 'ohm', 2)} only: run and start"
            " cannot be told by this meter.",
            "Some motors have two windings alike. Then only the machine's diagram says which is run.",
            READ_AGAIN,
            decider=Decider(
                f"Readings {'–'.join(middle)} and {'–'.join(smallest)}",
                resolution_words(needed),
                "the machine's own diagram, or that meter",
                *enter_to_name(pins, needed, standards),
            ),
        ),
        working,
    )


def _named(roles: Mapping[str, str], role: str) -> Named:
    pin = next(one for one, letter in roles.items() if letter == role)
    return Named(
        ROLE_WORDS[role],
        f"{ROLE_WORDS[role].capitalize()} pin",
        pin,
        {
            "C": "Joins both windings; the overload sits in its lead.",
            "R": "The winding that carries the running current.",
            "S": "The winding that only helps to start, unless a run capacitor feeds it.",
        }[role],
    )


def _diagram_conflict(entered: Entered, roles: Mapping[str, str]) -> list[Finding]:
    diagram = diagram_roles(entered)
    clash = [pin for pin, role in roles.items() if diagram and diagram[pin] != role]
    if not clash:
        return []
    pin = clash[0]
    return [
        Finding(
            "diagram",
            Verdict.UNDECIDED,
            f"The diagram calls pin {pin} {ROLE_WORDS[diagram[pin]]}, the ohms call it {ROLE_WORDS[roles[pin]]}.",
            "Either the numbers were put on other pins, or the diagram is of another machine. Ohms measured on this"
            " motor come first.",
            READ_AGAIN,
            decider=Decider(
                "all three pairs", "any", "the pin numbers checked against the photo, and the diagram against the plate"
            ),
        )
    ]


def _weak(pins: Pins, standards: InForce) -> list[Finding]:
    _, _, smallest = pins.ordered
    limit = standards.limit("windings.weak_reading")
    reading = pins.reading(smallest)
    if 100.0 * reading.relative_band <= limit.value:
        return []
    counts = 1.0 if pins.lead is None else math.sqrt(2.0)
    room = limit.value / 100.0 * reading.value - pins.meter.gain_band(reading.value)
    needed = finest_asked(0.99 * room / counts / pins.meter.counts if pins.meter.counts else 0.0)
    return [
        Finding(
            "meter",
            Verdict.UNDECIDED,
            f"{'–'.join(smallest)} reads {quantity(reading.value, 'ohm', 2)} ±{quantity(reading.band, 'ohm', 2)},"
            f" {rounded(100.0 * reading.relative_band, 0)} % of itself: good enough to name the pins, too coarse to"
            " judge the winding.",
            "The meter's last digits are a large part of so small a reading.",
            READ_AGAIN,
            limit,
            Decider(
                f"Reading {'–'.join(smallest)}",
                resolution_words(needed),
                "leads nulled on that meter",
                *enter_resolution(needed),
            ),
        )
    ]


def _resistances(
    entered: Entered, pins: Pins, roles: Mapping[str, str], standards: InForce, working: list[Step]
) -> list[Result | Named]:
    results: list[Result | Named] = []
    temperature = entered.number("shell_temperature")
    reference = standards.value("windings.reference_temperature")
    zero = METALS[entered.choice("metal")]
    for pair in sorted(PAIRS, key=lambda one: _pair_label(one, roles)):
        label, reading = _pair_label(pair, roles), pins.reading(pair)
        results.append(
            Result(
                f"ohms {label}",
                f"{label}",
                reading.value,
                "ohm",
                2,
                f"Between pin {pair[0]} and pin {pair[1]}, leads taken off.",
                reading.low,
                reading.high,
            )
        )
        if temperature is not None:
            corrected = resistance_at(reading.value, temperature, reference, zero)
            results.append(
                Result(
                    f"ohms at reference {label}",
                    f"{label} at {quantity(reference, 'degC', 0)}",
                    corrected,
                    "ohm",
                    2,
                    "The same winding brought to one temperature, so that days can be compared.",
                )
            )
            working.append(
                Step(
                    f"{label} at {quantity(reference, 'degC', 0)}",
                    "R × (k + reference) / (k + T)",
                    f"{rounded(reading.value, 2)} × ({zero:g} + {reference:g}) / ({zero:g} +"
                    f" {rounded(temperature, 1)})",
                    quantity(corrected, "ohm", 2),
                    "iec-60335-1-clause-11",
                )
            )
    if len(roles) == 3:
        run, start = pair_of(roles, "C", "R"), pair_of(roles, "C", "S")
        results.append(
            Result(
                "start to run",
                "Start over run",
                pins.ohms[start] / pins.ohms[run],
                "ratio",
                1,
                "How many times larger the start winding reads. Never a fault by itself.",
            )
        )
    return results


def _pair_label(pair: Pair, roles: Mapping[str, str]) -> str:
    letters = [roles.get(pin, pin) for pin in pair]
    order = "CRS123"
    return "–".join(sorted(letters, key=order.index))


def _notes(entered: Entered, pins: Pins, roles: Mapping[str, str]) -> tuple[str, ...]:
    notes = []
    if pins.lead is None:
        notes.append(
            "The test leads were not entered: every reading may be too high by what the shorted probes show. Short them"
            " and enter it."
        )
    if entered.number("shell_temperature") is None:
        notes.append("No shell temperature: the readings cannot be compared with data or with another day.")
    hint = _position_hint(entered.choice("layout"))
    if hint and len(roles) == 3:
        agrees = all(roles[pin] == role for pin, role in hint.items())
        notes.append(
            "Where pins sit is only a hint (common practice, no source): here it "
            + ("agrees with the ohms." if agrees else "differs from the ohms, and the ohms overrule it.")
        )
    return tuple(notes)


def _position_hint(layout: str) -> dict[str, str]:
    """Common practice, no source: the single pin is common; below it left is run, above it right is run."""
    return {"single pin above": {"1": "C", "3": "R", "2": "S"}, "single pin below": {"3": "C", "1": "R", "2": "S"}}.get(
        layout, {}
    )


def _typed(**texts: str) -> dict[str, Typed]:
    return {name: Typed(text) for name, text in texts.items()}


CALCULATOR = Calculator(
    slug="winding-identification",
    title="Winding identification",
    question="Which pin is common, run and start, and are the windings whole?",
    purpose="Names the three pins from three resistance readings and checks that the readings add up.",
    does_not_tell="It does not test insulation to the shell, and a few shorted turns do not show in ohms.",
    level="helper",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=(
        Example(
            "three-pins",
            "4.2, 17.9 and 13.8 ohm between three unmarked pins",
            "derived",
            _typed(r12="4.2", r23="17.9", r13="13.8", lead="0"),
        ),
        Example(
            "training-article",
            "6.0, 2.0 and 4.0 ohm, the order of a training print",
            "training-print-three-terminals",
            _typed(r12="6.0", r13="2.0", r23="4.0", lead="0"),
        ),
        Example(
            "capacitor-start-motor",
            "Main 4.5 ohm and auxiliary 9.5 ohm of a textbook motor",
            "fitzgerald-chapter-9",
            _typed(r12="4.5", r13="9.5", r23="14.0", lead="0", ohmmeter_resolution="0.01"),
        ),
        Example(
            "hot-overload",
            "Common open while the shell is still hot",
            "common-practice",
            _typed(r12="OL", r13="OL", r23="13.9", lead="0", shell_temperature="88"),
        ),
    ),
    limits=(
        "windings.sum_tolerance",
        "windings.data_tolerance",
        "windings.gap_factor",
        "windings.weak_reading",
        "windings.short_turns_band",
        "windings.cool_shell_temperature",
        "windings.cool_hours",
        "windings.rest_hours",
        "windings.lead_least",
        "windings.lead_most",
        "windings.reference_temperature",
    ),
    sources=(
        "goodheart-willcox-25-8",
        "iec-60335-1-clause-11",
        "common-practice",
        "derived",
        "training-print-three-terminals",
        "fitzgerald-chapter-9",
    ),
    hazards=("electric-shock", "stored-charge", "terminal-venting", "flammable-refrigerant"),
    search_words=(
        "pins",
        "terminals",
        "common run start",
        "ohms between pins",
        "winding resistance",
        "ohms of a winding",
        "which pin",
        "C S R",
    ),
)
