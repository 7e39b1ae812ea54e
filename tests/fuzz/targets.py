"""Every reader that is fuzzed, by name."""

from collections.abc import Mapping

from tests.fuzz.course_targets import COURSE_TARGETS
from tests.fuzz.kinds import Target
from tests.fuzz.record_targets import RECORD_TARGETS
from tests.fuzz.value_targets import VALUE_TARGETS

TARGETS: Mapping[str, Target] = {
    target.name: target for target in (*COURSE_TARGETS, *VALUE_TARGETS, *RECORD_TARGETS)
}
