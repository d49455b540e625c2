"""How a peer under Python talks: a question on each line of standard input, an answer on
each line of standard output, both JSON. A question names what it asks for in "op"."""

import json
import sys
import time
import traceback

WARM_UP = 0.3  # seconds; the same as build/bench/timing
STRETCH = 0.1


def serve(answers):
    """Answers every question with the function of that name, until the input ends."""
    for line in sys.stdin:
        print(json.dumps(answer(answers, line)), flush=True)


def answer(answers, line):
    try:
        question = json.loads(line)
        return answers[question["op"]](question)
    except Exception:  # a library that throws is a finding, not the end of the run
        return {"fault": traceback.format_exc()}


def tz_release():
    """The release of the machine's time zone data (Debian's package tzdata)."""
    with open("/usr/share/zoneinfo/tzdata.zi", encoding="utf-8") as file:
        return file.readline().removeprefix("# version ").strip()


def rounds(count, work):
    """Times work as build/bench/timing does: milliseconds of one call, once for each round."""
    _run(WARM_UP, work)
    return [_run(STRETCH, work) for _ in range(count)]


def _run(long, work):
    start, calls, passed = time.perf_counter(), 0, 0.0
    while passed < long:
        work()
        calls += 1
        passed = time.perf_counter() - start
    return passed * 1000 / calls
