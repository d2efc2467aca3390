"""An independent trace for the tests: surfaces as level sets with gradients by hand, bundles of close rays by numpy.

It shares nothing with the kernel but the meaning of a Grind: the torus here is the quartic one, turned about its axis,
not a sag; normals are gradients; the power comes from how neighboring rays converge.
"""

import numpy as np


def front_level(lens):
    c = lens["front"] / (1000.0 * (lens["index"] - 1.0))
    k = 1.0 + lens["conic"]

    def level(p):
        return c * (p[0] ** 2 + p[1] ** 2 + k * p[2] ** 2) / 2 - p[2]

    def slope(p):
        return np.array([c * p[0], c * p[1], c * k * p[2] - 1.0])

    return level, slope


def back_level(lens, center):
    """The torus |(X, 1/b - z)| = 1/b - arc(Y), squared away: no root is left but that of the distance to its axis.

    b is the weaker curvature, X along it; where b is 0 a cylinder, where both are equal a sphere (by the same rule).
    """
    n, front = lens["index"], lens["front"]
    through = front / (1.0 - center / 1000.0 / n * front)
    powers = [lens["sphere"] - through, lens["sphere"] + lens["cylinder"] - through]
    curves = [-power / (1000.0 * (n - 1.0)) for power in powers]
    angle = np.radians(lens["axis"])
    if abs(curves[0]) > abs(curves[1]):
        curves, angle = curves[::-1], angle + np.pi / 2
    b, c = curves
    turn = np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])

    def local(p):
        x, y = turn @ p[:2]
        return x, y, p[2] - center - lens["wedge_x"] * p[0] - lens["wedge_y"] * p[1]

    def parts(p):
        """m is the depth of the point once it is turned about the axis into the plane of the arc: (1 - far) / b."""
        x, y, z = local(p)
        far = np.sqrt((1.0 - b * z) ** 2 + (b * x) ** 2)
        m = (2.0 * z - b * (x * x + z * z)) / (1.0 + far)
        return x, y, z, far, m

    def level(p):
        _, y, _, _, m = parts(p)
        return c * (y * y + m * m) / 2 - m

    def slope(p):
        x, y, z, far, m = parts(p)
        dm = np.array([-b * x / far, 0.0, (1.0 - b * z) / far])
        d = np.array([0.0, c * y, 0.0]) + (c * m - 1.0) * dm
        flat = turn.T @ d[:2]
        return np.array([flat[0] - d[2] * lens["wedge_x"], flat[1] - d[2] * lens["wedge_y"], d[2]])

    return level, slope


def meet(level, slope, p, d, start):
    s = start
    for _ in range(60):
        q = p + s * d
        step = level(q) / (slope(q) @ d)
        s -= step
        if abs(step) < 1e-14:
            break
    return p + s * d


def refract(d, normal, ratio):
    normal = normal / np.linalg.norm(normal)
    if normal @ d < 0:
        normal = -normal
    cosine = normal @ d
    return ratio * d + (np.sqrt(1.0 - ratio**2 * (1.0 - cosine**2)) - ratio * cosine) * normal


def through(lens, center, p, d):
    """Point on the back and direction behind it of a ray from in front; also the length of its way in glass."""
    p, d = np.asarray(p, float), np.asarray(d, float)
    level, slope = front_level(lens)
    one = meet(level, slope, p, d, -p[2] / d[2])
    inside = refract(d, slope(one), 1.0 / lens["index"])
    level, slope = back_level(lens, center)
    other = meet(level, slope, one, inside, (center - one[2]) / inside[2])
    return one, inside, other, refract(inside, slope(other), lens["index"])


def power_by_bundle(lens, center, p, d, sides, step=0.02):
    """Power matrix [[xx, xy], [yx, yy]] in diopters from five rays `step` mm apart: slope over height behind the lens.

    Heights and slopes are taken across the chief ray where it leaves the back, by central differences.
    """
    p, d = np.asarray(p, float), np.asarray(d, float)
    u = np.cross([0.0, 1.0, 0.0], d)
    u /= np.linalg.norm(u)
    v = np.cross(d, u)
    _, _, foot, out = through(lens, center, p, d)
    frame = np.asarray(sides, float)

    def seen(shift):
        _, _, q, e = through(lens, center, p + shift, d)
        q = q + ((foot - q) @ out) / (e @ out) * e
        return frame @ (q - foot), frame @ e / (e @ out)

    heights, slopes = [], []
    for side in (u, v):
        (h1, s1), (h2, s2) = seen(step * side), seen(-step * side)
        heights.append((h1 - h2) / (2 * step))
        slopes.append((s1 - s2) / (2 * step))
    return -1000.0 * np.array(slopes).T @ np.linalg.inv(np.array(heights).T)
