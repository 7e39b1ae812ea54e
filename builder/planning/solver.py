"""Solver: the best whole-number answer to linear conditions, with a proof or the gap that is left.

The only module that knows the engine. One thread, a fixed seed and limits that count work rather
than time give the same answer to the same question.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

import highspy
import numpy as np
from highspy._core import _Highs

from builder.errors import BuilderError

Terms = Sequence[tuple[int, float]]
"""Number of a variable and its factor, summed up."""
INFINITE = highspy.kHighsInf
MOST_SECONDS = 60.0
"""Beyond it the best answer so far is given, with its gap; then two runs may differ."""

_ROUNDING = 1e-3


class Ending(StrEnum):
    """How a search ended."""

    PROVEN = "proven"
    """No answer is better."""
    UNPROVEN = "unproven"
    """An answer, and a bound that no answer passes."""
    IMPOSSIBLE = "impossible"
    """No answer meets every condition."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What a search found."""

    ending: Ending
    values: tuple[float, ...] = ()
    """One for each variable, those that must be whole rounded to whole; none if impossible."""
    total: float = 0.0
    """What was to be as large as can be."""
    bound: float = 0.0
    """No answer has a larger total."""


@dataclass(slots=True)
class Programme:
    """Variables with bounds and gains, and linear conditions, as they are written down."""

    lows: list[float] = field(default_factory=list)
    highs: list[float] = field(default_factory=list)
    gains: list[float] = field(default_factory=list)
    wholes: list[bool] = field(default_factory=list)
    rows: list[tuple[Terms, float, float]] = field(default_factory=list)

    def add_whole(self, high: float, gain: float = 0.0) -> int:
        """Add a variable of whole numbers from 0 to ``high``; return its number."""
        return self._add(high, gain, is_whole=True)

    def add_share(self, high: float, gain: float = 0.0) -> int:
        """Add a variable from 0 to ``high`` that need not be whole; return its number."""
        return self._add(high, gain, is_whole=False)

    def require(self, terms: Terms, low: float = -INFINITE, high: float = INFINITE) -> None:
        """Require a sum to lie within bounds; a term of one variable may come twice."""
        self.rows.append((terms, low, high))

    def _add(self, high: float, gain: float, *, is_whole: bool) -> int:
        self.lows.append(0.0)
        self.highs.append(high)
        self.gains.append(gain)
        self.wholes.append(is_whole)
        return len(self.lows) - 1


def solve(
    programme: Programme,
    seconds: float = MOST_SECONDS,
    *,
    start: Sequence[float] = (),
    most_nodes: int | None = None,
) -> Answer:
    """Make the total gain as large as can be.

    Gains of whole variables are to be whole, so that a gap under one is a proof. ``start`` is an
    answer that is known already, one value a variable; ``most_nodes`` ends a search after so many
    steps, on any computer after the same ones.
    """
    if not programme.lows:
        return Answer(Ending.PROVEN)
    limits = {"time_limit": seconds}
    if most_nodes is not None:
        limits["mip_max_nodes"] = most_nodes
    answer = _run(programme, start, limits)
    if not start or _comes_to_total(programme, answer):
        return answer
    return _run(programme, start, {**limits, "presolve": "off"})


def _run(
    programme: Programme, start: Sequence[float], options: Mapping[str, float | str]
) -> Answer:
    engine = _start_engine()
    for name, value in options.items():
        engine.setOptionValue(name, value)
    engine.passModel(_write_model(programme))
    if start:
        known = highspy.HighsSolution()
        known.col_value = list(start)
        engine.setSolution(known)
    engine.run()
    return _read_answer(engine, programme)


def _comes_to_total(programme: Programme, answer: Answer) -> bool:
    """Tell whether an answer's values come to its total.

    HiGHS 1.16 may better a known answer as it makes the programme smaller, keep the better total,
    and give back the known values.
    """
    values = zip(programme.gains, answer.values, strict=False)
    return abs(sum(gain * value for gain, value in values) - answer.total) < _ROUNDING


def _start_engine() -> _Highs:
    engine = _Highs()  # the class over it prints a line of its own as it starts
    for name, value in (
        ("output_flag", False),
        ("threads", 1),
        ("random_seed", 0),
        ("mip_rel_gap", 0.0),
        ("mip_abs_gap", 0.9),
        ("mip_allow_restart", False),
    ):
        engine.setOptionValue(name, value)
    return engine


def _write_model(programme: Programme) -> highspy.HighsLp:
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(programme.lows), len(programme.rows)
    model.sense_ = highspy.ObjSense.kMaximize
    model.col_cost_ = np.array(programme.gains, dtype=np.float64)
    model.col_lower_ = np.array(programme.lows, dtype=np.float64)
    model.col_upper_ = np.array(programme.highs, dtype=np.float64)
    kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
    model.integrality_ = [kinds[is_whole] for is_whole in programme.wholes]
    model.row_lower_ = np.array([low for _, low, _ in programme.rows], dtype=np.float64)
    model.row_upper_ = np.array([high for _, _, high in programme.rows], dtype=np.float64)
    starts, columns, factors = [0], list[int](), list[float]()
    for terms, _, _ in programme.rows:
        summed: dict[int, float] = {}
        for column, factor in terms:
            summed[column] = summed.get(column, 0.0) + factor
        columns += summed
        factors += summed.values()
        starts.append(len(columns))
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.start_ = np.array(starts, dtype=np.int32)
    model.a_matrix_.index_ = np.array(columns, dtype=np.int32)
    model.a_matrix_.value_ = np.array(factors, dtype=np.float64)
    return model


def _read_answer(engine: _Highs, programme: Programme) -> Answer:
    status, facts = engine.getModelStatus(), engine.getInfo()
    if status in (
        highspy.HighsModelStatus.kInfeasible,
        highspy.HighsModelStatus.kUnboundedOrInfeasible,
    ):
        return Answer(Ending.IMPOSSIBLE)
    is_proven = status == highspy.HighsModelStatus.kOptimal
    if not is_proven and facts.primal_solution_status != highspy.kSolutionStatusFeasible:
        raise BuilderError(
            f"no plan was found in the time there is ({engine.modelStatusToString(status)})",
            "ask for fewer people, strands or blocks",
        )
    found = engine.getSolution().col_value
    values = tuple(
        float(round(value)) if is_whole else value
        for value, is_whole in zip(found, programme.wholes, strict=True)
    )
    ending = Ending.PROVEN if is_proven else Ending.UNPROVEN
    has_wholes = any(programme.wholes)
    bound = facts.mip_dual_bound if has_wholes else facts.objective_function_value
    return Answer(ending, values, facts.objective_function_value, bound)
