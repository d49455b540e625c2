// Lists the events of a calendar as ical.js sees them: every date once, a moved one where it
// was moved to. Instants are seconds since 1970.

import ICAL from "ical.js";

/** Every date of every event below a VCALENDAR, at most limit for each event. */
export function readEvents(root, limit) {
  const components = root.getAllSubcomponents("vevent");
  const masters = components.filter((event) => !event.hasProperty("recurrence-id"));
  const moved = components.filter((event) => event.hasProperty("recurrence-id"));
  const seen = new Set();
  const found = [];
  for (const component of masters) {
    const uid = component.getFirstPropertyValue("uid");
    const event = new ICAL.Event(component, {
      strictExceptions: true, exceptions: moved.filter((other) => other.getFirstPropertyValue("uid") === uid),
    });
    found.push(...dates(event, limit, seen));
  }
  // A moved date whose rule no longer has the date it was moved from: a calendar still holds it.
  for (const component of moved.filter((other) => !seen.has(other))) {
    const event = new ICAL.Event(component);
    found.push({ ...one(event, event.startDate, event.endDate), of: event.recurrenceId.toUnixTime(), orphan: true });
  }
  return found;
}

function dates(event, limit, seen) {
  const found = [];
  const iterator = event.iterator();
  for (let next = iterator.next(); next && found.length < limit; next = iterator.next()) {
    const { item, startDate, endDate, recurrenceId } = event.getOccurrenceDetails(next);
    seen.add(item.component);
    const moved = item !== event && { of: recurrenceId.toUnixTime() };
    found.push({ ...one(item, startDate, endDate), ...moved });
  }
  return found;
}

function one(item, start, end) {
  const value = (name) => item.component.getFirstPropertyValue(name);
  return {
    uid: item.uid, summary: item.summary ?? "", description: item.description ?? "", location: item.location ?? "",
    status: value("status") ?? "", sequence: value("sequence") ?? 0, stamp: value("dtstamp")?.toUnixTime() ?? 0,
    allDay: start.isDate, start: start.toUnixTime(), end: end.toUnixTime(),
    alarms: item.component.getAllSubcomponents("valarm").map((alarm) => ringing(alarm, start, end)),
  };
}

/** When an alarm rings: its TRIGGER counts from the start unless RELATED says otherwise (RFC 5545 3.8.6.3). */
function ringing(alarm, start, end) {
  const trigger = alarm.getFirstProperty("trigger");
  const value = trigger.getFirstValue();
  if (value instanceof ICAL.Time) return value.toUnixTime();
  const from = trigger.getParameter("related") === "END" ? end : start;
  return from.toUnixTime() + value.toSeconds();
}
