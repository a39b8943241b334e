"""Works out Student-t intervals and Welch's test with SciPy and prints student.json.

    /usr/bin/python3 make.py > student.json
"""

import json

import numpy as np
import scipy
from scipy import stats

SEED, COUNT = 1908, 40


def case(rng):
    x, y = (
        [float("%.6g" % v) for v in rng.normal(rng.normal(0, 0.02), 0.001 * 40 ** rng.uniform(), rng.integers(2, 12))]
        for _ in range(2)
    )
    confidence = float(rng.choice([0.5, 0.9, 0.95, 0.99]))
    low, high = stats.t.interval(confidence, len(x) - 1, loc=np.mean(x), scale=stats.sem(x))
    welch = stats.ttest_ind(x, y, equal_var=False)
    vx, vy = stats.sem(x) ** 2, stats.sem(y) ** 2
    freedom = (vx + vy) ** 2 / (vx ** 2 / (len(x) - 1) + vy ** 2 / (len(y) - 1))
    # the interval, and the same p from it: SciPy's own degrees of freedom are these
    between = stats.t.interval(confidence, freedom, loc=np.mean(x) - np.mean(y), scale=np.sqrt(vx + vy))
    assert abs(2 * stats.t.sf(abs(welch.statistic), freedom) - welch.pvalue) < 1e-12
    return {
        "x": x, "y": y, "confidence": confidence,
        "mean": np.mean(x), "stderr": stats.sem(x), "low": low, "high": high,
        "welch_df": float(freedom), "welch_p": float(welch.pvalue),
        "welch_low": between[0], "welch_high": between[1],
    }


def main():
    rng = np.random.default_rng(SEED)
    cases = [case(rng) for _ in range(COUNT)]
    print("{")
    print(' "source": %s,' % json.dumps(
        "scipy.stats t.interval, sem and ttest_ind(equal_var=False) (SciPy %s), seed %d. Made by make.py beside this file."
        % (scipy.__version__, SEED)))
    print(' "units": "metres; the intervals are those of the mean of x, and of the mean of x less that of y",')
    print(' "cases": [')
    print(",\n".join("  " + json.dumps(c, allow_nan=False) for c in cases))
    print(" ]\n}")


if __name__ == "__main__":
    main()
