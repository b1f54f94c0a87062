"""The app's pictures are the drawing that stands in the code."""

from __future__ import annotations

import struct
import zlib
from pathlib import Path

import pytest

from build_scripts.draw_icons import COPPER, PAPER, PETROL, draw, svg
from build_scripts.write_app_files import ICON_SIZES

ICONS = Path(__file__).resolve().parents[2] / "handbook" / "assets" / "icons"


def read_png(file: Path) -> tuple[int, int, bytes]:
    content = file.read_bytes()
    assert content.startswith(b"\x89PNG\r\n\x1a\n")
    place, packed, width, height = 8, b"", 0, 0
    while place < len(content):
        (length,) = struct.unpack(">I", content[place : place + 4])
        kind, data = content[place + 4 : place + 8], content[place + 8 : place + 8 + length]
        (told,) = struct.unpack(">I", content[place + 8 + length : place + 12 + length])
        assert told == zlib.crc32(kind + data)
        if kind == b"IHDR":
            width, height = struct.unpack(">II", data[:8])
        packed += data if kind == b"IDAT" else b""
        place += 12 + length
    rows = zlib.decompress(packed)
    return (
        width,
        height,
        b"".join(rows[row * (3 * width + 1) + 1 : (row + 1) * (3 * width + 1)] for row in range(height)),
    )


@pytest.mark.parametrize("size", ICON_SIZES)
def test_each_kept_picture_is_what_is_drawn(size):
    assert read_png(ICONS / f"threepin-{size}.png") == (size, size, draw(size))


def test_the_kept_svg_is_what_is_drawn():
    assert (ICONS / "threepin.svg").read_text(encoding="utf-8") == svg()


def test_the_drawing_has_one_copper_pin_on_top_and_two_of_paper_below():
    size = 96
    rows = draw(size)

    def at(x: float, y: float) -> tuple[int, ...]:
        start = 3 * (round((0.5 + y) * size) * size + round((0.5 + x) * size))
        return tuple(rows[start : start + 3])

    assert at(0.0, -0.165) == COPPER
    assert at(-0.143, 0.083) == PAPER
    assert at(0.143, 0.083) == PAPER
    assert at(0.0, 0.0) == PETROL
