"""Pure sums: timing, reading grade, contrast, paper."""
