"""A plain planner for comparison: look-ahead over the table of outcomes with numpy, and no tricks.

    python3 plain_plan.py TABLE.json

The table is what `cargo bench --bench planner` writes: by candidate and row the outcome (0 fits, else the true
reason) and the minutes, the weight of each row, and the terms. At every step each candidate is tried on paper, with
every report that may follow and the best try after it. Up to 14 candidates this goes on to the last try, which gives
the best plan; beyond, the best by two tries is taken, and so on from every report. Prints CPU seconds of the solving
and writing the plan down (reading the table not counted), and the expected minutes of the plan, going without included.
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


def last_two(problem, rows, weight, candidate):
    """A try and the best one after each report, written down: (candidate, by report what next)."""
    left, heard = after(problem, rows, weight, candidate)
    costs = heard @ problem.last[left]
    stop = problem.go_without * heard.sum(axis=1)
    best = costs.argmin(axis=1)
    goes_on = costs[np.arange(problem.reasons), best] < stop
    return candidate, [(int(k), None) if on else None for k, on in zip(best, goes_on)]


def exact(problem, rows, weight, tried, tries):
    """Cost of the best plan, and the plan: everything is looked at."""
    best, plan = problem.go_without * weight.sum(), None
    for candidate in range(len(problem.outcome)):
        if candidate in tried:
            continue
        branches = None
        if tries == 1:
            cost = weight @ problem.last[rows, candidate]
        elif tries == 2:
            cost = two_tries(problem, rows, weight, candidate)
        else:
            cost = weight @ problem.minutes[candidate, rows]
            left, heard = after(problem, rows, weight, candidate)
            nexts = [exact(problem, left, report, tried | {candidate}, tries - 1) for report in heard]
            cost += sum(rest for rest, _ in nexts)
            branches = [plan for _, plan in nexts]
        if cost < best:
            best, plan = cost, (candidate, branches)
    if plan is not None and tries == 2:
        plan = last_two(problem, rows, weight, plan[0])
    return best, plan


def looking_ahead(problem, rows, weight, tried, tries):
    """Cost of the plan that takes the best try by two tries, and so on; and the plan."""
    if tries <= 2 or len(rows) == 0:
        return exact(problem, rows, weight, tried, min(tries, 2))
    untried = [candidate for candidate in range(len(problem.outcome)) if candidate not in tried]
    costs = [two_tries(problem, rows, weight, candidate) for candidate in untried]
    stop = problem.go_without * weight.sum()
    if min(costs) >= stop:
        return stop, None
    candidate = untried[int(np.argmin(costs))]
    cost = weight @ problem.minutes[candidate, rows]
    left, heard = after(problem, rows, weight, candidate)
    nexts = [looking_ahead(problem, left, report, tried | {candidate}, tries - 1) for report in heard]
    return cost + sum(rest for rest, _ in nexts), (candidate, [plan for _, plan in nexts])


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        problem = Problem(json.load(file))
    rows = np.arange(len(problem.weight))
    solve = exact if len(problem.outcome) <= EXACT_UP_TO else looking_ahead
    start = time.process_time()
    cost, _ = solve(problem, rows, problem.weight, frozenset(), problem.tries)
    print(time.process_time() - start, float(cost))


if __name__ == "__main__":
    main()
