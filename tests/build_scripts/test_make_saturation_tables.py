"""The recipe of the saturation tables: the same bytes again, and nothing that a build has to have."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from build_scripts import make_saturation_tables
from build_scripts.read_standards import read_standards

ROOT = Path(__file__).resolve().parents[2]
KEPT = ROOT / "handbook" / "standards" / "saturation.yaml"


@pytest.fixture
def coolprop():
    return pytest.importorskip("CoolProp")


def test_the_recipe_gives_the_kept_table_byte_for_byte(coolprop):
    assert make_saturation_tables.text().encode() == KEPT.read_bytes()


def test_another_version_of_the_library_is_refused_before_a_number_is_made(coolprop, monkeypatch):
    monkeypatch.setattr(make_saturation_tables, "LIBRARY", "7.9.9")
    with pytest.raises(SystemExit, match=r"the tables were made with 7\.9\.9"):
        make_saturation_tables.text()


def test_another_equation_of_state_is_refused(coolprop, monkeypatch):
    other = make_saturation_tables.Fluid("r134a", "R134a", "A1", False, "Somebody-2030")
    monkeypatch.setattr(make_saturation_tables, "FLUIDS", (other,))
    with pytest.raises(SystemExit, match="R134a: CoolProp computes it with TillnerRoth-JPCRD-1994"):
        make_saturation_tables.text()


def test_the_library_named_is_the_one_pinned_for_the_tests():
    pinned = (ROOT / "requirements" / "test.txt").read_text(encoding="utf-8")
    assert f"\ncoolprop=={make_saturation_tables.LIBRARY} " in pinned


def test_neither_a_build_nor_a_look_at_the_recipe_loads_the_library():
    looked = (
        "import sys, build_scripts.command_line, build_scripts.make_saturation_tables; print('CoolProp' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", looked], cwd=ROOT, check=True, capture_output=True, encoding="utf-8")
    assert done.stdout.strip() == "False"


def test_each_refrigerant_names_its_equation_and_cites_it():
    standards = read_standards(ROOT / "handbook")
    rows = {row["id"]: row for row in standards.tables["saturation"].rows}
    assert list(rows) == [fluid.key for fluid in make_saturation_tables.FLUIDS]
    for fluid in make_saturation_tables.FLUIDS:
        assert rows[fluid.key]["equation"] == fluid.equation
        cited = standards.sources[rows[fluid.key]["source"]].citation
        assert "equation of state" in cited
        assert fluid.equation.rsplit("-", 1)[1][:4] in cited  # the year
        assert f"CoolProp {make_saturation_tables.LIBRARY}" in cited


def test_the_table_adds_little_to_what_the_page_carries():
    standards = read_standards(ROOT / "handbook")
    whole = standards.as_json("test")
    without = standards.model_copy(update={"tables": {k: v for k, v in standards.tables.items() if k != "saturation"}})
    assert len(whole) - len(without.as_json("test")) < 4000
