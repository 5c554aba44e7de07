"""Noon, sunrise and sunset from the Debian package python3-ephem, for a comparison while the tests run.

Arguments: latitude, first day, last day, step (days since 1970), then longitudes. A line for each longitude and day:
longitude, day, noon, rise, set (UTC seconds, or - where the sun does not cross), its height at noon in degrees, and how
fast it climbs at rise and falls at set in degrees a minute. The sun's centre is taken at -0.833 degrees without air.
"""
import math
import sys

import ephem

ZERO = ephem.Date("1970/1/1")


def height(place, sun, when):
    place.date = when
    sun.compute(place)
    return math.degrees(sun.alt)


def crossing(place, sun, low, high):
    """By halving between an instant when it stands below and one when it stands above."""
    if height(place, sun, low) >= -0.833 or height(place, sun, high) <= -0.833:
        return None
    for _ in range(20):
        middle = (low + high) / 2
        if height(place, sun, middle) < -0.833:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def main():
    latitude, first, last, step = (float(text) for text in sys.argv[1:5])
    sun = ephem.Sun()
    for text in sys.argv[5:]:
        place = ephem.Observer()
        place.lat, place.lon, place.pressure, place.elevation = math.radians(latitude), math.radians(float(text)), 0, 0
        for day in range(int(first), int(last), int(step)):
            noon = ZERO + day + 0.5 - float(text) / 360
            for _ in range(3):
                place.date = noon
                sun.compute(place)
                angle = float(place.sidereal_time() - sun.ra)
                noon -= math.remainder(angle, 2 * math.pi) / (2 * math.pi)
            cells = [text, str(day), "%.1f" % ((noon - ZERO) * 86400)]
            speeds = []
            for midnight in noon - 0.5, noon + 0.5:
                when = crossing(place, sun, midnight, noon)
                cells.append("-" if when is None else "%.1f" % ((when - ZERO) * 86400))
                speeds.append(0 if when is None else abs(height(place, sun, when + 1 / 1440) - height(place, sun, when)))
            print(*cells, "%.4f" % height(place, sun, noon), *("%.6f" % speed for speed in speeds))


main()
