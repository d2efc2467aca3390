"""Sine, arc tangent, exponential and logarithm from + - * / and square roots alone.

The libraries of two languages may differ in the last bit of these; arithmetic and square roots may not
(IEEE 754 rounds them exactly).  So what the shop computes and what the page computes is the same number.
Series: NIST Digital Library of Mathematical Functions, 4.19 (sine, cosine), 4.24 (arc tangent), 4.2 and 4.6.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math

PI = 3.141592653589793
LN2 = 0.6931471805599453


def sin_small(x: float) -> float:
    """Sine of radians within ±0.8."""
    q = x * x
    s = 1.0 - q / 210.0 * (1.0 - q / 272.0)
    s = 1.0 - q / 156.0 * s
    s = 1.0 - q / 110.0 * s
    s = 1.0 - q / 72.0 * s
    s = 1.0 - q / 42.0 * s
    s = 1.0 - q / 20.0 * s
    return x * (1.0 - q / 6.0 * s)


def cos_small(x: float) -> float:
    """Cosine of radians within ±0.8."""
    q = x * x
    s = 1.0 - q / 182.0 * (1.0 - q / 240.0)
    s = 1.0 - q / 132.0 * s
    s = 1.0 - q / 90.0 * s
    s = 1.0 - q / 56.0 * s
    s = 1.0 - q / 30.0 * s
    s = 1.0 - q / 12.0 * s
    return 1.0 - q / 2.0 * s


def sin_deg(degrees: float) -> float:
    """Sine of degrees, exact at multiples of 90.

    >>> sin_deg(30.0), sin_deg(180.0), sin_deg(-90.0)
    (0.49999999999999994, 0.0, -1.0)
    """
    turns = math.floor(degrees / 90.0 + 0.5)
    rest = (degrees - 90.0 * turns) * PI / 180.0
    quarter = turns - 4 * math.floor(turns / 4)
    if quarter == 0:
        return sin_small(rest)
    if quarter == 1:
        return cos_small(rest)
    if quarter == 2:
        return 0.0 - sin_small(rest)
    return 0.0 - cos_small(rest)


def cos_deg(degrees: float) -> float:
    """Cosine of degrees, exact at multiples of 90."""
    return sin_deg(degrees + 90.0)


def atan_unit(z: float) -> float:
    """Arc tangent in radians of a number within ±1: the angle is halved twice, then the series."""
    h = z / (1.0 + math.sqrt(1.0 + z * z))
    h = h / (1.0 + math.sqrt(1.0 + h * h))
    q = h * h
    s = 0.0
    for i in range(12):
        s = 1.0 / (23.0 - 2.0 * i) - q * s
    return 4.0 * h * s


def angle_deg(x: float, y: float) -> float:
    """Direction of (x, y) in degrees, 0 up to but not 360; 0 where both are 0.

    >>> angle_deg(0.0, 2.0), angle_deg(-1.0, 0.0), angle_deg(1.0, -1.0)
    (90.0, 180.0, 315.0)
    """
    if x == 0.0 and y == 0.0:
        return 0.0
    if abs(y) <= abs(x):
        degrees = atan_unit(y / x) * 180.0 / PI
        if x < 0.0:
            degrees = degrees + 180.0
    else:
        degrees = 90.0 - atan_unit(x / y) * 180.0 / PI
        if y < 0.0:
            degrees = degrees + 180.0
    if degrees < 0.0:
        degrees = degrees + 360.0
    if degrees >= 360.0:
        return degrees - 360.0
    return degrees


def exp(x: float) -> float:
    """The exponential of x, for x within ±700.

    >>> exp(0.0), round(exp(1.0), 12)
    (1.0, 2.718281828459)
    """
    twos = math.floor(x / LN2 + 0.5)
    rest = x - twos * LN2
    s = 1.0
    for i in range(14):
        s = 1.0 + rest / (14.0 - i) * s
    factor = 2.0
    if twos < 0:
        factor = 0.5
    for _ in range(abs(twos)):
        s = s * factor
    return s


def ln(x: float) -> float:
    """Natural logarithm; x must be above zero.   Raises ValueError otherwise.

    >>> ln(1.0), round(ln(10.0), 12)
    (0.0, 2.302585092994)
    """
    if x <= 0.0:
        raise ValueError("a logarithm needs a number above zero")
    m = x
    twos = 0
    for _ in range(1100):
        if m > 1.4142135623730951:
            m = m / 2.0
            twos += 1
        elif m < 0.7071067811865476:
            m = m * 2.0
            twos -= 1
        else:
            break
    z = (m - 1.0) / (m + 1.0)
    q = z * z
    s = 0.0
    for i in range(12):
        s = 1.0 / (23.0 - 2.0 * i) + q * s
    return twos * LN2 + 2.0 * z * s
