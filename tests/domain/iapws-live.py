"""Saturation line and heat of evaporation from the Debian package python3-iapws, for a comparison while the tests run.

Reads pressures in kPa from the arguments (first, last, step) and prints "kPa degC kJ/kg" lines.
"""
import sys

from iapws import IAPWS97

first, last, step = (float(text) for text in sys.argv[1:4])
for i in range(int(round((last - first) / step)) + 1):
    pressure_kpa = first + i * step
    liquid = IAPWS97(P=pressure_kpa / 1e3, x=0)
    vapour = IAPWS97(P=pressure_kpa / 1e3, x=1)
    print("%.6f %.9f %.9f" % (pressure_kpa, liquid.T - 273.15, vapour.h - liquid.h))
