"""Texts that read like sentences and are none, or that no page shows."""

from __future__ import annotations

NEVER_SAID = frozenset(
    {
        "  elevation: {elevation}",
        "  name: {name}",
        "20.3 fl oz",
        "A beam with no telling name was taken as a plain beam",
        "A day, or a local time of a day.",
        "A floor without a foam core was taken as a bearing, not as panels",
        "A length above zero.",
        "A length of either sign.",
        "A length of work over a time.",
        "A length of zero or more.",
        "A number from {low} to {high}.",
        "A pitch (rise/run) or degrees.",
        "A short name, unique.",
        "A time of day.",
        "A volume as on the label.",
        "Accept-Encoding, Accept-Language, Seamwright-Units",
        "Date (MM/DD/YYYY)",
        "It has no level top to bear on",
        "It is no straight timber with a body",
        "Left out",
        "Local time less UTC.",
        "Lprecip depth (mm)",
        "Not a full rectangle; taken as the box around it",
        "OpqCld (tenths)",
        "Seamwright {name}",
        "Studs stand inside their wall",
        "Taken as a plane still to be laid out into panels",
        "Taken as a timber ({kind})",
        "Taken as a {role} panel",
        "Taken as what panels stand on ({kind})",
        "The id of a task.",
        (
            "The model names no length unit; {name} were taken, because its largest element "
            "measures {largest}"
        ),
        (
            "The model stands far from its origin; ({shift}, {shift2}, {shift3}) m were taken "
            "off its coordinates"
        ),
        "Three numbers, a compass word, a bearing, or one with a slope.",
        "Wdir (degrees)",
        "What is wrong, and what to do about it.",
        "Width x depth of a timber.",
        "base: {given}\n",
        "dict[str, Tree] | list[Tree] | str | None",
        "elevation, {elevation}",
        'inline; filename="{name}"',
        "latitude, {latitude}",
        "longitude, {longitude}",
        "picture {units} {language} {paper}",
        "private, max-age=31536000, immutable",
        "str | Raw | Sequence[Written] | Mapping[str, Written]",
        "summary {units}",
        "time, temperature [C], humidity [%], wind [m/s], rain [mm], cloud [%], irradiance [W/m2]",
        "{text}\npanels: {resolve}\n",
    }
)
"""Descriptions of fields, names of files and columns, headers, and remarks within plan files."""
