"""The records of a quote in a link, for the type checker: `quoting.quoted.form` says what each value may be."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import TypedDict


class Frame(TypedDict):
    """The frame in its size and colorway, with all that a drawing needs."""

    id: str
    maker: str
    name: str
    family: str
    mounting: str
    a: int
    b: int
    dbl: int
    ed: int
    temple: int
    color: str
    color_name: str
    front: str
    temples: str
    weight: int
    sun: int


class Lens(TypedDict):
    id: str
    maker: str
    name: str
    design: str
    material: str
    coating: str
    kind: str
    light: str
    impact_resistant: int


class Eye(TypedDict):
    sphere: int
    cylinder: int
    axis: int
    add: int
    prism_in: int
    prism_up: int


class Prescription(TypedDict):
    right: Eye | None
    left: Eye | None
    pd: int | None
    pd_right: int | None
    pd_left: int | None
    pd_near: int | None
    written: int | None


class Measures(TypedDict):
    used_pd_right: int
    used_pd_left: int
    used_height_right: int
    used_height_left: int
    height_right: int | None
    height_left: int | None
    tilt: int | None
    wrap: int | None
    child: int


class Wishes(TypedDict):
    tint_depth: int
    others: list[str]


class Reason(TypedDict):
    code: str
    verdict: str
    eye: str
    needed: int
    given: int


class Figures(TypedDict):
    edge_max: int
    center: int
    weight: int
    edge_max_at: str


class Line(TypedDict):
    key: str
    text: str
    cents: int
    listed: int | None
    reason: str


class Dye(TypedDict):
    id: str
    name: str
    share: int


class Tint(TypedDict):
    id: str
    code: str
    name: str
    dyes: list[Dye]
    top: int
    bottom: int | None
    fade_from: int
    fade_to: int


class Mirror(TypedDict):
    id: str
    name: str


class Passed(TypedDict):
    percent: int
    category: int
    driving: int
    color: str
    opacity: int
    state: str


class Pair(TypedDict):
    """One pair of glasses."""

    frame: int
    lens: int
    prescription: int
    verdict: str
    measures: Measures
    right: Figures | None
    left: Figures | None
    lines: list[Line]
    tax_included: int
    reasons: list[Reason]
    estimated: list[str]
    wishes: Wishes
    discounts: list[str]
    tint: int | None
    mirror: Mirror | None
    passed: list[Passed]


class Quote(TypedDict):
    number: str
    issued: int
    expires: int
    price_list: str
    currency: str
    region: str
    frames: list[Frame]
    lenses: list[Lens]
    prescriptions: list[Prescription]
    alternatives: list[list[Pair]]
    note: str
    tints: list[Tint]
