"""The library libical (Debian's libical3), called through ctypes: its C names are kept, so
that its own manual explains them. Used by the peer in libical_peer.py."""

import ctypes
from ctypes import CFUNCTYPE, POINTER, Structure, c_char_p, c_int, c_longlong, c_void_p

# Debian has it under this name whatever the package is called (libical3, libical3t64).
LIBRARY = "libical.so.3"
MAX_COUNT = 1100  # more than any rule of ours has dates


class icaltimetype(Structure):
    """A time as libical holds it; zone is NULL on the wall, and UTC's own for Z."""
    _fields_ = [(name, c_int) for name in
                ("year", "month", "day", "hour", "minute", "second", "is_date", "is_daylight")] + [("zone", c_void_p)]


class icaltime_span(Structure):
    _fields_ = [("start", c_longlong), ("end", c_longlong), ("is_busy", c_int)]


class icaldurationtype(Structure):
    _fields_ = [(name, ctypes.c_uint if name != "is_neg" else c_int)
                for name in ("is_neg", "days", "weeks", "hours", "minutes", "seconds")]


class icaltriggertype(Structure):
    _fields_ = [("time", icaltimetype), ("duration", icaldurationtype)]


callback = CFUNCTYPE(None, c_void_p, POINTER(icaltime_span), c_void_p)

_SIGNATURES = {
    "icalrecur_expand_recurrence": (c_int, [c_char_p, c_longlong, c_int, POINTER(c_longlong)]),
    "icalparser_parse_string": (c_void_p, [c_char_p]),
    "icalcomponent_new": (c_void_p, [c_int]),
    "icalcomponent_free": (None, [c_void_p]),
    "icalcomponent_count_errors": (c_int, [c_void_p]),
    "icalcomponent_isa": (c_int, [c_void_p]),
    "icalcomponent_string_to_kind": (c_int, [c_char_p]),
    "icalcomponent_get_first_component": (c_void_p, [c_void_p, c_int]),
    "icalcomponent_get_next_component": (c_void_p, [c_void_p, c_int]),
    "icalcomponent_get_first_property": (c_void_p, [c_void_p, c_int]),
    "icalcomponent_get_next_property": (c_void_p, [c_void_p, c_int]),
    "icalcomponent_add_component": (None, [c_void_p, c_void_p]),
    "icalcomponent_remove_component": (None, [c_void_p, c_void_p]),
    "icalcomponent_add_property": (None, [c_void_p, c_void_p]),
    "icalcomponent_remove_property": (None, [c_void_p, c_void_p]),
    "icalcomponent_get_dtstart": (icaltimetype, [c_void_p]),
    "icalcomponent_get_dtend": (icaltimetype, [c_void_p]),
    "icalcomponent_foreach_recurrence": (None, [c_void_p, icaltimetype, icaltimetype, callback, c_void_p]),
    "icalproperty_string_to_kind": (c_int, [c_char_p]),
    "icalproperty_get_value_as_string": (c_char_p, [c_void_p]),
    "icalproperty_get_parameter_as_string": (c_char_p, [c_void_p, c_char_p]),
    "icalproperty_get_datetime_with_component": (icaltimetype, [c_void_p, c_void_p]),
    "icalproperty_get_trigger": (icaltriggertype, [c_void_p]),
    "icalproperty_get_summary": (c_char_p, [c_void_p]),
    "icalproperty_get_description": (c_char_p, [c_void_p]),
    "icalproperty_get_location": (c_char_p, [c_void_p]),
    "icalrestriction_check": (c_int, [c_void_p]),
    "icaldurationtype_as_int": (c_int, [icaldurationtype]),
    "icaltime_as_timet_with_zone": (c_longlong, [icaltimetype, c_void_p]),
    "icaltime_from_string": (icaltimetype, [c_char_p]),
    "icaltime_is_null_time": (c_int, [icaltimetype]),
    "icaltimezone_get_builtin_timezone": (c_void_p, [c_char_p]),
    "icaltimezone_get_utc_timezone": (c_void_p, []),
}


def load():
    lib = ctypes.CDLL(LIBRARY)
    for name, (result, arguments) in _SIGNATURES.items():
        function = getattr(lib, name)
        function.restype, function.argtypes = result, arguments
    return lib


lib = load()


def version():
    """libical tells its version only in the name of its file."""
    with open("/proc/self/maps", encoding="utf-8") as maps:
        return next(line.rpartition(".so.")[2].strip() for line in maps if "/libical.so." in line)


def components(parent, kind):
    """The components of a kind directly below another."""
    number = lib.icalcomponent_string_to_kind(kind.encode())
    found = []
    one = lib.icalcomponent_get_first_component(parent, number)
    while one:
        found.append(one)
        one = lib.icalcomponent_get_next_component(parent, number)
    return found


def properties(component, kind):
    """All properties of a kind."""
    number = lib.icalproperty_string_to_kind(kind.encode())
    found = []
    one = lib.icalcomponent_get_first_property(component, number)
    while one:
        found.append(one)
        one = lib.icalcomponent_get_next_property(component, number)
    return found


def first(component, kind):
    """The first property of a kind, or None."""
    return lib.icalcomponent_get_first_property(component, lib.icalproperty_string_to_kind(kind.encode()))


def text(component, kind):
    """The value of the first property of a kind as it stands in the file, or ""."""
    found = first(component, kind)
    return lib.icalproperty_get_value_as_string(found).decode() if found else ""


def instant(time):
    """Seconds since 1970 of a time in its own zone."""
    return lib.icaltime_as_timet_with_zone(time, time.zone or lib.icaltimezone_get_utc_timezone())


def time_of(component, kind):
    """The time of the first property of a kind, with its zone from the file, or None."""
    found = first(component, kind)
    return lib.icalproperty_get_datetime_with_component(found, component) if found else None


def expand(rule, start, limit):
    """The first dates of a rule, as seconds; start too."""
    dates = (c_longlong * MAX_COUNT)()
    lib.icalrecur_expand_recurrence(rule.encode(), start, min(limit, MAX_COUNT), dates)
    return [date for date in dates[:limit] if date]


def spans(event, start, end):
    """Start and end of every date of an event's rule, EXDATE and RDATE seen to.

    libical 3.0.16 forgets the TZID of an RDATE here and reads it as UTC (the file is right by
    RFC 5545 3.8.5.2), and it counts the DTEND of whole days as one of them (3.6.1: it is not).
    So the dates of RDATE are taken out while it lists the others, and whole days end at DTEND.
    """
    extra = properties(event, "RDATE")
    for one in extra:
        lib.icalcomponent_remove_property(event, one)
    found = []
    keep = callback(lambda _, span, __: found.append((span.contents.start, span.contents.end)))
    lib.icalcomponent_foreach_recurrence(
        event, lib.icaltime_from_string(start.encode()), lib.icaltime_from_string(end.encode()), keep, None)
    for one in extra:
        lib.icalcomponent_add_property(event, one)
    long = length(event)
    at = [instant(lib.icalproperty_get_datetime_with_component(one, event)) for one in extra]
    found += [(second, second + long) for second in at]
    if lib.icalcomponent_get_dtstart(event).is_date:
        found = [(first, first + long) for first, _ in found]
    return found


def length(event):
    """Seconds from an event's DTSTART to its end."""
    return instant(lib.icalcomponent_get_dtend(event)) - instant(lib.icalcomponent_get_dtstart(event))
