"""A plain planner for comparison: look-ahead over the table of outcomes with numpy, and no tricks.

    python3 plain_plan.py TABLE.json

The table is what `cargo bench --bench planner` writes: by candidate and row the outcome (0 fits, else the true
reason) and the minutes, the weight of each row, and the terms. At every step each candidate is tried on paper, with
every report that may follow and the best try after it. Up to 14 candidates this goes on to the last try, which gives
the best plan; beyond, the best by two tries is taken, and so on from every report. Prints CPU seconds of the solving
(reading not counted) and the expected minutes of the plan, going without included.
"""

import json
import sys
import time

import numpy as np

EXACT_UP_TO = 14


class Problem:
    def __init__(self, table):
        self.weight = np.array(table["weight"])
        self.outcome = np.array(table["outcome"], dtype=np.int64)
        self.minutes = np.array(table["minutes"])
        self.tries = table["tries"]
        self.go_without = table["go_without"]
        reasons = table["reasons"]
        self.reasons = reasons
        # likelihood[report - 1, truth]; a fit is never reported as a failure.
        stray = table["misreport"] / (reasons - 1)
        self.likelihood = np.full((reasons, reasons + 1), stray)
        self.likelihood[:, 0] = 0.0
        for reason in range(reasons):
            self.likelihood[reason, reason + 1] = 1.0 - table["misreport"]
        # What a last try costs: its minutes, and going without where it fails.
        self.last = (self.minutes + self.go_without * (self.outcome > 0)).T.copy()


def after(problem, rows, weight, candidate):
    """Rows that fail, and their weight after each report."""
    truth = problem.outcome[candidate, rows]
    fails = truth > 0
    return rows[fails], problem.likelihood[:, truth[fails]] * weight[fails]


def two_tries(problem, rows, weight, candidate):
    """Cost of a try and the best one after each report."""
    spent = weight @ problem.minutes[candidate, rows]
    left, heard = after(problem, rows, weight, candidate)
    best = (heard @ problem.last[left]).min(axis=1)
    stop = problem.go_without * heard.sum(axis=1)
    return spent + np.minimum(best, stop).sum()


def exact(problem, rows, weight, tried, tries):
    """Cost of the best plan: everything is looked at."""
    best = problem.go_without * weight.sum()
    for candidate in range(len(problem.outcome)):
        if candidate in tried:
            continue
        if tries == 1:
            cost = weight @ problem.last[rows, candidate]
        elif tries == 2:
            cost = two_tries(problem, rows, weight, candidate)
        else:
            cost = weight @ problem.minutes[candidate, rows]
            left, heard = after(problem, rows, weight, candidate)
            for report in heard:
                cost += exact(problem, left, report, tried | {candidate}, tries - 1)
        best = min(best, cost)
    return best


def looking_ahead(problem, rows, weight, tried, tries):
    """Cost of the plan that takes the best try by two tries, and so on."""
    if tries <= 2 or len(rows) == 0:
        return exact(problem, rows, weight, tried, min(tries, 2))
    untried = [candidate for candidate in range(len(problem.outcome)) if candidate not in tried]
    costs = [two_tries(problem, rows, weight, candidate) for candidate in untried]
    stop = problem.go_without * weight.sum()
    if min(costs) >= stop:
        return stop
    candidate = untried[int(np.argmin(costs))]
    cost = weight @ problem.minutes[candidate, rows]
    left, heard = after(problem, rows, weight, candidate)
    for report in heard:
        cost += looking_ahead(problem, left, report, tried | {candidate}, tries - 1)
    return cost


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        problem = Problem(json.load(file))
    rows = np.arange(len(problem.weight))
    solve = exact if len(problem.outcome) <= EXACT_UP_TO else looking_ahead
    start = time.process_time()
    cost = solve(problem, rows, problem.weight, frozenset(), problem.tries)
    print(time.process_time() - start, float(cost))


if __name__ == "__main__":
    main()
