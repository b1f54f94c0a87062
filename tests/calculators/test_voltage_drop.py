"""Voltage drop against textbook and standard examples, with the source beside each."""

from __future__ import annotations

from typing import Any

import pytest

from calculators.voltage_drop.path_volts import approximate_loss, running_volts, stalled_volts, volts_upstream
from tests.calculators.answers import finding, messages, result, value, verdict

SLUG = "voltage-drop"
# A meter without error, so that a reading lies exactly where it is typed.
SHARP = {
    "voltmeter_percent": "0",
    "voltmeter_counts": "0",
    "clamp_percent": "0",
    "clamp_counts": "0",
    "loop_meter_percent": "0",
    "loop_meter_counts": "0",
}


@pytest.mark.source("nec-training-print")
def test_four_amps_through_100_ft_of_16_gauge() -> None:
    # Public NEC training example: 16 AWG stranded 4.99 ohm/kft, 100 ft, 4 A, 24 V: 4.0 V and 16.7 %.
    # The print takes its percentage from the rounded 4.0; the exact figures are 3.992 V and 16.63 %.
    volts = running_volts(24.0, 4.0, complex(2 * 100 * 4.99 / 1000), None)
    assert 24.0 - volts == pytest.approx(3.992, abs=0.0005)
    assert 24.0 - volts == pytest.approx(4.0, abs=0.05)
    assert 100.0 * (24.0 - volts) / 24.0 == pytest.approx(16.63, abs=0.005)


def test_four_amps_through_100_ft_of_16_gauge_on_a_machine(ask: Any) -> None:
    # The same cord at 120 V, asked at the front door.
    reply = ask(
        SLUG,
        plate_volts="120",
        run_amps="4",
        cord_conductor="nec-8-stranded-16",
        cord_length=("100", "ft"),
        conductor_temperature="75",
    )
    assert value(reply, "run_drop") == "3.99"
    assert value(reply, "cord_ohms") == "0.998"


@pytest.mark.source("kuphaldt-lessons")
def test_a_load_that_needs_220_of_230_volts_at_25_amps(ask: Any) -> None:
    # Kuphaldt, Lessons In Electric Circuits, DC, chapter 12: 230 V, 25 A, at least 220 V left: 0.2 ohm a wire.
    reply = ask(SLUG, plate_volts="230", run_amps="25", run_power_factor="1", source_ohms="0.4")
    assert value(reply, "run_volts") == "220.00"


@pytest.mark.source("kuphaldt-lessons")
def test_25_amps_cannot_flow_through_that_books_14_gauge(ask: Any) -> None:
    # The same chapter: 2300 ft each way of 14 AWG is 11.301 ohm, and a dead short takes 20.352 A from 230 V.
    reply = ask(SLUG, plate_volts="230", run_amps="25", source_ohms="11.301")
    assert messages(reply) == [
        (
            "run_amps",
            "Running amps: 25.00 A cannot flow through this path. With 11.301 Ω in it even a dead short at the far end "
            "takes only 20.35 A. Check the length, the size and the amps.",
        )
    ]


@pytest.mark.source("mehta-example-14-1")
def test_a_distributor_with_two_loads() -> None:
    # Mehta, Principles of Power System, example 14.1, in an open textbook companion: 100 A at 0.707 and 200 A at 0.8,
    # both referred to the far end, held at 230 V here. Independent network programs give 247.472 V at the source.
    # The print's 17.85 V is the size of the complex drop, 17.442 - j3.815 V; the volts at the far end are 17.47 V less.
    middle = volts_upstream(230.0, 200.0, 0.02 + 0.01j, 0.8)
    # Both currents added as phasors: 230.7 - j190.7 A is 299.31 A, at 0.77296 of the middle voltage.
    source = volts_upstream(middle, 299.31, 0.04 + 0.02j, 0.77296)
    assert source == pytest.approx(247.472, abs=0.005)
    assert source - 230.0 == pytest.approx(17.47, abs=0.005)
    in_phase = [approximate_loss(200.0, 0.06 + 0.03j, 0.8), approximate_loss(100.0, 0.04 + 0.02j, 0.70711)]
    assert sum(in_phase) == pytest.approx(17.442, abs=0.001)


@pytest.mark.source("theraja-41")
def test_a_two_wire_feeder_with_a_tap() -> None:
    # Theraja, A Textbook of Electrical Technology, volume III, chapter 41, in an open textbook companion: 100 A at 0.8
    # to 200 V, 60 A at 0.9 half way. Independent network programs: 204.805 V at the tap, 212.307 V at the source.
    tap = volts_upstream(200.0, 100.0, 0.03 + 0.04j, 0.8)
    assert tap == pytest.approx(204.805, abs=0.0005)
    # 134 - j86.15 A together: 159.31 A, at 0.83744 of the volts at the tap.
    assert volts_upstream(tap, 159.31, 0.03 + 0.04j, 0.83744) == pytest.approx(212.307, abs=0.005)


@pytest.mark.source("nec-chapter-9-table-9")
def test_effective_impedance_of_a_large_conductor() -> None:
    # Example under NEC Chapter 9 Table 9: 600 kcmil aluminium in PVC, R 0.036, X 0.039, at 0.7: 0.0531 ohm/kft.
    assert approximate_loss(1.0, 0.036 + 0.039j, 0.7) == pytest.approx(0.0531, abs=0.00006)


@pytest.mark.source("electricians-print")
def test_sixteen_amps_through_100_ft_of_12_gauge(ask: Any) -> None:
    # Electrician's examination print, from memory: 2.0 ohm/kft, 16 A, 120 V, 100 ft: 6.4 V, 5.3 %.
    reply = ask(
        SLUG,
        plate_volts="120",
        run_amps="16",
        run_power_factor="1",
        branch_conductor="nec-9-pvc-12",
        branch_length=("100", "ft"),
        conductor_temperature="75",
        **SHARP,
    )
    assert value(reply, "run_drop") == "6.40"
    assert value(reply, "run_drop_percent") == "5.33"
    assert verdict(reply, "running-drop") == "outside"


@pytest.mark.source("electricians-print")
def test_24_amps_through_160_ft_of_10_gauge_by_the_trade_constant(ask: Any) -> None:
    # Electrician's examination print, from memory: K = 12.9, 24 A, 240 V, 160 ft, 10 380 circular mils: 9.5 V, 3.98 %.
    # By Table 8 stranded, 1.24 ohm/kft, it is 9.52 V: the same to the digits of the print.
    by_constant = running_volts(240.0, 24.0, complex(12.9 * 2 * 160 / 10380), None)
    assert 240.0 - by_constant == pytest.approx(9.5445, abs=0.00005)
    reply = ask(
        SLUG,
        plate_volts="240",
        run_amps="24",
        branch_conductor="nec-8-stranded-10",
        branch_length=("160", "ft"),
        conductor_temperature="75",
    )
    assert value(reply, "run_drop") == "9.52"


@pytest.mark.parametrize(
    ("plate", "amps", "power_factor", "conductor", "feet", "volts", "approximate"),
    [
        # Computed cases; two independent network programs give 116.501 V and 113.3378 V at the load.
        ("120", "12", "0.7", "nec-9-pvc-12", "100", "116.50", "3.45"),
        ("115", "8", "0.65", "nec-9-pvc-14", "50", "113.34", "1.65"),
    ],
)
@pytest.mark.source("network-programs")
def test_exact_volts_agree_with_network_programs(
    ask: Any, plate: str, amps: str, power_factor: str, conductor: str, feet: str, volts: str, approximate: str
) -> None:
    reply = ask(
        SLUG,
        plate_volts=plate,
        run_amps=amps,
        run_power_factor=power_factor,
        branch_conductor=conductor,
        branch_length=(feet, "ft"),
        conductor_temperature="75",
    )
    assert value(reply, "run_volts") == volts
    assert value(reply, "run_drop_approximate") == approximate


def test_exact_volts_to_the_fourth_digit() -> None:
    # The same two cases with the digits of the network programs.
    assert running_volts(120.0, 12.0, 0.4 + 0.0108j, 0.7) == pytest.approx(116.5010, abs=0.00005)
    assert running_volts(115.0, 8.0, 0.31 + 0.0058j, 0.65) == pytest.approx(113.3378, abs=0.00005)


@pytest.mark.source("iec-60228")
def test_ten_metres_of_flexible_cord_cold_and_warm(ask: Any) -> None:
    # Computed from IEC 60228: 10 m of 0.75 mm2 class 5, 6 A at 0.8: 0.520 ohm, 2.496 V by R cos, 0.622 ohm at 70 °C.
    cord = {"cord_conductor": "iec-5-0.75", "cord_length": "10"}
    cold = ask(SLUG, plate_volts="230", run_amps="6", run_power_factor="0.8", **cord)
    assert value(cold, "cord_ohms") == "0.520"
    assert value(cold, "run_drop_approximate") == "2.50"
    assert value(cold, "run_drop_percent") == "1.09"
    assert value(ask(SLUG, plate_volts="230", conductor_temperature="70", **cord), "cord_ohms") == "0.622"


@pytest.mark.parametrize(
    ("conductor", "length", "amps", "drop"),
    [
        # Worked by arithmetic from IEC 60228 and NEC Chapter 9 Table 8 at 20 °C: 9.4, 4.8, 8.2 and 13.1 V.
        ("iec-5-0.75", ("15", "m"), "12", "9.36"),
        ("iec-5-1.5", ("15", "m"), "12", "4.79"),
        ("nec-8-stranded-16", ("50", "ft"), "20", "8.21"),
        ("nec-8-stranded-18", ("50", "ft"), "20", "13.07"),
    ],
)
def test_cold_cords_at_start_amps(ask: Any, conductor: str, length: tuple[str, str], amps: str, drop: str) -> None:
    reply = ask(SLUG, plate_volts="115", run_amps=amps, cord_conductor=conductor, cord_length=length)
    assert value(reply, "run_drop") == drop


CELLAR = {"plate_volts": "230", "idle_volts": "231", "start_amps": "20", "source_ohms": "0.9"}


@pytest.mark.source("common-practice")
def test_a_freezer_that_does_not_start_in_the_cellar(ask: Any) -> None:
    # Trade case: 231 V idle, 1.30 ohm of cord and 0.9 ohm of source, LRA 20: 194 V measured, 84 %, torque 0.71.
    reply = ask(SLUG, **CELLAR, cord_conductor="iec-5-0.75", cord_length="25")
    assert value(reply, "cord_ohms") == "1.300"
    assert value(reply, "start_volts") == "193.9"
    assert value(reply, "start_percent") == "84.3"
    assert value(reply, "torque_factor") == "0.71"
    assert verdict(reply, "start-volts") == "outside"
    assert finding(reply, "start-volts")["next"]["procedure"] == "cord-and-branch-circuit"
    assert "Do not judge the compressor" in finding(reply, "start-volts")["sentence"]


def test_the_same_freezer_plugged_straight_in(ask: Any) -> None:
    # The same case plugged direct: 214 V measured, 93 %, and it starts.
    reply = ask(SLUG, **CELLAR)
    assert value(reply, "start_volts") == "214.2"
    assert value(reply, "start_percent") == "93.1"
    assert verdict(reply, "start-volts") == "within"
    assert finding(reply, "start-volts")["next"]["procedure"] == "make-safe-prove-dead"


@pytest.mark.source("common-practice")
def test_stiffness_from_two_readings(ask: Any) -> None:
    # Trade example: 229 V idle, 226.5 V at 1.1 A: 2.27 ohm; 12 start amps at constant current leave 202 V, 88 % of 230.
    # As a fixed impedance the motor gets 229 / (1 + 2.273 x 12 / 230) = 204.7 V; the 202 V are the pessimistic bound.
    reply = ask(SLUG, plate_volts="230", idle_volts="229", loaded_volts="226.5", load_amps="1.1", start_amps="12")
    assert value(reply, "source_ohms") == "2.273"
    assert value(reply, "start_volts_bound") == "201.7"
    assert value(reply, "start_volts") == "204.7"


def test_the_band_of_a_source_resistance_is_in_the_working(ask: Any) -> None:
    # By hand: gain 0.5 % of 2.5 V = 0.0125 V, counts 0.2 V twice in quadrature 0.2828 V, together 0.2953 V, over 1.1 A
    # 0.2685 ohm; clamp 0.5 % + 2 counts of 0.01 A = 0.0255 A of 1.1 A, on 2.273 ohm 0.0527 ohm; together 0.274 ohm.
    # u = 0.274 / 1.732 = 0.158 ohm (JCGM 100:2008, 4.3.7).
    reply = ask(SLUG, plate_volts="230", idle_volts="229", loaded_volts="226.5", load_amps="1.1", start_amps="12")
    assert result(reply, "source_ohms")["band"] == "1.999 to 2.546 Ω"
    band = next(step for step in reply["working"] if step["label"].startswith("Its band"))
    assert band["result"] == "± 0.274 Ω, u = 0.158 Ω"


def test_a_power_factor_raises_the_volts_at_the_start() -> None:
    # By hand: motor 11.5 ohm at 0.6 is 6.9 + j9.2; with 2.2 ohm 9.1 + j9.2, size 12.940; 231 x 11.5 / 12.940 = 205.3 V.
    assert stalled_volts(231.0, 2.2 + 0j, 230.0, 20.0, 0.6) == pytest.approx(205.3, abs=0.05)
    assert stalled_volts(231.0, 2.2 + 0j, 230.0, 20.0, None) == pytest.approx(193.9, abs=0.05)


def test_the_answer_says_whether_it_is_exact_or_a_bound(ask: Any) -> None:
    typed = {"plate_volts": "230", "run_amps": "6", "start_amps": "30", "source_ohms": "0.5"}
    bound = ask(SLUG, **typed)
    exact = ask(SLUG, **typed, run_power_factor="0.6", start_power_factor="0.7")
    assert "the most it can be, for want of a power factor" in result(bound, "run_drop")["plain"]
    assert "the least they can be, for want of a power factor" in result(bound, "start_volts")["plain"]
    assert not any(one["name"] == "run_drop_approximate" for one in bound["results"])
    assert "exact for the power factor" in result(exact, "run_drop")["plain"]
    assert "with its power factor" in result(exact, "start_volts")["plain"]
    assert float(value(exact, "run_drop")) < float(value(bound, "run_drop"))
    assert float(value(exact, "start_volts")) > float(value(bound, "start_volts"))
