"""The peer python-dateutil with Python's own zoneinfo: rules, and where a time on the wall
stands in a zone."""

from datetime import datetime, timezone
from zoneinfo import ZoneInfo

import dateutil
from dateutil.rrule import rrulestr, rruleset
from lines import rounds, serve, tz_release


def about(_):
    return {"version": dateutil.__version__, "zones": tz_release()}


def expand(question):
    """The first dates of a rule, on the wall."""
    start = datetime.fromisoformat(question["start"]).replace(tzinfo=timezone.utc)
    dates = []
    for date in rrulestr(question["rule"], dtstart=start):
        if len(dates) == question["limit"]:
            break
        dates.append(date.isoformat()[:len("2027-01-04T10:30")])
    return {"dates": dates}


def place(question):
    """Wall-clock times as seconds since 1970.

    fold=0 is Python's name for what RFC 5545 3.3.5 asks: the first of two, and before a gap
    the offset that held until then (PEP 495).
    """
    zone = ZoneInfo(question["zone"])
    times = [datetime.fromisoformat(wall).replace(tzinfo=zone, fold=0) for wall in question["times"]]
    back = [t.astimezone(timezone.utc).astimezone(zone).isoformat()[:len("2027-01-04T10:30")] for t in times]
    return {"seconds": [int(t.timestamp()) for t in times], "shown": back}


def changes(question):
    """The seconds in a span at which a zone's clocks change. It looks at each day, then halves
    the days in which the offset differs; no zone changes and changes back within a day."""
    zone = ZoneInfo(question["zone"])

    def offset(second):
        return datetime.fromtimestamp(second, zone).utcoffset()

    def halve(low, high):
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (middle, high) if offset(middle) == offset(low) else (low, middle)
        return high

    days = range(question["from"], question["to"], 86400)
    return {"seconds": [halve(day, day + 86400) for day in days if offset(day) != offset(day + 86400)]}


def timed(question):
    """Times listing all dates of all rules as seconds, in a zone where one is given."""
    zone = ZoneInfo(question["zone"]) if question["zone"] else timezone.utc
    lists = [prepare(rule, zone) for rule in question["rules"]]
    total = {}

    def work():
        seconds = [date.timestamp() for dates in lists for date in dates]
        total["dates"], total["sum"] = len(seconds), int(sum(seconds))

    return {"ms": rounds(question["count"], work), **total}


def prepare(rule, zone):
    start = datetime.fromisoformat(rule["start"]).replace(tzinfo=zone)
    parsed = rrulestr(rule["rule"], dtstart=start)
    if not rule["skipped"]:
        return parsed  # the set is slower
    dates = rruleset()
    dates.rrule(parsed)
    for wall in rule["skipped"]:
        dates.exdate(datetime.fromisoformat(wall).replace(tzinfo=zone))
    return dates


serve({"about": about, "expand": expand, "place": place, "changes": changes, "time": timed})
