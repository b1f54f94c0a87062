"""The walk as a calculator: what it asks, what it lets be written, and what it says when it is not tellable yet."""

from __future__ import annotations

import json
import random
from datetime import date

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from calculators import CALCULATORS
from calculators.answer import answer
from calculators.decisions import field_of
from calculators.inputs import ChoiceInput, fields_of
from calculators.limits import Standards
from tests.calculators.answers import finding, result
from tests.calculators.test_decisions import MAP, STANDARDS

SLUG = "next-check"
DAY = date(2026, 11, 25)
FIELDS: dict[str, ChoiceInput] = {
    one.name: one
    for one in fields_of(CALCULATORS[SLUG].inputs, STANDARDS.in_force(DAY))
    if isinstance(one, ChoiceInput)
}
CORD = {"complaint": "hums", "rested_retry": "hums", "on_a_cord": "cord", "straight_to_wall": "starts"}
SILENT = {
    "complaint": "silent",
    "outlet_alive": "alive",
    "supply_idle": "inside",
    "control_calls": "calling",
    "shell_hot": "cool",
    "overload_cold": "closed",
}


def only_finding(reply):
    assert len(reply["findings"]) == 1, reply["findings"]
    return reply["findings"][0]


def test_before_the_first_answer_the_complaint_and_the_reason_to_stop_are_asked(ask):
    reply = ask(SLUG)
    assert reply["asks"] == ["stop_now", "complaint"]
    assert only_finding(reply)["verdict"] == "undecided"
    assert result(reply, "next")["text"] == "Which complaint fits best?"


def test_each_answer_brings_the_next_question_with_who_answers_it_and_where_it_says_how(ask):
    reply = ask(SLUG, complaint="hums", rested_retry="hums", on_a_cord="wall")
    assert reply["asks"] == ["stop_now", "complaint", "rested_retry", "on_a_cord", "lowest_volts"]
    one = only_finding(reply)
    assert "How low do the volts at its plug fall" in one["sentence"]
    assert one["next"]["text"] == "To be answered by a technician."
    assert one["next"]["procedure"] in MAP.questions["lowest-volts"].procedures
    assert one["decider"]["enter_in"] == "lowest_volts"


def test_the_path_so_far_is_told_in_words(ask):
    path = result(ask(SLUG, complaint="hums", rested_retry="hums"), "path")
    assert path["text"] == "2 answers"
    assert "Which complaint fits best? Hums and will not start." in path["plain"]
    assert "It hums again." in path["plain"]


@pytest.mark.source("common-practice")
def test_a_fault_is_not_outside_before_its_evidence_is_in_hand(ask):
    one = only_finding(ask(SLUG, **CORD))
    assert one["verdict"] == "undecided"
    assert "It is not written yet." in one["sentence"]
    # Common practice, no source: volts at the plug during a start, and the same machine starting on a good supply.
    assert "the same machine starts straight from the wall" in one["plain"]
    assert (one["decider"]["enter_in"], one["decider"]["entry"]) == ("evidence_cord_unsuitable", "all")


def test_a_fault_with_its_evidence_is_outside(ask):
    reply = ask(SLUG, **CORD, evidence_cord_unsuitable="all")
    one = only_finding(reply)
    assert (one["name"], one["verdict"], one["stop"]) == ("cord-unsuitable", "outside", False)
    assert reply["asks"][-1] == "evidence_cord_unsuitable"


def test_missing_evidence_makes_a_fault_not_tellable_yet(ask):
    reply = ask(SLUG, **CORD, evidence_cord_unsuitable="not-all")
    one = only_finding(reply)
    assert (one["verdict"], one["name"]) == ("undecided", "not-tellable-yet at evidence_cord_unsuitable")
    assert one["sentence"].startswith("It is not tellable yet. Something that “Cord unsuitable” must have is missing.")
    assert "the same machine starts straight from the wall" in one["plain"]
    assert (one["decider"]["enter_in"], one["decider"]["entry"]) == ("evidence_cord_unsuitable", "all")
    ends = next(named for named in reply["results"] if named["name"] == "finding")
    assert ends["text"] == "Not tellable yet"
    assert "Not tellable yet: something is missing" in reply["figures"][0]["alt"]


def test_the_evidence_of_one_finding_does_not_count_for_another(ask):
    reply = ask(SLUG, **(CORD | {"straight_to_wall": "hums", "lowest_volts": "dip"}), evidence_cord_unsuitable="all")
    assert only_finding(reply)["verdict"] == "undecided"
    assert "evidence_cord_unsuitable" not in reply["asks"]


@pytest.mark.source("common-practice")
def test_a_condemned_compressor_stops_the_work_and_goes_to_a_second_person(ask):
    seized = {
        "complaint": "hums",
        "rested_retry": "hums",
        "on_a_cord": "wall",
        "lowest_volts": "good",
        "dead_tests": "all-good",
        "locked_rotor_first": "locked",
        "locked_rotor_second": "locked",
    }
    before = only_finding(ask(SLUG, **seized))
    # What “mechanically locked” must have, common practice, no source.
    for needed in ("off overnight, or proved by a licensed person", "two attempts, and no third", "start lead"):
        assert needed in before["decider"]["condition"]
    after = only_finding(ask(SLUG, **seized, evidence_seized="all"))
    assert (after["verdict"], after["stop"], after["next"]["procedure"]) == ("outside", True, "after-condemnation")


def test_not_tellable_yet_says_why_and_stays_undecided(ask):
    reply = ask(SLUG, complaint="hums", rested_retry="hums", on_a_cord="wall", lowest_volts="no-hold")
    one = only_finding(reply)
    assert one["verdict"] == "undecided"
    assert "Come back with a meter that holds it." in one["sentence"]
    assert one["decider"]["enter_in"] == "lowest_volts"
    assert one["next"]["procedure"] == "record-and-report"
    assert reply["asks"][-1] == "lowest_volts"


def test_the_same_answer_twice_is_said_to_be_the_same_answer_twice(ask):
    reply = ask(SLUG, **SILENT, three_windings="unclear", windings_again="resolved", three_windings_2="unclear")
    assert "got the same answer twice" in only_finding(reply)["sentence"]
    assert reply["asks"][-3:] == ["three_windings", "windings_again", "three_windings_2"]


def test_going_round_is_said_to_be_going_round(ask):
    reply = ask(
        SLUG,
        **SILENT,
        three_windings="unclear",
        windings_again="resolved",
        three_windings_2="one-pair",
        open_lines_cold="still-open",
        open_lines_proved="changed",
    )
    assert "has come round twice" in only_finding(reply)["sentence"]


def test_what_is_written_on_the_way_stands_beside_the_next_question(ask):
    low = {"three_windings": "normal", "shell_insulation": "low", "shell_insulation_dried": "between"}
    reply = ask(SLUG, **SILENT, **low, evidence_insulation_low="all")
    assert [one["name"] for one in reply["findings"]] == ["start_device_dead", "insulation-low"]
    assert finding(reply, "insulation-low")["verdict"] == "watch"
    assert reply["asks"][-2:] == ["evidence_insulation_low", "start_device_dead"]


def test_a_reason_to_stop_cuts_into_any_walk(ask):
    reply = ask(SLUG, **CORD, evidence_cord_unsuitable="all", stop_now="gas")
    one = only_finding(reply)
    assert (one["name"], one["verdict"], one["stop"]) == ("left-isolated", "outside", True)
    assert "a licensed person comes first" in one["sentence"]


def test_after_a_shock_every_finding_stops_the_work(ask):
    typed = {"complaint": "noisy", "stop_now": "shock", "shut_off": "shock-only", "earth_after_shock": "all-good"}
    asked = only_finding(ask(SLUG, **typed))
    assert asked["stop"]
    within = only_finding(ask(SLUG, **typed, touch_current="within"))
    assert (within["verdict"], within["stop"]) == ("undecided", True)
    assert "The machine stays isolated until it is." in within["sentence"]


def test_answers_given_before_a_reason_to_stop_stay_on_the_path(ask):
    reply = ask(SLUG, complaint="hums", rested_retry="hums", stop_now="shock")
    assert reply["asks"] == ["stop_now", "complaint", "rested_retry", "shut_off"]
    assert "Stop: somebody felt a shock or a tingle." in result(reply, "path")["plain"]


def test_answers_that_are_not_on_the_path_change_nothing(ask):
    assert ask(SLUG, **CORD, watts="low", three_windings="none") == ask(SLUG, **CORD)


def test_a_drive_machine_is_left_to_its_maker(ask):
    one = only_finding(ask(SLUG, **SILENT, three_windings="three-equal"))
    assert (one["verdict"], one["stop"]) == ("undecided", True)
    assert one["decider"]["enter_in"] == ""


def test_what_was_not_checked_is_counted(ask):
    # Twenty checks stand in the handbook's list; one of them, the cord, is made on this walk.
    assert result(ask(SLUG, **CORD), "not_checked")["text"] == "19 of 20 checks"
    assert "the cord and the circuit" not in result(ask(SLUG, **CORD), "not_checked")["plain"]


def test_who_could_not_tell_has_not_checked(ask):
    told = result(ask(SLUG, complaint="not-cooling", watts="normal"), "not_checked")["text"]
    not_told = result(ask(SLUG, complaint="not-cooling", watts="cannot-tell"), "not_checked")["text"]
    assert (told, not_told) == ("18 of 20 checks", "20 of 20 checks")


def test_an_answer_that_the_question_does_not_have_is_refused_with_the_list(ask):
    (problem,) = ask(SLUG, complaint="hum")["problems"]
    assert problem["input"] == "complaint"
    assert "Choose one of: (empty), shock, trips" in problem["message"]


def test_limits_stand_in_the_questions_as_they_are_in_force(ask):
    # 90 % of the plate, NEMA MG-1 12.44 as the handbook's supply limits give it.
    reply = ask(SLUG, complaint="silent", outlet_alive="alive")
    assert "Below 90 % or above 110 % of the plate" in result(reply, "answers")["plain"]


def test_no_text_still_holds_a_mark(standards):
    fields = list(fields_of(CALCULATORS[SLUG].inputs, standards.in_force(DAY)))
    texts = [text for one in fields for text in (one.label, one.help, *(choice.label for choice in one.choices))]
    assert [text for text in texts if "{" in text] == []


def test_the_form_has_a_field_for_each_visit_a_walk_can_make_and_none_besides(standards):
    names = {one.name for one in fields_of(CALCULATORS[SLUG].inputs, standards.in_force(DAY))}
    # No answer of the map leads back to the complaint; the windings are asked twice, when their lines prove otherwise.
    assert {one for one in names if one.startswith("complaint")} == {"complaint"}
    assert {one for one in names if one.startswith("three_windings")} == {"three_windings", "three_windings_2"}


def test_a_handbook_without_a_map_says_so(standards):
    bare = Standards(standards.limits, standards.tables, standards.sources, "bare")
    reply = json.loads(answer(json.dumps({"calculator": SLUG, "date": "2026-11-25", "inputs": {}}), bare))
    assert [one["message"] for one in reply["problems"]] == [
        "This handbook has no decision map. Begin at its start page instead."
    ]


def test_where_no_answer_to_the_last_question_leads_on_the_one_before_it_decides(ask):
    """The pairs disagreed, proved otherwise, then were not measured again: that decides, whatever the lines say now."""
    walked = {"complaint": "hums", "rested_retry": "hums", "on_a_cord": "wall", "lowest_volts": "weak"}
    walked |= {"dead_tests": "windings", "three_windings": "unclear", "windings_again": "resolved"}
    for lines in ("still", "resolved"):
        reply = ask(SLUG, **walked, three_windings_2="cannot-tell", windings_again_2=lines)
        assert reply["findings"][0]["decider"]["enter_in"] == "three_windings_2"
        assert reply["findings"][0]["decider"]["entry"] != "cannot-tell"


@example(2779)
@given(st.integers(0, 10**9))
def test_following_what_would_decide_always_comes_to_a_finding(ask, number):
    """From wherever random answers lead, entering what the undecided finding asks for ends in a verdict."""
    choice = random.Random(number)
    typed: dict[str, str] = {}
    for _ in range(choice.randint(0, 12)):
        last = ask(SLUG, **typed)["asks"][-1]
        values = [one.value for one in FIELDS[last].choices if one.value]
        typed[last] = choice.choice(values)
    for _ in range(80):
        reply = ask(SLUG, **typed)
        first = reply["findings"][0]
        if first["verdict"] != "undecided" or first["name"] == "drive-machine":
            return
        decider = first["decider"]
        assert typed.get(decider["enter_in"]) != decider["entry"], (typed, first)
        typed[decider["enter_in"]] = decider["entry"]
    raise AssertionError(f"no verdict comes of {typed}")


@given(st.integers(0, 10**9))
def test_every_field_that_is_asked_is_a_field_of_the_form_and_asked_once(ask, number):
    choice = random.Random(number)
    typed = {name: choice.choice(one.choices).value for name, one in FIELDS.items()}
    reply = ask(SLUG, **typed)
    assert len(set(reply["asks"])) == len(reply["asks"])
    assert set(reply["asks"]) <= set(FIELDS)


@given(st.dictionaries(st.sampled_from(["complaint", "stop_now", "watts", "evidence_seized"]), st.text(max_size=60)))
def test_any_text_in_any_field_gets_an_answer_or_a_sentence(ask, typed):
    reply = ask(SLUG, **typed)
    assert "problems" in reply or reply["findings"]


def test_the_steps_are_numbered_from_one_and_a_second_visit_says_so(ask):
    reply = ask(SLUG, **SILENT, three_windings="unclear", windings_again="resolved", three_windings_2="normal")
    labels = [one["label"] for one in reply["working"]]
    assert [label.partition(".")[0] for label in labels] == [str(number) for number in range(1, len(SILENT) + 4)]
    assert [label for label in labels if "(time" in label] == [labels[-1]]
    assert labels[-1].endswith("(time 2)")
    assert labels[-3].partition(". ")[2] == labels[-1].partition(". ")[2].removesuffix(" (time 2)")


def test_a_reason_to_stop_cuts_in_behind_the_last_answer_before_it(ask):
    reply = ask(SLUG, complaint="hums", rested_retry="hums", stop_now="shock", shut_off="shock-only")
    assert [one["result"] == "a reason to stop cuts in" for one in reply["working"]] == [False, True, False]


def test_further_pages_that_say_how_are_named_where_there_are_any(ask):
    first, *others = MAP.questions["lowest-volts"].procedures
    reply = ask(SLUG, complaint="hums", rested_retry="hums", on_a_cord="wall")
    assert only_finding(reply)["next"]["procedure"] == first
    assert f"More pages that say how to answer: {', '.join(others)}." in reply["notes"]
    assert not any("More pages" in note for note in ask(SLUG)["notes"])  # the complaint has one page only


def test_a_question_can_be_answered_once_for_each_visit_and_no_more(ask):
    for question in MAP.questions:
        beyond = field_of(question, MAP.visits(question) + 1)
        (problem,) = ask(SLUG, **{beyond: "x"})["problems"]
        assert f"There is no field called {beyond}" in problem["message"]


def test_only_the_field_of_a_second_visit_says_that_it_is_asked_again():
    for question in MAP.questions:
        for visit in range(1, MAP.visits(question) + 1):
            assert FIELDS[field_of(question, visit)].label.endswith(" Asked again") is (visit == 2)


def test_one_answer_is_told_in_the_singular(ask):
    assert result(ask(SLUG, complaint="hums"), "path")["text"] == "1 answer"


def test_the_figure_says_the_path_in_words(ask):
    (figure,) = ask(SLUG, **CORD, evidence_cord_unsuitable="all")["figures"]
    assert "Is it on an extension cord, a strip or a shared outlet? Answer: Yes" in figure["alt"]
    assert figure["words"].endswith("Cord unsuitable: The walk ends here.")
    assert "<text" in figure["svg"]
    assert "Answer: Yes" in figure["svg"]


@pytest.mark.source("common-practice")
def test_there_is_never_a_within(ask):
    # A walk clears nothing: it finds, or it is not tellable yet. Common practice, no source.
    choice = random.Random(1)
    for _ in range(60):
        typed = {name: choice.choice(one.choices).value for name, one in FIELDS.items()}
        assert {one["verdict"] for one in ask(SLUG, **typed)["findings"]} <= {"outside", "watch", "undecided"}
