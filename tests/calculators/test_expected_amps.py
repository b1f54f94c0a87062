"""Expected running amps: what the evidence says, against textbooks, printed tables and facts of the trade."""

from __future__ import annotations

from datetime import date
from typing import Any
from xml.etree import ElementTree

import pytest

from calculators import CALCULATORS
from calculators.answer import evaluate
from calculators.contract import Outcome
from calculators.expected_amps import CALCULATOR
from calculators.expected_amps.evidence import amps_from_horsepower, amps_from_watts, current_factor
from calculators.inputs import MeterInput
from calculators.limits import Standards

SLUG = "expected-amps"
STEADY = {"plate_volts": "115", "running_volts": "115", "run_time": "30"}


def result(reply: dict[str, Any], name: str = "expected_amps", part: str = "value") -> str:
    return next(one[part] for one in reply["results"] if one["name"] == name)


def working(reply: dict[str, Any], label: str) -> dict[str, str]:
    return next(step for step in reply["working"] if step["label"].startswith(label))


def verdicts(reply: dict[str, Any]) -> list[str]:
    return [finding["verdict"] for finding in reply["findings"]]


def conflicting(reply: dict[str, Any]) -> bool:
    return any(finding["name"] == "evidence" for finding in reply["findings"])


# --- published examples -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("example", "printed"),
    [
        # Kosow, Electric Machinery and Transformers, ch. 10: 1/3 hp, 115 V, 400 W, pf 0.6501 runs at 5.35 A.
        ("third-horsepower-textbook-motor", "5.35"),
        # Storey, Electrical and Electronic Systems, ch. 16: 2000 VA at pf 0.75 and 240 V is 1500 W and 8.33 A.
        ("power-and-current", "8.33"),
        # Bird, Electrical Circuit Theory and Technology, ch. 16: 4.8 kW out at 80 %, pf 0.625, 240 V takes 40 A.
        ("full-load-motor", "40.00"),
    ],
)
@pytest.mark.source("kosow-machinery-10", "storey-systems-16", "bird-circuits-16")
def test_amps_from_watts_are_those_of_the_textbooks(ask: Any, example: str, printed: str) -> None:
    typed = next(one for one in CALCULATOR.examples if one.id == example).typed
    assert result(ask(SLUG, **{name: entry.text for name, entry in typed.items()})) == printed


def test_the_formula_gives_what_the_textbooks_print() -> None:
    assert amps_from_watts(400.0, 115.0, 0.6501) == pytest.approx(5.35, abs=0.005)  # Kosow ch. 10
    assert amps_from_watts(4800.0 / 0.80, 240.0, 0.625) == pytest.approx(40.0, abs=0.05)  # Bird ch. 16
    assert amps_from_watts(1500.0, 240.0, 0.75) == pytest.approx(8.33, abs=0.005)  # Storey ch. 16


@pytest.mark.parametrize(
    ("size", "at_115", "at_230"),
    # NFPA 70 (NEC) Table 430.248, read in secondary copies.
    [
        ("1/6", "4.4", "2.2"),
        ("1/4", "5.8", "2.9"),
        ("1/3", "7.2", "3.6"),
        ("1/2", "9.8", "4.9"),
        ("3/4", "13.8", "6.9"),
        ("1", "16", "8"),
    ],
)
@pytest.mark.source("nec-430-248")
def test_the_general_motor_table_is_quoted_and_refused_as_a_yardstick(
    ask: Any, size: str, at_115: str, at_230: str
) -> None:
    note = ask(SLUG, plate_volts="115", horsepower=size)["notes"][-1]
    assert f"prints {at_115} A at 115 V and {at_230} A at 230 V for {size} hp" in note
    assert "never judge a hermetic motor by it" in note


def test_a_size_that_the_general_table_has_no_row_for_is_not_looked_up_next_door(ask: Any) -> None:
    assert "has no row for 1/8 hp" in ask(SLUG, plate_volts="115", horsepower="1/8")["notes"][-1]


# --- facts of the trade (common practice, no source) ------------------------------------------------


@pytest.mark.parametrize(
    "clamp",
    [
        {},
        {"clamp_percent": "2", "clamp_counts": "5"},
        {"clamp_percent": "2", "clamp_counts": "5", "clamp_resolution": "0.1"},
        {"clamp_percent": "3", "clamp_counts": "10", "clamp_resolution": "0.1"},
    ],
)
@pytest.mark.source("common-practice")
def test_a_steady_4_4_amps_against_6_locked_rotor_amps_is_far_outside_whatever_the_meter(
    ask: Any, clamp: dict[str, str]
) -> None:
    reply = ask(SLUG, **STEADY, locked_rotor_amps="6", running_amps="4.4", **clamp)
    assert result(reply) == "1.00"
    assert result(reply, part="band") == "0.75 to 1.50 A"
    assert verdicts(reply) == ["outside"]
    assert reply["findings"][0]["stop"]
    assert reply["findings"][0]["next"]["procedure"] == "make-safe-prove-dead"


@pytest.mark.source("common-practice")
def test_a_third_of_a_horsepower_at_115_volts_runs_at_3_to_3_5_amps(ask: Any) -> None:
    assert 3.0 <= float(result(ask(SLUG, plate_volts="115", horsepower="1/3"))) <= 3.5


@pytest.mark.source("common-practice")
def test_four_steady_amps_on_an_eighth_of_a_horsepower_are_outside(ask: Any) -> None:
    reply = ask(SLUG, **STEADY, horsepower="1/8", running_amps="4")
    assert verdicts(reply) == ["outside"]
    assert reply["findings"][0]["stop"]


@pytest.mark.parametrize(
    ("size", "at_115", "at_230"),
    # Derived in the trade's own table: hp x 746 / (0.65 U).
    [
        (1 / 6, 1.7, 0.8),
        (1 / 4, 2.5, 1.2),
        (1 / 3, 3.3, 1.7),
        (1 / 2, 5.0, 2.5),
        (3 / 4, 7.5, 3.7),
        (1.0, 10.0, 5.0),
    ],
)
def test_a_trade_size_stands_for_input_watts(size: float, at_115: float, at_230: float) -> None:
    assert amps_from_horsepower(size, 115.0, 0.65) == pytest.approx(at_115, abs=0.05)
    assert amps_from_horsepower(size, 230.0, 0.65) == pytest.approx(at_230, abs=0.05)


@pytest.mark.source("derived")
def test_watts_locked_rotor_and_horsepower_that_agree_leave_the_watts_as_they_are(ask: Any) -> None:
    # Derived: 185 W RSIR at 115 V is 2.68 A; LRA 17 is 2.83 A (2.13 to 4.25: 2.125 is a rounding tie);
    # 1/5 hp is 2.00 A (1.10 to 2.89). The answer is 2.68 A ±20 %.
    reply = ask(SLUG, plate_volts="115", motor_type="resistance", watts="185", locked_rotor_amps="17", horsepower="1/5")
    assert result(reply) == "2.68"
    assert result(reply, part="band") == "2.14 to 3.22 A"
    assert result(reply, "half_band", "text") == "20.0 %"
    assert working(reply, "Rank D")["result"] == "2.68 A ±20 % (2.14 to 3.22 A)"
    assert working(reply, "Rank E")["result"] == "2.83 A −25 +50 % (2.12 to 4.25 A)"
    assert working(reply, "Rank F")["result"] == "2.00 A ±45 % (1.10 to 2.89 A)"
    assert "locked-rotor amps, trade horsepower" in reply["notes"][0]


@pytest.mark.parametrize(
    ("amps", "resolution", "band"),
    # Derived: 1.2 A on 2 % + 5 counts is 6.2 % at 0.01 A and 44 % at 0.1 A; 0.9 A at 0.1 A is 58 %.
    [("1.2", "0.01", 6.2), ("1.2", "0.1", 44.0), ("0.9", "0.1", 58.0)],
)
def test_a_coarse_clamp_is_mostly_band_at_small_currents(ask: Any, amps: str, resolution: str, band: float) -> None:
    reply = ask(
        SLUG,
        **STEADY,
        rated_load_amps="1.2",
        running_amps=amps,
        clamp_percent="2",
        clamp_counts="5",
        clamp_resolution=resolution,
    )
    assert float(result(reply, "clamp_band")) == pytest.approx(band, abs=0.5)


@pytest.mark.parametrize(
    ("watts_ratio", "power_factor", "change"),
    # Derived: +20 % watts is +7.5 to +9 % amps at a power factor of 0.60 to 0.65, -40 % is -12 to -15 %;
    # at 0.90 it is +16.5 % and -31 %.
    [
        (1.2, 0.60, 7.6),
        (1.2, 0.65, 8.9),
        (0.6, 0.60, -12.3),
        (0.6, 0.65, -14.6),
        (1.2, 0.90, 16.5),
        (0.6, 0.90, -30.6),
    ],
)
def test_amps_hide_a_change_of_load_without_a_run_capacitor(
    watts_ratio: float, power_factor: float, change: float
) -> None:
    assert 100.0 * (current_factor(watts_ratio, power_factor) - 1.0) == pytest.approx(change, abs=0.05)


# Invented practice cases; the ratios are theirs.
CASES = {
    "a fridge with a new relay": ({"rated_load_amps": "2.1", "running_amps": "1.6"}, "within", "0.76"),
    "a fridge with a new starter": ({"data_sheet_amps": "0.80", "running_amps": "0.72"}, "within", "0.90"),
    "a freezer that runs hot": (
        {"rated_load_amps": "2.3", "motor_type": "resistance", "watts": "165", "running_amps": "3.1"},
        "watch",
        "1.35",
    ),
    "an open run capacitor": (
        {"rated_load_amps": "1.1", "motor_type": "run_capacitor", "running_amps": "1.50"},
        "watch",
        "1.36",
    ),
    "a dirty condenser": (
        {"rated_load_amps": "2.5", "running_amps": "3.10", "clamp_percent": "2", "clamp_counts": "0"},
        "undecided",
        "1.24",
    ),
    "the same, cleaned": (
        {"rated_load_amps": "2.5", "running_amps": "2.45", "clamp_percent": "2", "clamp_counts": "0"},
        "within",
        "0.98",
    ),
    "a fridge that does not pump": (
        {"rated_load_amps": "2.0", "motor_type": "resistance", "watts": "150", "running_amps": "1.75"},
        "within",
        "0.88",
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_a_practice_case_comes_out_as_it_was_taught(ask: Any, case: str) -> None:
    typed, verdict, ratio = CASES[case]
    reply = ask(SLUG, **STEADY, **typed)
    assert verdicts(reply) == [verdict]
    assert float(result(reply, "ratio")) == pytest.approx(float(ratio), abs=0.006)
    assert not reply["findings"][0]["stop"]


# --- ranks and their weight -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("evidence", "amps", "band"),
    [
        ({"map_amps": "2"}, "2.00", "1.76 to 2.24 A"),
        ({"data_sheet_amps": "2"}, "2.00", "1.70 to 2.30 A"),
        ({"rated_load_amps": "2"}, "2.00", "1.80 to 2.20 A"),
        ({"watts": "138", "motor_type": "resistance"}, "2.00", "1.60 to 2.40 A"),
        ({"watts": "211.6", "motor_type": "run_capacitor"}, "2.00", "1.60 to 2.40 A"),
        ({"watts": "138", "power_factor": "0.6"}, "2.00", "1.60 to 2.40 A"),
        ({"locked_rotor_amps": "12"}, "2.00", "1.50 to 3.00 A"),
        ({"horsepower": "1/5"}, "2.00", "1.10 to 2.89 A"),
        ({"cabinet_amps": "2"}, "2.00", ""),
    ],
)
def test_each_rank_alone_gives_its_amps_with_its_own_band(
    ask: Any, evidence: dict[str, str], amps: str, band: str
) -> None:
    reply = ask(SLUG, plate_volts="115", **evidence)
    assert result(reply) == amps
    assert result(reply, part="band") == band


@pytest.mark.parametrize(
    ("evidence", "amps", "half_band"),
    # Worked by hand: weights 1/0.12² = 69.44, 1/0.15² = 44.44, 1/0.20² = 25; 138 W is 2 A.
    [
        ({"map_amps": "2", "data_sheet_amps": "2.2"}, "2.08", "10.0 %"),  # 9.4 % alone, the floor holds
        ({"map_amps": "2.2", "watts": "138"}, "2.15", "10.3 %"),
        ({"data_sheet_amps": "2.2", "watts": "138"}, "2.13", "12.0 %"),
        ({"map_amps": "2", "rated_load_amps": "2.2"}, "2.00", "12.0 %"),  # C is never averaged
        ({"data_sheet_amps": "2", "rated_load_amps": "2.2"}, "2.00", "15.0 %"),
        ({"rated_load_amps": "2.2", "watts": "138"}, "2.20", "10.0 %"),
        ({"rated_load_amps": "2.2", "locked_rotor_amps": "12", "horsepower": "1/4"}, "2.20", "10.0 %"),
    ],
)
def test_pieces_that_agree_are_combined_by_their_weights_and_c_stands_alone(
    ask: Any, evidence: dict[str, str], amps: str, half_band: str
) -> None:
    reply = ask(SLUG, plate_volts="115", motor_type="resistance", **evidence)
    assert result(reply) == amps
    assert result(reply, "half_band", "text") == half_band


def test_locked_rotor_amps_rank_above_a_trade_size(ask: Any) -> None:
    assert result(ask(SLUG, plate_volts="115", locked_rotor_amps="12", horsepower="1/8")) == "2.00"


@pytest.mark.parametrize(
    ("shift", "amps", "half_band"),
    # Worked by hand from the watts per kelvin, the power factor and their spread of 1.5 % per kelvin.
    [
        ({"evaporating_now": "-15", "refrigerant": "r134a_r600a", "motor_type": "resistance"}, "1.11", "15.7 %"),
        ({"evaporating_now": "5 F", "refrigerant": "r290", "motor_type": "run_capacitor"}, "1.14", "17.7 %"),
        ({"evaporating_now": "-30", "refrigerant": "r134a_r600a", "motor_type": "resistance"}, "0.92", "15.3 %"),
        ({"evaporating_now": "-23.3", "refrigerant": "r290", "power_factor": "0.7"}, "1.00", "15.0 %"),
    ],
)
def test_data_sheet_amps_follow_the_evaporating_temperature(
    ask: Any, shift: dict[str, str], amps: str, half_band: str
) -> None:
    reply = ask(SLUG, plate_volts="115", data_sheet_amps="1", data_sheet_evaporating="-23.3", **shift)
    assert result(reply) == amps
    assert result(reply, "half_band", "text") == half_band


@pytest.mark.parametrize(
    ("shift", "amps", "half_band"),
    # Worked by hand: p = 1 + 0.4 % (0.8 %) × ΔT; √((PF·p)² + 1 − PF²); half the change between p ± 0.5 % × ΔT.
    [
        ({"condensing_now": "35", "refrigerant": "r134a_r600a", "motor_type": "resistance"}, "0.97", "15.4 %"),
        ({"condensing_now": "34.4", "refrigerant": "r290", "motor_type": "run_capacitor"}, "0.87", "17.7 %"),
        ({"condensing_now": "150.08 F", "refrigerant": "r290", "motor_type": "resistance"}, "1.03", "15.1 %"),
        (
            {
                "condensing_now": "45",
                "data_sheet_evaporating": "-23.3",
                "evaporating_now": "-15",
                "refrigerant": "r134a_r600a",
                "motor_type": "resistance",
            },
            "1.10",
            "15.8 %",
        ),
    ],
)
def test_data_sheet_amps_follow_the_condensing_temperature(
    ask: Any, shift: dict[str, str], amps: str, half_band: str
) -> None:
    reply = ask(SLUG, plate_volts="115", data_sheet_amps="1", data_sheet_condensing="54.4", **shift)
    assert result(reply) == amps
    assert result(reply, "half_band", "text") == half_band


def test_watts_follow_the_temperatures_and_printed_rated_load_amps_do_not(ask: Any) -> None:
    # By hand: 138 W is 2 A; 2 × 0.97277 = 1.95 A; √(20² + 3.4²) = 20.3 %.
    shift = {"data_sheet_condensing": "54.4", "condensing_now": "35", "refrigerant": "r134a_r600a"}
    reply = ask(SLUG, plate_volts="115", motor_type="resistance", watts="138", locked_rotor_amps="12", **shift)
    assert result(reply) == "1.95"
    assert result(reply, "half_band", "text") == "20.3 %"
    shift_step = working(reply, "Watts at this condensing temperature")
    assert (shift_step["put_in"], shift_step["result"]) == ("1 + 0.4 % × -19.4", "p = 0.922")
    plain = ask(SLUG, plate_volts="115", motor_type="resistance", rated_load_amps="2", **shift)
    assert result(plain) == "2.00"
    assert any("The temperatures were not used" in note for note in plain["notes"])


@pytest.mark.source("coolprop-program")
@pytest.mark.parametrize(
    ("fluid", "usual"),
    # The limits' own numbers, typed again: 0.4 and 0.8 % for each kelvin, either way 0.5.
    [("R134a", 0.4), ("IsoButane", 0.4), ("Propane", 0.8)],
)
@pytest.mark.parametrize("evaporating", [-23.3, -15.0, -10.0])
def test_the_change_with_condensing_temperature_holds_for_an_ideal_compressor(
    fluid: str, usual: float, evaporating: float
) -> None:
    # Referee: CoolProp. Ideal work of a fixed displacement with 4 % clearance and suction gas at 32.2 °C.
    from CoolProp.CoolProp import PropsSI

    def work(condensing: float) -> float:
        suction, discharge = (PropsSI("P", "T", one + 273.15, "Q", 1, fluid) for one in (evaporating, condensing))
        state = ("T", 32.2 + 273.15, "P", suction, fluid)
        density, before, entropy = (PropsSI(name, *state) for name in ("D", "H", "S"))
        after, squeezed = (PropsSI(name, "P", discharge, "S", entropy, fluid) for name in ("H", "D"))
        return (1.04 - 0.04 * squeezed / density) * density * (after - before)

    # From 54.4 to 35 °C, in percent for each kelvin.
    change = 100.0 * (1.0 - work(35.0) / work(54.4)) / (54.4 - 35.0)
    assert usual - 0.5 <= change <= usual + 0.5


def test_an_upper_bound_has_no_band_of_its_own_so_that_the_ratio_carries_the_clamp_s_alone(ask: Any) -> None:
    # 1.00 A on a cabinet of 2 A is half of it, and a clamp of 10 % makes that 0.45 to 0.55.
    reply = ask(SLUG, plate_volts="115", cabinet_amps="2", running_amps="1", clamp_percent="10", clamp_counts="0")
    assert (result(reply, "ratio"), result(reply, "ratio", part="band")) == ("0.50", "0.45 to 0.55")


def test_rated_load_amps_say_what_a_settled_cabinet_draws_and_when_to_unplug(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="115", rated_load_amps="2")
    assert "usually draws 1.10 to 2.00 A" in result(reply, part="plain")
    assert result(reply, "unplug_above") == "2.80"
    assert result(reply, "called_low_below") == "1.10"
    assert result(reply, "called_high_above") == "2.30"
    assert result(ask(SLUG, plate_volts="115", data_sheet_amps="2"), "called_low_below") == "1.40"


# --- evidence that contradicts itself ---------------------------------------------------------------

RSIR = {"motor_type": "resistance"}
PAIRS = [
    # what is fixed, the field that is moved, where it still agrees, where it contradicts
    ({"map_amps": "2"}, "data_sheet_amps", "2.63", "2.64"),
    ({"map_amps": "2"}, "data_sheet_amps", "1.54", "1.53"),
    ({"data_sheet_amps": "2", **RSIR}, "watts", "198", "199"),
    ({"rated_load_amps": "2", **RSIR}, "watts", "189", "190"),
    ({"rated_load_amps": "2", **RSIR}, "watts", "57", "56"),
    ({"rated_load_amps": "2"}, "data_sheet_amps", "2.58", "2.59"),
    ({"rated_load_amps": "2"}, "data_sheet_amps", "0.87", "0.86"),
    ({"rated_load_amps": "2"}, "locked_rotor_amps", "17.6", "17.7"),
    ({"rated_load_amps": "2"}, "locked_rotor_amps", "7.2", "7.1"),
    ({"data_sheet_amps": "4"}, "horsepower", "1/4", "1/5"),
    ({"data_sheet_amps": "1"}, "horsepower", "1/5", "1/4"),
    ({"locked_rotor_amps": "6"}, "horsepower", "1/5", "1/3"),
    ({"rated_load_amps": "2"}, "cabinet_amps", "0.99", "0.98"),
    ({"data_sheet_amps": "2"}, "cabinet_amps", "1.7", "1.69"),
    ({"locked_rotor_amps": "12"}, "cabinet_amps", "1.5", "1.49"),
]


@pytest.mark.parametrize(("fixed", "moved", "agrees", "contradicts"), PAIRS)
def test_evidence_that_contradicts_itself_gives_no_verdict(
    ask: Any, fixed: dict[str, str], moved: str, agrees: str, contradicts: str
) -> None:
    assert not conflicting(ask(SLUG, **STEADY, **fixed, running_amps="1.5", **{moved: agrees}))
    reply = ask(SLUG, **STEADY, **fixed, running_amps="1.5", **{moved: contradicts})
    finding = reply["findings"][0]
    assert verdicts(reply) == ["undecided"]
    assert "evidence conflict — reread the plates (hp? 50/60 Hz? two plates?)" in finding["sentence"]
    assert finding["next"]["procedure"] == "read-the-rating-plates"
    assert finding["decider"]["enter_in"] in {moved, *fixed}
    assert not any(one["name"] in ("expected_amps", "ratio") for one in reply["results"])
    assert {f"from_{moved}"} <= {one["name"] for one in reply["results"]}


def test_a_contradiction_is_told_before_anything_is_measured(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="115", map_amps="2", data_sheet_amps="3")
    assert [finding["name"] for finding in reply["findings"]] == ["evidence", "running-amps"]


# --- what cannot be used ----------------------------------------------------------------------------

R290_WITHOUT_CAPACITOR = {"refrigerant": "r290", "motor_type": "resistance"}
REFUSALS = [
    ({"plate_volts": "220-240"}, "plate_volts", "“220-240” is more than one number. Enter one: 70 to 270 V."),
    ({"plate_volts": "115/230 V"}, "plate_volts", "“115/230 V” is more than one number. Enter one: 70 to 270 V."),
    ({"plate_volts": "220 – 240"}, "plate_volts", "is more than one number. Enter one: 70 to 270 V."),
    ({"watts": "1/4"}, "watts", "“1/4” is more than one number."),
    ({"plate_volts": ""}, "plate_volts", "Plate voltage is missing. Enter a number, 70 to 270 V."),
    ({"rated_load_amps": ""}, "rated_load_amps", "There is nothing to compare with yet. Enter at least one piece"),
    ({"rated_load_amps": "", "watts": "150"}, "motor_type", "Motor type: watts become amps only by a power factor."),
    ({"running_amps": "0"}, "running_amps", "Running amps: 0 is no running current. See that the motor runs"),
    ({"running_amps": "-1"}, "running_amps", "A minus sign means the clamp is on dc; set it to ac."),
    ({"running_amps": "115 V"}, "running_amps", "is volts, but this field takes amps"),
    ({"running_volts": "400"}, "running_volts", "400 is outside what this check takes, 70 to 270 V"),
    ({"rated_load_amps": "OL"}, "rated_load_amps", "an open line cannot be used here"),
    ({"power_factor": "1.1"}, "power_factor", "1.1 is outside what this check takes, 0.2 to 1"),
    ({"horsepower": "1/7"}, "horsepower", "is not in the list"),
    (
        {"data_sheet_amps": "2", "evaporating_now": "-20", **R290_WITHOUT_CAPACITOR},
        "data_sheet_evaporating",
        "Evaporating temperature of the data sheet: to shift the data-sheet figures enter both",
    ),
    (
        {"data_sheet_amps": "2", "data_sheet_evaporating": "-20", **R290_WITHOUT_CAPACITOR},
        "evaporating_now",
        "Evaporating temperature now: to shift the data-sheet figures enter both",
    ),
    (
        {
            "data_sheet_amps": "2",
            "data_sheet_evaporating": "-20",
            "evaporating_now": "-15",
            "motor_type": "resistance",
        },
        "refrigerant",
        "Refrigerant: choose the refrigerant to shift",
    ),
    (
        {"data_sheet_amps": "2", "data_sheet_evaporating": "-20", "evaporating_now": "-15", "refrigerant": "r290"},
        "motor_type",
        "Motor type: choose with or without run capacitor to shift",
    ),
    (
        {
            "data_sheet_amps": "2",
            "data_sheet_evaporating": "-20",
            "evaporating_now": "-4.9",
            "refrigerant": "r290",
            "motor_type": "resistance",
        },
        "evaporating_now",
        "it is 15.1 K from the data sheet's, and the shift is good for 15 K at most",
    ),
    (
        {"data_sheet_amps": "2", "condensing_now": "40", **R290_WITHOUT_CAPACITOR},
        "data_sheet_condensing",
        "Condensing temperature of the data sheet: to shift the data-sheet figures enter both condensing temperatures",
    ),
    (
        {"watts": "138", "data_sheet_condensing": "54.4", **R290_WITHOUT_CAPACITOR},
        "condensing_now",
        "Condensing temperature now: to shift the data-sheet figures enter both condensing temperatures",
    ),
    (
        {"data_sheet_amps": "2", "data_sheet_condensing": "54.4", "condensing_now": "34.3", **R290_WITHOUT_CAPACITOR},
        "condensing_now",
        "it is 20.1 K from the data sheet's, and the shift is good for 20 K at most",
    ),
]


@pytest.mark.parametrize(("typed", "field", "message"), REFUSALS)
def test_what_cannot_be_used_is_refused_at_its_field(ask: Any, typed: dict[str, str], field: str, message: str) -> None:
    reply = ask(SLUG, **{"plate_volts": "115", "rated_load_amps": "2", **typed})
    assert [problem["input"] for problem in reply["problems"]] == [field]
    assert message in reply["problems"][0]["message"]


@pytest.mark.parametrize(
    ("field", "least", "most", "below", "above"),
    [
        ("plate_volts", "70", "270", "69.9", "270.1"),
        ("rated_load_amps", "0.05", "60", "0.049", "60.1"),
        ("map_amps", "0.05", "60", "0.049", "60.1"),
        ("data_sheet_amps", "0.05", "60", "0.049", "60.1"),
        ("cabinet_amps", "0.05", "60", "0.049", "60.1"),
        ("locked_rotor_amps", "0.3", "300", "0.29", "301"),
        ("watts", "5", "10 kW", "4.9", "10001"),
        ("power_factor", "0.2", "1", "0.19", "1.01"),
        ("data_sheet_evaporating", "-50", "20", "-50.1", "20.1"),
        ("evaporating_now", "-50", "20", "-50.1", "20.1"),
        ("data_sheet_condensing", "0", "90", "-0.1", "90.1"),
        ("condensing_now", "0", "90", "-0.1", "90.1"),
        ("running_amps", "0.01", "300", "-0.01", "301"),
        ("running_volts", "70", "270", "69.9", "270.1"),
        ("run_time", "0", "1000 h", "-1", "1001 h"),
    ],
)
def test_a_number_is_taken_up_to_the_ends_of_its_range_and_no_further(
    ask: Any, field: str, least: str, most: str, below: str, above: str
) -> None:
    for text in (least, most):
        reply = ask(SLUG, **{"plate_volts": "115", "locked_rotor_amps": "12", field: text})
        assert field not in [problem["input"] for problem in reply.get("problems", [])]
    for text in (below, above):
        reply = ask(SLUG, **{"plate_volts": "115", "locked_rotor_amps": "12", field: text})
        assert [problem["input"] for problem in reply["problems"]] == [field]


def test_the_meters_are_prefilled_as_the_handbook_says() -> None:
    meters = {one.name: one for one in CALCULATOR.inputs if isinstance(one, MeterInput)}
    assert (meters["clamp"].percent, meters["clamp"].counts, meters["clamp"].resolution) == (0.5, 2, 0.01)
    assert (meters["voltmeter"].percent, meters["voltmeter"].counts, meters["voltmeter"].resolution) == (0.5, 2, 0.1)
    assert "2 % + 5 counts" in meters["clamp"].help


def test_fifteen_kelvin_is_still_shifted(ask: Any) -> None:
    reply = ask(
        SLUG,
        plate_volts="115",
        data_sheet_amps="2",
        data_sheet_evaporating="-20",
        evaporating_now="-5",
        refrigerant="r290",
        motor_type="resistance",
    )
    assert "problems" not in reply


def test_before_the_first_limit_was_in_force_nothing_is_answered(ask: Any) -> None:
    reply = ask(SLUG, date="2020-01-01", plate_volts="115", rated_load_amps="2")
    assert "is in force on 2020-01-01" in reply["problems"][0]["message"]


# --- what stands beside the numbers -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "note"),
    [
        ({"watts": "150"}, "The watts were not used"),
        ({"evaporating_now": "-20"}, "The temperatures were not used"),
        ({"power_factor": "0.6"}, "The power factor was not used"),
        ({"locked_rotor_amps": "12"}, "Only looked at for contradictions, not part of the expected amps: locked-rotor"),
        ({"running_amps": "2"}, "Plate and supply frequency were not both read"),
        ({}, "Rated-load amps are a heavy-load figure"),
        ({}, "does not pump can draw amps that look normal"),
        ({}, "A dirty condenser on a cold freezer shows as heat more than as amps"),
        ({}, "Without a run capacitor amps hide a change of load"),
    ],
)
def test_a_note_tells_what_was_not_used_and_what_amps_do_not_show(ask: Any, typed: dict[str, str], note: str) -> None:
    assert any(note in one for one in ask(SLUG, plate_volts="115", rated_load_amps="2", **typed)["notes"])


@pytest.mark.parametrize(
    ("typed", "note"),
    [
        ({"motor_type": "run_capacitor"}, "Without a run capacitor"),
        ({"plate_frequency": "60", "supply_frequency": "60", "running_amps": "2"}, "frequency were not both read"),
        ({"watts": "150", "power_factor": "0.6"}, "not used"),
    ],
)
def test_a_note_that_does_not_apply_is_left_out(ask: Any, typed: dict[str, str], note: str) -> None:
    assert not any(note in one for one in ask(SLUG, plate_volts="115", rated_load_amps="2", **typed)["notes"])


def test_the_working_is_what_a_trainee_would_write(ask: Any) -> None:
    reply = ask(SLUG, **STEADY, motor_type="resistance", watts="185", running_amps="2.45")
    assert working(reply, "Rank D")["put_in"] == "185 W / (115 V · 0.6)"
    assert working(reply, "Band of the clamp")["put_in"] == "(0.5 % · 2.45 A + 2 · 0.01 A) / 2.45 A"
    assert working(reply, "Band of the clamp")["result"] == "±1.3 % (standard uncertainty u/√3 = 0.8 %)"
    assert working(reply, "Measured over expected")["put_in"] == "2.45 A / 2.68 A"
    assert working(reply, "Low end of r")["put_in"] == "0.91 · (1 − √(20.0² + 1.3²) %)"
    assert working(reply, "Low end of r")["result"] == "0.73"
    assert working(reply, "High end of r")["result"] == "1.10"
    assert working(reply, "Frequency")["result"] == "taken as equal"


def test_the_combination_is_worked_as_a_mean_of_logarithms(ask: Any) -> None:
    # By hand: (69.44 ln 2 + 44.44 ln 2.2) / 113.89 = 0.7303, e^0.7303 = 2.08; 1/√113.89 = 9.4 %.
    reply = ask(SLUG, plate_volts="115", map_amps="2", data_sheet_amps="2.2", cabinet_amps="3")
    assert working(reply, "Combined A+B")["put_in"] == "2.00 A ±12 %, 2.20 A ±15 %"
    assert working(reply, "Combined A+B")["result"] == "2.08 A ±9.4 %, taken as ±10.0 % (no less than 10 %)"
    assert working(reply, "Rank A")["put_in"] == "2.00 A"
    assert working(reply, "Rank G")["put_in"] == "3.00 A"
    assert working(reply, "Rank G")["result"] == "at most 3.00 A"


def test_the_shift_is_worked_in_two_lines(ask: Any) -> None:
    # By hand: 1 + 2 % × 8.3 = 1.166; √((0.92 × 1.166)² + 1 − 0.92²) = 1.142.
    reply = ask(
        SLUG,
        plate_volts="115",
        data_sheet_amps="10",
        data_sheet_evaporating="-23.3",
        evaporating_now="-15",
        refrigerant="r290",
        motor_type="run_capacitor",
    )
    first, second, third = reply["working"][:3]
    assert first["result"] == "10.00 A ±15 % (8.50 to 11.50 A)"
    assert (second["put_in"], second["result"]) == ("1 + 2.0 % × 8.3", "p = 1.166")
    assert third["put_in"] == "10.00 A × √((0.92·1.166)² + 1 − 0.92²)"
    assert third["result"] == "11.42 A ±18 % (9.40 to 13.44 A)"


def test_locked_rotor_amps_and_a_trade_size_are_worked(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="115", locked_rotor_amps="17", horsepower="1/5")
    assert working(reply, "Rank E")["put_in"] == "17.00 A / 6"
    assert working(reply, "Rank F")["put_in"] == "1/5 · 746 W / (0.65 · 115 V)"


def test_volts_off_the_plate_are_worked_into_the_band(ask: Any) -> None:
    # By hand: 8.4/115 = 7.3 %; 3.456/2.345 = 1.474; u = 0.5 % + 0.02/3.456 = 1.1 %; U = 20.0 %.
    reply = ask(
        SLUG,
        plate_volts="115",
        running_volts="123.4",
        run_time="30",
        rated_load_amps="2.345",
        running_amps="3.456",
    )
    volts = working(reply, "Running volts off the plate")
    assert volts["put_in"] == "|123.4 V − 115.0 V| / 115.0 V"
    assert volts["result"] == "7.3 %: half-band + 10 %"
    assert working(reply, "Measured over expected")["result"] == "1.47"
    assert working(reply, "Low end of r")["put_in"] == "1.47 · (1 − √(20.0² + 1.1²) %)"
    assert working(reply, "High end of r")["put_in"] == "1.47 · (1 + √(20.0² + 1.1²) %)"
    texts = {one["name"]: (one["text"], one["band"]) for one in reply["results"]}
    assert texts["half_band"] == ("20.0 %", "")
    assert texts["called_low_below"] == ("1.29 A", "")
    assert texts["called_high_above"] == ("2.70 A", "")
    assert texts["unplug_above"] == ("3.28 A", "")
    assert texts["volts_off_plate"] == ("7.3 %", "")
    assert texts["ratio"] == ("1.47", "1.18 to 1.77")
    assert texts["clamp_band"] == ("1.1 %", "")
    assert texts["whole_band"] == ("20.0 %", "")


def test_a_contradiction_names_both_sides_and_their_bands(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="115", map_amps="2", data_sheet_amps="3", cabinet_amps="1.5")
    assert reply["findings"][0]["sentence"].endswith(
        "two plates?). Data-sheet amps say 2.55 to 3.45 A, amps from a performance map 1.76 to 2.24 A; "
        "cabinet amps say at most 1.50 A, amps from a performance map 1.76 to 2.24 A."
    )
    assert result(reply, "from_map_amps", "text") == "2.00 A"
    assert result(reply, "from_map_amps", "band") == "1.76 to 2.24 A"


def test_the_picture_shows_every_band_and_limit_in_words_too(ask: Any) -> None:
    reply = ask(SLUG, **STEADY, rated_load_amps="2", locked_rotor_amps="12", running_amps="1.8")
    figure = reply["figures"][0]
    ElementTree.fromstring(figure["svg"])
    for words in (
        "C printed rated-load amps 2.00 A, 1.80 to 2.20 A",
        "E locked-rotor amps 2.00 A, 1.50 to 3.00 A",
        "measured 1.80 A, 1.77 to 1.83 A",
        "low 1.10 A; high 2.30 A; stop 2.80 A",
    ):
        assert words in figure["words"]


@pytest.mark.parametrize("example", CALCULATOR.examples, ids=lambda one: one.id)
def test_every_worked_example_works(standards: Standards, example: Any) -> None:
    assert isinstance(evaluate(CALCULATOR, example.typed, standards.in_force(date(2026, 11, 25))), Outcome)


def test_everything_it_names_is_in_the_handbook(standards: Standards) -> None:
    in_force = standards.in_force(date(2026, 11, 25))
    for key in CALCULATOR.limits:
        in_force.limit(key)
    for name in CALCULATOR.tables:
        in_force.table(name)
    for source in (*CALCULATOR.sources, *(example.source for example in CALCULATOR.examples)):
        in_force.source(source)
    assert {key for key in standards.limits if key.startswith("amps.")} == set(CALCULATOR.limits)
    assert CALCULATORS[SLUG] is CALCULATOR
