"""The course as frozen values: what exists here is valid."""
