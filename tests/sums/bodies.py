"""Bodies that the sums' tests share: the two of the worked table, and an older one."""

from hypothesis import strategies as st

from builder.course.reference_body import LungReference, ReferenceBody

MAN = ReferenceBody("man", LungReference.MALE, 30, 175, 70)
WOMAN = ReferenceBody("woman", LungReference.FEMALE, 30, 165, 60)
OLDER = ReferenceBody("older woman", LungReference.FEMALE, 70, 160, 60)

bodies = st.builds(
    ReferenceBody,
    st.just("somebody"),
    st.sampled_from(LungReference),
    st.floats(18, 80),
    st.floats(140, 220),
    st.floats(30, 150),
)
