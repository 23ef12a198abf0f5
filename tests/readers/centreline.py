"""A bent centreline from vertices, worked out here from scratch: straights and arcs between tangent points."""

import numpy


def pieces(points, radius):
    """Straights ("line", from, to) and arcs ("arc", from, middle, to) of vertices with one bend radius, mm."""
    points = [numpy.array(point, dtype=float) for point in points]
    found, here = [], points[0]
    for before, corner, after in zip(points, points[1:], points[2:]):
        towards, away = corner - before, after - corner
        towards, away = towards / numpy.linalg.norm(towards), away / numpy.linalg.norm(away)
        angle = numpy.arctan2(numpy.linalg.norm(numpy.cross(towards, away)), towards @ away)
        tangent = radius * numpy.tan(angle / 2)
        start, end = corner - towards * tangent, corner + away * tangent
        inward = (away - towards) / numpy.linalg.norm(away - towards)
        # From the corner the middle of the arc lies R (1 / cos(angle / 2) - 1) inward.
        middle = corner + inward * radius * (1 / numpy.cos(angle / 2) - 1)
        found += [("line", here, start), ("arc", start, middle, end)]
        here = end
    return found + [("line", here, points[-1])]
