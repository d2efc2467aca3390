"""Every code a finding of a lab job or a trace can have."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

LAB_CODES = {
    "dcs-empty": "A file holds no record of a lab job.",
    "dcs-too-long": "A file is larger than any job, or a line of it longer than any record.",
    "dcs-not-ascii": "A character is none of those that the standard's records are written in.",
    "dcs-cut": "A message begins and does not end, or ends and never began.",
    "dcs-no-label": "A line is no record: it has no label with = behind it.",
    "dcs-twice": "A record stands twice; one of the two would be lost.",
    "dcs-fields": "A record has more values than it can hold.",
    "dcs-not-a-number": "A value is no number, where the record holds numbers.",
    "dcs-range": "A value is a number that the record cannot mean.",
    "dcs-eye": "A job is for one eye and has values for the other, or says for which eyes in no known word.",
    "dcs-label-unknown": "A record is not known here; it is not used, and kept where the file is written again.",
    "dcs-depths": "A trace has depths; they are not used, and kept where the file is written again.",
    "dcs-trace-format": "A trace says of itself what nobody reads here.",
    "dcs-trace-lost": "Radii or angles stand behind no trace format.",
    "dcs-trace-count": "A trace has more or fewer radii or angles than it says.",
    "dcs-trace-shape": "A trace is no outline of a lens: it has a gap, crosses itself, or is not the box it says.",
    "dcs-no-trace": "A file holds no trace.",
    "trace-sides-differ": "The traces of the two sides are not each other's mirror image.",
    "trace-box": "A trace is not as wide or as high as the frame's size says.",
    "trace-curve": "A trace says another frame curve than the catalog does.",
    "trace-there": "A frame's size has a trace already.",
}
