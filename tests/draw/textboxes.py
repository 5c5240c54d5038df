"""Where the text of an SVG stands, worked out from the SVG alone."""

from __future__ import annotations

import itertools
import math
import re
from dataclasses import dataclass
from xml.etree import ElementTree as ET

import shapely
from shapely import affinity

ADVANCE = 0.602  # DejaVu Sans Mono: 1233 of 2048 units
RISE, DROP = 0.73, 0.0  # capitals and figures over the base line


@dataclass(frozen=True)
class TextBox:
    """One text with its turned box on paper. [mm]"""

    text: str
    role: str
    box: shapely.Polygon


def text_boxes(svg: str) -> list[TextBox]:
    """Return the box of every text: advance width, base line to the top of capitals."""
    found = []
    for node in ET.fromstring(svg).iter("{http://www.w3.org/2000/svg}text"):
        text = node.text or ""
        x, y, size = (float(node.attrib[key]) for key in ("x", "y", "font-size"))
        width = len(text) * ADVANCE * size
        x0 = x - {"start": 0.0, "middle": width / 2, "end": width}[node.attrib["text-anchor"]]
        box = shapely.box(x0, y - RISE * size, x0 + width, y + DROP * size)
        turn = re.match(r"rotate\((\S+) (\S+) (\S+)\)", node.attrib.get("transform", ""))
        if turn is not None:
            angle, cx, cy = (float(part) for part in turn.groups())
            box = affinity.rotate(box, angle, origin=(cx, cy))
        found.append(TextBox(text=text, role=node.attrib.get("class", ""), box=box))
    return found


def overlaps(boxes: list[TextBox]) -> list[tuple[str, str]]:
    """Return the pairs of texts whose boxes share more than a hair."""
    tree = shapely.STRtree([b.box for b in boxes])
    pairs = []
    for i, box in enumerate(boxes):
        pairs += [
            (box.text, boxes[j].text)
            for j in tree.query(box.box)
            if i < j and box.box.intersection(boxes[j].box).area > 0.01
        ]
    return pairs


def paths(svg: str) -> list[dict[str, str]]:
    """Return the attributes of every path."""
    return [dict(n.attrib) for n in ET.fromstring(svg).iter("{http://www.w3.org/2000/svg}path")]


def path_length(data: str) -> float:
    """Return the length of an open path of straight lines. [mm]"""
    points = [tuple(map(float, pair.split())) for pair in data.strip("MZ").split("L")]
    return math.fsum(math.dist(a, b) for a, b in itertools.pairwise(points))
