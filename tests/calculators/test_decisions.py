"""The handbook's decision map, walked in every way: nobody gets lost, and nothing but evidence makes a finding."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from build_scripts.read_standards import read_standards
from calculators import decisions as module
from calculators.decisions import CANNOT_TELL, ROUND_AGAIN, SAME_ANSWER, DecisionMap, Walk, begin, walk
from calculators.limits import Standards
from tests.calculators.conftest import ROOT

STANDARDS = Standards.from_json(read_standards(ROOT / "handbook").as_json("test"))
MAP: DecisionMap = STANDARDS.decisions
QUESTIONS = list(MAP.questions)
REASONS = [one.id for one in MAP.reasons]

# Numbers that say which of the open question's answers is given, until the walk ends.
picks = st.lists(st.integers(0, 99), min_size=400, max_size=400)


def random_walk(numbers: list[int], at: Walk | None = None) -> Walk:
    here = at or begin(MAP)
    for number in numbers:
        if here.asks is None:
            return here
        here = here.answer(here.asks.answers[number % len(here.asks.answers)].id)
    raise AssertionError(f"this walk does not end: {[one.question.id for one in here.taken]}")


def places(here: Walk) -> list[str]:
    return [one.question.id for one in here.taken] + [here.at]


def way_to(question: str) -> list[str]:
    """Answers that lead to a question, found by looking from question to question."""
    ways: dict[str, list[str]] = {MAP.first: []}
    waiting = [MAP.first]
    for here in waiting:
        for answer in MAP.questions[here].answers:
            if answer.leads_to in MAP.questions and answer.leads_to not in ways:
                ways[answer.leads_to] = [*ways[here], answer.id]
                waiting.append(answer.leads_to)
    return ways[question]


@pytest.mark.source("common-practice")
def test_the_map_has_every_question_and_finding_of_the_trade():
    # Counted by hand on the trade's own map, common practice, no source: 68 questions and 34 findings. Three questions
    # are asked besides: the open lines after the wait, the silent motor with volts, and the short by data.
    assert (len(MAP.questions), len(MAP.conclusions)) == (71, 34)


@pytest.mark.parametrize("question", QUESTIONS)
def test_every_question_can_be_come_to_and_is_asked_there(question):
    assert walk(MAP, way_to(question)).at == question


@pytest.mark.parametrize("question", QUESTIONS)
def test_every_question_comes_to_a_finding_without_giving_up(question):
    assert MAP.steps_to_finding[question] >= 1


@pytest.mark.parametrize("finding", list(MAP.conclusions))
def test_every_finding_is_led_to_by_an_answer_that_tells(finding):
    leading = [
        answer.id
        for question in MAP.questions.values()
        for answer in question.answers
        if finding in (answer.leads_to, answer.also_write) and answer.id != CANNOT_TELL
    ]
    assert leading


@given(picks)
def test_every_walk_ends_at_a_finding(numbers):
    end = random_walk(numbers)
    assert end.reached is not None


@given(picks)
def test_no_walk_asks_a_question_more_often_than_it_has_fields(numbers):
    end = random_walk(numbers)
    for one in end.taken:
        assert one.visit <= MAP.visits(one.question.id)


@given(picks, st.integers(0, 60), st.sampled_from(REASONS), picks)
def test_a_walk_with_a_reason_to_stop_in_it_ends_too_and_has_its_fields(numbers, length, reason, later):
    here = begin(MAP)
    for number in numbers[:length]:
        if here.asks is not None:
            here = here.answer(here.asks.answers[number % len(here.asks.answers)].id)
    end = random_walk(later, here.stop(reason))
    assert end.reached is not None
    assert end.stopped
    assert all(one.visit <= MAP.visits(one.question.id) for one in end.taken)


@given(picks)
def test_the_same_answer_to_the_same_question_is_never_followed_twice(numbers):
    end = random_walk(numbers)
    followed = [(one.question.id, one.answer.id) for one in end.taken]
    if end.why == SAME_ANSWER:
        followed.pop()
        assert end.at == MAP.not_tellable
    assert len(followed) == len(set(followed))


@given(picks)
def test_who_cannot_tell_never_makes_a_finding(numbers):
    end = random_walk(numbers)
    for one, place in zip(end.taken, places(end)[1:], strict=True):
        if one.answer.id == CANNOT_TELL:
            assert place in MAP.questions or place == MAP.not_tellable


@given(picks)
def test_the_same_answers_lead_to_the_same_place(numbers):
    end = random_walk(numbers)
    assert walk(MAP, [one.answer.id for one in end.taken]) == end


@pytest.mark.parametrize("reason", REASONS)
@pytest.mark.parametrize("question", QUESTIONS)
def test_a_reason_to_stop_is_heard_at_every_question(question, reason):
    stopped = walk(MAP, [*way_to(question), f"stop:{reason}"])
    wanted = next(one.leads_to for one in MAP.reasons if one.id == reason)
    assert stopped.stopped
    assert stopped.at == wanted or wanted in places(stopped)


@pytest.mark.source("common-practice")
@given(picks, st.sampled_from([one for one in REASONS if one != "shock"]))
def test_gas_oil_or_an_unknown_charge_leave_it_isolated_whatever_was_found_before(numbers, reason):
    end = random_walk(numbers).stop(reason)
    # Common practice, no source: no cover off and no insulation test, a licensed person first.
    assert end.reached is not None
    assert end.reached.id == "left-isolated"
    assert end.stop("shock") == end.stop("shock").stop("shock")
    assert end.stop("shock").at == "left-isolated"


@pytest.mark.source("common-practice")
def test_after_a_shock_nothing_but_the_cause_clears_the_machine():
    # Common practice, no source: within the leakage limit the cause of the shock is still not found.
    end = walk(MAP, ["not-cooling", "stop:shock", "shock-only", "all-good", "within"])
    assert end.at == MAP.not_tellable
    assert end.stopped


def test_a_shock_named_as_the_complaint_and_as_the_reason_to_stop_is_one_walk():
    end = walk(MAP, ["shock", "shock-only", "stop:shock", "earth-open"])
    assert end.at == "earth-path-open"
    assert end.stopped


def test_a_part_measured_before_the_shock_is_measured_anew_behind_it():
    before = ["trips", "residual", "low", "compressor"]
    end = walk(MAP, [*before, "stop:shock", "shock-only", "insulation-low", "compressor"])
    assert end.at == "winding-to-shell"
    assert end.taken[-1].visit == 2


def test_a_second_visit_with_the_same_answer_is_not_tellable_yet():
    to_windings = ["silent", "alive", "inside", "calling", "cool", "closed"]
    end = walk(MAP, [*to_windings, "unclear", "resolved", "unclear"])
    assert (end.at, end.why) == (MAP.not_tellable, SAME_ANSWER)


def test_a_second_visit_with_another_answer_goes_on():
    to_windings = ["silent", "alive", "inside", "calling", "cool", "closed"]
    assert walk(MAP, [*to_windings, "unclear", "resolved", "normal"]).at == "shell-insulation"


def test_a_question_is_not_asked_a_third_time():
    to_windings = ["silent", "alive", "inside", "calling", "cool", "closed"]
    end = walk(MAP, [*to_windings, "unclear", "resolved", "one-pair", "still-open", "changed"])
    assert (end.at, end.why) == (MAP.not_tellable, ROUND_AGAIN)


def test_what_is_written_on_the_way_does_not_end_the_walk():
    to_shell = ["silent", "alive", "inside", "calling", "cool", "closed", "normal", "low"]
    here = walk(MAP, [*to_shell, "recovered"])
    assert here.at == "start-device-dead"
    assert [one.id for one in here.on_the_way] == ["water-on-terminals"]


def test_only_a_licensed_person_finds_what_is_in_the_sealed_circuit():
    # 40 CFR 82.161, from memory: work that opens the circuit asks for a certified technician.
    licensed = {key for key, one in MAP.conclusions.items() if one.licensed}
    assert licensed == {"no-pumping", "refrigerant-leak", "sealed-circuit-fault"}
    for question in MAP.questions.values():
        if licensed & {answer.leads_to for answer in question.answers}:
            assert question.level == "licensed"


def test_a_question_that_is_not_open_takes_no_answer():
    end = walk(MAP, ["hums", "hums", "cord", "starts"])
    with pytest.raises(KeyError):
        end.answer("starts")
    with pytest.raises(KeyError):
        begin(MAP).answer("starts")
    with pytest.raises(KeyError):
        begin(MAP).stop("tired")


def test_the_module_without_a_map_has_nothing_to_ask():
    assert DecisionMap.from_data({}) is module.NO_DECISIONS
    assert begin(module.NO_DECISIONS).asks is None


# The path of each case as the trade's map has it, common practice, no source: complaint, answers, and where it ends.
CASES = {
    "start relay that never closes": (
        "hums hums wall good device fails good-or-none settles",
        "start-device-fails",
    ),
    "cord in the cellar": ("hums hums cord starts", "cord-unsuitable"),
    "overload inside that was doing its work": (
        "silent alive inside calling hot cool none-fitted one-pair closed noted bad",
        "airflow-fault",
    ),
    "breaker trips at once": ("trips breaker at-once pins-low", "winding-to-shell"),
    "shorted turns": ("high-amps inside good settled normal low-ohms", "shorted-turns"),
    "open run capacitor": ("high-amps inside good settled capacitor-off", "capacitor-out-of-value"),
    "relay welded": ("starts-then-trips at-start never device", "start-device-stays-in"),
    "dirty condenser": ("starts-then-trips late bad", "airflow-fault"),
    "spins and does not pump": ("not-cooling low none-cool no-pressure", "no-pumping"),
    "leak": ("not-cooling low short leak", "refrigerant-leak"),
    "restarted too soon": ("hums starts short", "control-at-fault"),
    "defrost heater trips the GFCI": ("trips residual low other", "other-wiring"),
    "start winding open": ("hums hums wall good windings one-pair still-open common-run", "start-open"),
    "seized": ("hums hums wall good all-good locked locked", "seized"),
    "wired to the wrong pins": ("hums hums wall good wiring", "other-wiring"),
    "tingle": ("shock shock-only earth-open", "earth-path-open"),
    "thermostat open": (
        "silent alive inside calling cool closed normal good passes good-or-none silent absent",
        "control-at-fault",
    ),
}


@pytest.mark.source("common-practice")
@pytest.mark.parametrize("case", CASES)
def test_a_case_of_the_trade_ends_where_the_trade_ends_it(case):
    answers, finding = CASES[case]
    assert walk(MAP, answers.split()).at == finding
