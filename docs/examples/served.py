"""For each head of a list: the chance that a plan ends with a fit, and which helmet leads. Needs lidladder in PATH."""

import csv
import json
import subprocess
import sys

for head in csv.DictReader(open(sys.argv[1], encoding="utf-8")):
    measures = [f"--{key}={head[key]}" for key in ("circumference", "length", "breadth")]
    run = subprocess.run(["lidladder", "plan", "--format", "json", *measures, *sys.argv[2:]], capture_output=True)
    if run.returncode == 2:
        sys.exit(run.stderr.decode())
    document = json.loads(run.stdout)
    plan, codes = document["plan"], [warning["code"] for warning in document["warnings"]]
    first = plan["first"]
    leads = f"{first['model']}/{first['size']}" if first else "nothing"
    print(f"{head['name']}: {1 - plan['no_fit_probability']:.0%} end with a fit; first {leads}", *codes, sep="  ")
