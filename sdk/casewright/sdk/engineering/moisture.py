"""Moisture that wood comes to in air of a given temperature and humidity.

Temperatures in degrees Celsius; relative humidity in percent; moisture content in percent of oven-dry mass.
"""

from casewright.sdk.engineering.limits import within

_TABLE = "fpl-282-table-4-2"


def _sorption(h: float, w: float, k: float, k1: float, k2: float) -> float:
    kh = k * h
    top = k1 * kh + 2.0 * k1 * k2 * kh * kh
    return 1800.0 / w * (kh / (1.0 - kh) + top / (1.0 + k1 * kh + k1 * k2 * kh * kh))


def equilibrium_moisture(temperature_c: float, humidity_percent: float) -> float:
    """Return the equilibrium moisture content in percent.

    Source: `fpl-282-eq-4-5-celsius` (from memory). Valid from -1 to 132 deg C
    and 5 to 95 % relative humidity (Table 4-2, from memory).
    """
    t = within("emc-temperature", "temperature", temperature_c, -1.0, 132.0, "°C", _TABLE)
    h = within("emc-humidity", "relative humidity", humidity_percent, 5.0, 95.0, "%", _TABLE) / 100.0
    return _sorption(
        h,
        349.0 + 1.29 * t + 0.0135 * t * t,
        0.805 + 0.000736 * t - 0.00000273 * t * t,
        6.27 - 0.00938 * t - 0.000303 * t * t,
        1.91 + 0.0407 * t - 0.000293 * t * t,
    )
