"""The peer libical: rules, whole calendar files, and what a calendar holds after several files
were brought into it. Instants are seconds since 1970."""

from datetime import datetime, timezone

from libical import components, expand as expand_rule, first, instant, lib, spans, text, time_of, version
from lines import serve, tz_release

# libical lists dates within a span; ours all lie in it.
FROM, TO = "20000101T000000Z", "20560101T000000Z"


def about(_):
    return {"version": version(), "zones": tz_release()}


def expand(question):
    """The first dates of a rule, on the wall."""
    start = datetime.fromisoformat(question["start"]).replace(tzinfo=timezone.utc)
    seconds = expand_rule(question["rule"], int(start.timestamp()), question["limit"])
    dates = [datetime.fromtimestamp(s, timezone.utc).isoformat()[:len("2027-01-04T10:30")] for s in seconds]
    return {"dates": dates}


def place(question):
    """Wall-clock times as seconds since 1970, by the machine's zone data."""
    zone = lib.icaltimezone_get_builtin_timezone(question["zone"].encode())
    wall = [t.replace("-", "").replace(":", "").encode() for t in question["times"]]
    return {"seconds": [lib.icaltime_as_timet_with_zone(lib.icaltime_from_string(t), zone) for t in wall]}


def calendar(question):
    """Every date of every event of a file, and what libical finds wrong with the file."""
    root = parse(question["ics"])
    return {"events": events(root), "problems": problems(root)}


def parse(ics):
    root = lib.icalparser_parse_string(ics.encode())
    if not root:
        raise ValueError("libical cannot parse the file")
    return root


def problems(root):
    found = []
    if lib.icalcomponent_count_errors(root):
        found.append(f"{lib.icalcomponent_count_errors(root)} errors in the syntax")
    # The table of RFC 5546 without a METHOD: which properties a component must and may have.
    if not lib.icalrestriction_check(root):
        found.append("a component lacks a property or has one too many")
    return found


def update(question):
    """Brings files into one calendar, by RFC 5546 2.1.5: an event is known by UID and
    RECURRENCE-ID; of two the one with the higher SEQUENCE counts, then the one with the later
    DTSTAMP. With whole, a newer event takes the place of the older one together with all its
    moved dates, as many calendars do."""
    root = lib.icalcomponent_new(lib.icalcomponent_string_to_kind(b"VCALENDAR"))
    for file in question["files"]:
        parsed = parse(file)
        take_zones(root, parsed)
        for event in components(parsed, "VEVENT"):
            take(root, parsed, event, question["whole"])
    return {"events": events(root)}


def take_zones(root, parsed):
    for zone in components(parsed, "VTIMEZONE"):
        for old in components(root, "VTIMEZONE"):
            if text(old, "TZID") == text(zone, "TZID"):
                lib.icalcomponent_remove_component(root, old)
        move(zone, parsed, root)


def move(component, source, target):
    lib.icalcomponent_remove_component(source, component)
    lib.icalcomponent_add_component(target, component)


def take(root, parsed, event, whole):
    uid, of = key(event)
    held = [other for other in components(root, "VEVENT") if key(other)[0] == uid]
    if any(key(other)[1] == of and age(event) < age(other) for other in held):
        return
    for other in held:
        if key(other)[1] == of or (whole and of is None and age(event) > age(other)):
            lib.icalcomponent_remove_component(root, other)
    move(event, parsed, root)


def key(event):
    of = time_of(event, "RECURRENCE-ID")
    return text(event, "UID"), instant(of) if of else None


def age(event):
    return int(text(event, "SEQUENCE") or 0), instant(time_of(event, "DTSTAMP"))


def events(root):
    """Every date once, a moved one where it was moved to."""
    all_events = components(root, "VEVENT")
    moved = {key(event): event for event in all_events if key(event)[1] is not None}
    seen, found = set(), []
    for event in all_events:
        uid, of = key(event)
        if of is not None:
            continue
        for start, end in spans(event, FROM, TO):
            if (uid, start) not in moved:
                found.append(one(event, start, end))
            seen.add((uid, start))
    for (uid, of), event in moved.items():
        start, end = instant(lib.icalcomponent_get_dtstart(event)), instant(lib.icalcomponent_get_dtend(event))
        # orphan: its rule no longer has the date it was moved from; a calendar still holds it.
        found.append({**one(event, start, end), "of": of, "orphan": (uid, of) not in seen})
    return found


def one(event, start, end):
    def said(kind, get):
        return get(first(event, kind)).decode() if first(event, kind) else ""

    stamp = time_of(event, "DTSTAMP")
    return {
        "uid": text(event, "UID"), "summary": said("SUMMARY", lib.icalproperty_get_summary),
        "description": said("DESCRIPTION", lib.icalproperty_get_description),
        "location": said("LOCATION", lib.icalproperty_get_location),
        "status": text(event, "STATUS"), "sequence": int(text(event, "SEQUENCE") or 0),
        "stamp": instant(stamp) if stamp else 0,
        "allDay": bool(lib.icalcomponent_get_dtstart(event).is_date), "start": start, "end": end,
        "alarms": [ringing(alarm, start, end) for alarm in components(event, "VALARM")],
    }


def ringing(alarm, start, end):
    """When an alarm rings: TRIGGER counts from the start unless RELATED says otherwise
    (RFC 5545 3.8.6.3)."""
    trigger = first(alarm, "TRIGGER")
    value = lib.icalproperty_get_trigger(trigger)
    if not lib.icaltime_is_null_time(value.time):
        return instant(value.time)
    related = lib.icalproperty_get_parameter_as_string(trigger, b"RELATED")
    return (end if related == b"END" else start) + lib.icaldurationtype_as_int(value.duration)


serve({"about": about, "expand": expand, "place": place, "calendar": calendar, "update": update})
