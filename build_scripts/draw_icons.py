"""Draws the app's icon as PNG pictures out of the same few circles that threepin.svg is made of.

Three pins in a ring, seen square-on, as a compressor shows them. Run by hand when the drawing changes:

    python3 -m build_scripts.draw_icons

The pictures are kept in handbook/assets/icons; a test draws them again and compares every pixel.
"""

from __future__ import annotations

import math
import struct
import zlib
from dataclasses import dataclass
from pathlib import Path

from build_scripts.write_app_files import ICON_SIZES

Colour = tuple[int, int, int]

PETROL: Colour = (0x1D, 0x3A, 0x44)
PAPER: Colour = (0xF7, 0xF4, 0xEE)
COPPER: Colour = (0xE0, 0x8A, 0x4F)


@dataclass(frozen=True)
class Ring:
    """A ring, or a disc when its inner radius is 0; all in parts of the picture's side, from its middle."""

    x: float
    y: float
    outer: float
    inner: float
    colour: Colour


# Everything stays inside the middle four fifths, which every shape of app icon shows.
_PIN_AT, _PIN = 0.165, 0.082
RINGS = (
    Ring(0.0, 0.0, 0.375, 0.325, PAPER),
    *(
        Ring(_PIN_AT * math.sin(turn), -_PIN_AT * math.cos(turn), _PIN, 0.0, COPPER if turn == 0.0 else PAPER)
        for turn in (0.0, 2 * math.pi / 3, 4 * math.pi / 3)
    ),
)


def draw(size: int) -> bytes:
    """The rows of the picture, three bytes a pixel, edges smoothed over one pixel."""
    rows = bytearray()
    for row in range(size):
        for column in range(size):
            rows.extend(_pixel((column + 0.5) / size - 0.5, (row + 0.5) / size - 0.5, size))
    return bytes(rows)


def _pixel(x: float, y: float, size: int) -> Colour:
    colour = PETROL
    for ring in RINGS:
        distance = math.hypot(x - ring.x, y - ring.y)
        inside = min(ring.outer - distance, distance - ring.inner) if ring.inner else ring.outer - distance
        share = min(max(inside * size + 0.5, 0.0), 1.0)
        if share > 0.0:
            colour = _mixed(colour, ring.colour, share)
    return colour


def _mixed(under: Colour, over: Colour, share: float) -> Colour:
    red, green, blue = (round(a + (b - a) * share) for a, b in zip(under, over, strict=True))
    return red, green, blue


def png(rows: bytes, size: int) -> bytes:
    """A PNG file of rows of three bytes a pixel."""
    lines = b"".join(b"\0" + rows[start : start + 3 * size] for start in range(0, len(rows), 3 * size))
    header = struct.pack(">IIBBBBB", size, size, 8, 2, 0, 0, 0)
    chunks = (("IHDR", header), ("IDAT", zlib.compress(lines, 9)), ("IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(_chunk(name.encode(), data) for name, data in chunks)


def _chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def svg() -> str:
    """The same drawing as SVG."""
    shapes = []
    for ring in RINGS:
        radius, width = (ring.outer + ring.inner) / 2, ring.outer - ring.inner
        place = f'cx="{100 * ring.x:.1f}" cy="{100 * ring.y:.1f}"'
        if ring.inner:
            line = f'stroke="{_hex(ring.colour)}" stroke-width="{100 * width:.1f}"'
            shapes.append(f'<circle {place} r="{100 * radius:.1f}" fill="none" {line}/>')
        else:
            shapes.append(f'<circle {place} r="{100 * ring.outer:.1f}" fill="{_hex(ring.colour)}"/>')
    back = f'<rect x="-50" y="-50" width="100" height="100" rx="18" fill="{_hex(PETROL)}"/>'
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="-50 -50 100 100">{back}{"".join(shapes)}</svg>\n'


def _hex(colour: Colour) -> str:
    return "#" + "".join(f"{part:02x}" for part in colour)


def main() -> None:
    """Write every picture to handbook/assets/icons."""
    folder = Path(__file__).resolve().parent.parent / "handbook" / "assets" / "icons"
    (folder / "threepin.svg").write_text(svg(), encoding="utf-8", newline="\n")
    for size in ICON_SIZES:
        (folder / f"threepin-{size}.png").write_bytes(png(draw(size), size))


if __name__ == "__main__":
    main()
