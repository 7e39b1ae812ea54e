"""Worth: what counts for and against a class plan, in points. All of it is ours.

Whole numbers, so that a proof of the best plan needs no rounding. A step forward outweighs ten
minutes of waiting; a strand left out, a person whom no coach looks at, and getting up from the
floor once more each cost about a third of a step.
"""

from builder.sums.citation import ours

STEP = 20
"""The next lesson of a strand, for the first time."""
PRACTICE = 12
"""The lesson that somebody works on in a strand."""
RETEST = 4
"""A check whose measure is to be read again."""
NOT_DUE = -4
"""A check that was done and isn't due again: only for want of anything else."""
KNOWN = 2
"""A lesson that somebody is ready in, done once more."""
REPEAT = 1
"""A lesson done a second time in the same class."""
MISSED_STRAND = -8
"""A strand of the class in which somebody has work to do and does none."""
NO_CLOSE_LOOK = -6
"""A person at whom no coach looks closely in the whole class."""
CHANGE = -4
"""A stay in a position family: each takes getting there."""
ADAPTED = -6
"""A lesson that a notice changes for the person, each time: what needs no change comes first."""
OWN_PACE = -1
"""A person who breathes at their own pace while the others count."""
IDLE = -1
"""Half a minute in which one person waits for the others."""

IDLE_SECONDS = 30
CHANGE_SECONDS = 60
"""Getting from one position family to another (common practice)."""
KEPT = 3
"""At the door: a turn that stays as everybody has heard it."""
MINUTE_MORE = -1
"""How big a change to a class is: a minute longer,"""
PROP_MORE = -2
"""one more of a prop,"""
NEW_MORE = -4
"""one more new lesson for each person,"""
COACH_MORE = -8
"""one more coach,"""
PERSON_LESS = -24
"""and somebody who can't join."""
MOST_MINUTES_MORE = 60
MOST_NEW_MORE = 4
MOST_COPIES = 3
"""How many blocks that are alike are looked at for the smallest change."""
ENOUGH = 1000
"""How many there are of a prop that nobody counted."""
MOST_TIMES = 2
"""How often somebody does the same lesson in one class."""
MOST_TIMED_HOLDS = 1
"""How often a check that times holds: its three tries are all of a day, as its lesson says."""
CLASS_PLAN = ours(
    "class-plan",
    "steps forward count most in a class, then practice; missed strands, no close look, "
    "changes of position and waiting count against it",
)
