"""YAML with line numbers, and no surprises in it."""

from __future__ import annotations

from pathlib import Path

import pytest

from build_scripts.errors import HandbookError, Mistake, nearest
from build_scripts.read_yaml import Lines, read_file, read_yaml, to_record, to_records
from build_scripts.records import Hazard, Instrument, Navigation

FILE = Path("some.yaml")


def read(text: str, first_line: int = 1):
    return read_yaml(text, FILE, first_line)


@pytest.mark.parametrize("word", ["yes", "no", "on", "off", "2026-01-31", "12:30", "012", "1_000", "0x1F"])
def test_words_that_other_readers_of_yaml_change_stay_text(word):
    assert read(f"key: {word}")[0] == {"key": word}


@pytest.mark.parametrize(
    ("written", "meant"),
    [("1", 1), ("-3", -3), ("1.5", 1.5), (".5", 0.5), ("1e3", 1000.0), ("true", True), ("~", None), ("", None)],
)
def test_numbers_true_and_nothing_are_what_they_look_like(written, meant):
    value = read(f"key: {written}")[0]["key"]
    assert (value, type(value)) == (meant, type(meant))


def test_every_key_and_item_knows_its_line():
    _, lines, _ = read("a:\n  b: 1\nc:\n  - x\n  - y\n", first_line=10)
    assert lines.at(("a", "b")) == 11
    assert lines.at(("c", 1)) == 14
    assert lines.at(("a", "missing")) == 10
    assert lines.at(("nowhere",)) == 10


def test_an_empty_text_is_nothing_and_no_mistake():
    assert read("")[0] is None
    assert read("# only a remark\n")[2] == []


def test_every_key_given_twice_is_named_with_both_lines():
    data, _, mistakes = read("a: 1\nb:\n  c: 1\n  c: 2\na: 3\n")
    assert data is None
    assert [str(one) for one in mistakes] == [
        "some.yaml:4 — c: this key is given twice, first on line 3. Keep one of them.",
        "some.yaml:5 — a: this key is given twice, first on line 1. Keep one of them.",
    ]


@pytest.mark.parametrize(
    ("text", "line"),
    [("a: 1\nb: [1, 2\nc: 3\n", 3), ("a: 1\n\tb: 2\n", 2), ("a: 1\nb: 'x\n", 3), ("a: !!python/name:os.system x\n", 1)],
    ids=["open bracket", "tab", "open quote", "tag that could run code"],
)
def test_what_is_no_yaml_is_said_at_its_line(text, line):
    _, _, (mistake,) = read(text)
    assert mistake.line == line
    assert "this is not YAML that can be read" in mistake.what
    assert mistake.what.endswith("Check indentation, colons and quotes on this line.")


def test_a_missing_file_is_one_sentence(tmp_path):
    text, (mistake,) = read_file(tmp_path / "gone.yaml")
    assert text == ""
    assert mistake.what == "this file is missing. Write it, or put it back from the last revision."


def test_a_file_in_another_encoding_names_the_line(tmp_path):
    file = tmp_path / "old.yaml"
    file.write_bytes(b"a: 1\nb: \xb5F\n")
    _, (mistake,) = read_file(file)
    assert (mistake.line, "not saved as UTF-8" in mistake.what) == (2, True)


def test_the_mark_that_some_editors_put_in_front_is_no_part_of_the_text(tmp_path):
    file = tmp_path / "marked.yaml"
    file.write_bytes(b"\xef\xbb\xbfa: 1\n")
    assert read_file(file) == ("a: 1\n", [])


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("title: Sample\ncaution: It stings.\n", "controls: this key is missing. Add a line “controls: …”."),
        ("title: Sample\ncaution: It stings.\ncontrols: [Stop.]\ncontrol: x\n", "control: there is no such key here."),
        ("title: Sample\ncaution: It stings.\ncontrols: []\n", "controls: this list is empty."),
        ("title: Sample\ncaution: It stings.\ncontrols: Stop.\n", "controls: write a list here, such as [one, two]"),
        ("title: S\ncaution: It stings.\ncontrols: [Stop.]\n", "title: this needs at least 3 letters (found “S”)."),
        ("title: 7\ncaution: It stings.\ncontrols: [Stop.]\n", "title: write text here (found “7”)."),
        ("title:\ncaution: It stings.\ncontrols: [Stop.]\n", "title: write text here (found nothing)."),
        (
            "title: Sample\ncaution: It stings.\ncontrols: [Stop.]\nreview_months: soon\n",
            "review_months: write a whole number here",
        ),
        (
            "title: Sample\ncaution: It stings.\ncontrols: [Stop.]\nreview_months: 30\n",
            "review_months: input should be less than or equal to 24 (found “30”).",
        ),
    ],
)
def test_each_way_to_break_a_record_has_its_sentence(text, said):
    data, lines, _ = read(text)
    (mistake,) = to_record(Hazard, data, FILE, lines)
    assert mistake.what.startswith(said)


def test_a_mistyped_key_is_offered_the_nearest_one():
    data, lines, _ = read("title: Sample\nrating: 300 V.\nnot: x\n")
    (mistake,) = to_record(Instrument, data, FILE, lines)
    assert str(mistake) == "some.yaml:3 — not: there is no such key here. Did you mean note?"


def test_a_mistyped_key_deep_inside_is_offered_the_nearest_one_there():
    data, lines, _ = read("start: [index]\nprocedures:\n  - titel: One\n    title: One\n    pages: [a]\n")
    (mistake,) = to_record(Navigation, data, FILE, lines)
    assert str(mistake) == "some.yaml:3 — procedures.0.titel: there is no such key here. Did you mean title?"


def test_a_file_that_holds_a_list_is_told_to_hold_keys():
    mistakes: list[Mistake] = []
    assert to_records(Hazard, ["x"], FILE, Lines(1), mistakes) == {}
    assert mistakes[0].what == "this file has to be a list of keys, each with its own entry."


def test_nearest_names_come_before_all_names():
    assert nearest("amps.hihg", ["amps.high", "volts.low"]) == "Did you mean amps.high?"
    assert nearest("zzz", ["amps.high", "volts.low"]) == "Allowed are: amps.high, volts.low."
    assert nearest("zzz", []) == "There is none yet."


def test_a_long_list_of_allowed_names_is_cut():
    sentence = nearest("zzz", [f"name-{number:02}" for number in range(30)])
    assert sentence.endswith("name-11 and 18 more.")


def test_mistakes_are_told_once_in_the_order_of_files_and_lines():
    one, two, three = Mistake(Path("b"), 9, "x"), Mistake(Path("b"), 10, "x"), Mistake(Path("a"), 11, "x")
    assert HandbookError([two, one, three, one]).mistakes == (three, one, two)


def test_a_file_below_the_folder_one_stands_in_is_named_from_there(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    assert str(Mistake(tmp_path / "handbook" / "index.md", 3, "x")) == "handbook/index.md:3 — x"
    assert str(Mistake(Path("/elsewhere/index.md"), 3, "x")) == "/elsewhere/index.md:3 — x"
