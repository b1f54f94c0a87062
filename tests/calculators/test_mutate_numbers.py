"""The script that changes numbers: what it finds, how it changes them, what it reports, and a sample of its work."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.mutation.numbers import Number, numbers_in
from tests.mutation.survivors import explain, read_explanations

ROOT = Path(__file__).resolve().parents[2]
PYTHON = '''"""A docstring with 42 in it."""

LIMIT = 230.0
CHOSEN = True


def read(row):
    """Another 7."""
    return row[0] + rounded(2.5 * LIMIT, 2), f"{100.0 * LIMIT:.3f} of 12"


FIELDS = (NumberInput("volts", "Volts 5", 0.0, 270, default="12.5", help="5"),)
'''
STANDARDS = """subject: Amps
limits:
  amps.high:
    meaning: Most amps, 3 of them
    unit: ratio
    shop_range: {least: 1.1, most: 2}
    values:
      - in_force_from: 2026-01-01
        value: 1.15
tables:
  motors:
    rows:
      - {id: "1", label: 1 hp, amps: 16, source: nec}
"""


@pytest.fixture
def tree(tmp_path: Path) -> Path:
    (tmp_path / "calculators").mkdir()
    (tmp_path / "handbook" / "standards").mkdir(parents=True)
    (tmp_path / "calculators" / "sample.py").write_text(PYTHON, encoding="utf-8")
    (tmp_path / "handbook" / "standards" / "amps.yaml").write_text(STANDARDS, encoding="utf-8")
    return tmp_path


def test_every_number_is_found_and_no_word_that_holds_one(tree: Path) -> None:
    found = [(one.line, one.text, one.changed, one.owner, one.role) for one in numbers_in(tree, "calculators")]
    assert found == [
        (3, "230.0", "253.0", "LIMIT", "plain"),
        (9, "0", "1", "read", "index"),
        (9, "2.5", "2.75", "read", "plain"),
        (9, "2", "3", "read", "digits"),
        (9, "100.0", "110.0", "read", "plain"),
        (12, "0.0", "1.0", "FIELDS.volts", "declared"),
        (12, "270", "297", "FIELDS.volts", "declared"),
        (12, "'12.5'", "'13.75'", "FIELDS.volts", "declared"),
    ]


def test_every_value_of_the_standards_is_found_and_no_date_or_label(tree: Path) -> None:
    found = [(one.line, one.text, one.owner, one.role, one.key) for one in numbers_in(tree, "handbook/standards")]
    assert found == [
        (6, "1.1", "amps.high least", "shop range", "amps.high"),
        (6, "2", "amps.high most", "shop range", "amps.high"),
        (9, "1.15", "amps.high value", "limit", "amps.high"),
        (13, "16", "motors amps", "table", "motors"),
    ]


def test_a_change_changes_one_number_and_nothing_else(tree: Path) -> None:
    for one in numbers_in(tree, "handbook"):
        text = one.mutated(STANDARDS)
        assert [row for row in text.splitlines() if row not in STANDARDS.splitlines()] == [
            STANDARDS.splitlines()[one.line - 1].replace(f" {one.text}", f" {one.changed}")
        ]
    for one in numbers_in(tree, "calculators"):
        changed = {row.text for row in numbers_in(tree, "calculators")} - {one.text}
        text = one.mutated(PYTHON)
        assert one.changed in text
        assert all(other.strip("'") in text for other in changed)
        compile(text, "sample", "exec")


def test_a_file_or_a_folder_can_be_asked_for_and_names_that_only_begin_alike_are_left_out(tree: Path) -> None:
    (tree / "calculators" / "sample_more.py").write_text("X = 5\n", encoding="utf-8")
    assert {one.path for one in numbers_in(tree, "calculators/sample.py")} == {"calculators/sample.py"}
    assert {one.path for one in numbers_in(tree, "calculators/sample")} == {"calculators/sample.py"}
    assert numbers_in(tree, "calculators/sam") == []


def number(path: str, owner: str = "f", role: str = "plain", text: str = "2") -> Number:
    return Number(path, 1, 0, text, owner, role)


def test_a_survivor_is_explained_by_place_and_role_and_an_entry_keeps_what_it_explains(tmp_path: Path) -> None:
    file = tmp_path / "survivors.yaml"
    file.write_text(
        "- {where: calculators/*drawing.py, role: drawn, why: Layout.}\n"
        "- {where: calculators/units.py, owner: '_ROWS', number: '1.0', why: The same number.}\n"
        "- {where: calculators/gone.py, why: Gone.}\n",
        encoding="utf-8",
    )
    entries = read_explanations(file)
    drawn, same = number("calculators/x/drawing.py", role="drawn"), number("calculators/units.py", "_ROWS", text="1.0")
    left = [number("calculators/x/drawing.py"), number("calculators/units.py", "_ROWS"), number("calculators/units.py")]
    assert explain([drawn, same, *left], entries) == left
    assert [entry.explains for entry in entries] == [[drawn], [same], []]


@pytest.mark.parametrize(
    ("entry", "words"), [("{where: a}", "lacks ['why']"), ("{where: a, why: b, line: 3}", "has ['line']")]
)
def test_an_entry_that_says_too_little_or_too_much_is_refused(tmp_path: Path, entry: str, words: str) -> None:
    file = tmp_path / "survivors.yaml"
    file.write_text(f"- {entry}\n", encoding="utf-8")
    with pytest.raises(ValueError, match=r"entry 1") as refused:
        read_explanations(file)
    assert words in str(refused.value)


def test_every_explanation_of_the_project_is_one_sentence_about_files_that_exist() -> None:
    for entry in read_explanations(ROOT / "tests" / "survivors.yaml"):
        assert entry.why.endswith(".")
        assert any(one.path for one in numbers_in(ROOT) if entry.fits(one)), entry.described


def run_script(*arguments: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, str(ROOT / "tests" / "mutate_numbers.py"), *arguments]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)


@pytest.mark.skipif(not hasattr(__import__("os"), "fork"), reason="the script needs fork")
def test_a_sample_of_changed_numbers_is_noticed(seed: int, long_run: bool) -> None:
    count = 6 if long_run else 3
    asked = ("--sample", str(count), "--seed", str(seed), "--tests", "tests/calculators/test_conductors.py")
    ended = run_script("--only", "calculators/conductors.py", *asked)
    assert ended.returncode == 0, ended.stdout + ended.stderr
    assert f"{count} numbers changed, {count} noticed, 0 survived" in ended.stdout


@pytest.mark.skipif(not hasattr(__import__("os"), "fork"), reason="the script needs fork")
def test_a_change_that_no_test_looks_at_is_told_with_its_place_and_ends_with_one() -> None:
    ended = run_script(
        "--only", "calculators/conductors.py", "--sample", "1", "--tests", "tests/calculators/test_inputs.py"
    )
    assert ended.returncode == 1, ended.stdout + ended.stderr
    assert "UNEXPLAINED calculators/conductors.py:" in ended.stdout
    assert "1 numbers changed, 0 noticed, 1 survived" in ended.stdout


def test_a_place_without_numbers_is_refused() -> None:
    ended = run_script("--only", "calculators/nowhere.py")
    assert (ended.returncode, ended.stdout) == (2, "There is no number under calculators/nowhere.py.\n")
