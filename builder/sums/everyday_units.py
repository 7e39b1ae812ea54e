"""Units of people's heights and weights where the metric ones aren't used.

The inch and the pound are defined in metric units since the agreement of 1959 between six
countries; National Bureau of Standards, Federal Register 24:5348 (1959).
"""

from builder.sums.citation import Citation

YARD_AND_POUND = Citation(
    "yard-and-pound-1959",
    "National Bureau of Standards",
    1959,
    "an inch is 2.54 cm, a pound 0.45359237 kg",
    "Federal Register 24:5348",
)
CM_PER_INCH = 2.54
INCHES_PER_FOOT = 12
KG_PER_POUND = 0.45359237
