// The peer ical.js: rules, whole calendar files, and what a calendar holds after several
// files were brought into it, all in ical.js's own model.

import ICAL from "ical.js";
import { readEvents } from "./icaljs_events.mjs";
import { rounds, serve, version } from "./lines.mjs";

serve({ about, expand, calendar, update, time });

function about() {
  return { version: version("ical.js") };
}

/** The first dates of a rule, on the wall. */
function expand({ rule, start, limit }) {
  const iterator = ICAL.Recur.fromString(rule).iterator(ICAL.Time.fromDateTimeString(`${start}Z`));
  const dates = [];
  for (let next = iterator.next(); next && dates.length < limit; next = iterator.next()) {
    dates.push(next.toString().slice(0, "2027-01-04T10:30".length));
  }
  return { dates };
}

/** Every date of every event of a file. */
function calendar({ ics, limit }) {
  return { events: readEvents(ICAL.Component.fromString(ics), limit) };
}

/**
 * Brings files into one calendar, one after the other, and lists what it holds then. By
 * RFC 5546 2.1.5 an event is known by UID and RECURRENCE-ID; of two the one with the higher
 * SEQUENCE counts, then the one with the later DTSTAMP. With whole, a newer event takes the
 * place of the older one together with all its moved dates, as many calendars do.
 */
function update({ files, whole, limit }) {
  let held = [];
  const root = new ICAL.Component("vcalendar");
  for (const file of files) {
    const parsed = ICAL.Component.fromString(file);
    takeZones(root, parsed);
    for (const event of parsed.getAllSubcomponents("vevent")) held = take(held, event, whole);
  }
  for (const event of held) root.addSubcomponent(event);
  return { events: readEvents(root, limit) };
}

function takeZones(root, parsed) {
  for (const zone of parsed.getAllSubcomponents("vtimezone")) {
    const name = zone.getFirstPropertyValue("tzid");
    const old = root.getAllSubcomponents("vtimezone").find((z) => z.getFirstPropertyValue("tzid") === name);
    if (old) root.removeSubcomponent(old);
    root.addSubcomponent(zone);
  }
}

function take(held, event, whole) {
  const [uid, of] = key(event);
  const old = held.find((other) => key(other)[0] === uid && key(other)[1] === of);
  if (old && newer(event, old) < 0) return held;
  const gone = (other) => key(other)[0] === uid && (key(other)[1] === of || (whole && of === "" && newer(event, other) > 0));
  return [...held.filter((other) => !gone(other)), event];
}

function key(event) {
  const of = event.getFirstPropertyValue("recurrence-id");
  return [event.getFirstPropertyValue("uid"), of ? String(of.toUnixTime()) : ""];
}

function newer(a, b) {
  const sequence = (event) => event.getFirstPropertyValue("sequence") ?? 0;
  const stamp = (event) => event.getFirstPropertyValue("dtstamp").toUnixTime();
  return sequence(a) - sequence(b) || stamp(a) - stamp(b);
}

/**
 * Times listing all dates of all rules as seconds. With a VTIMEZONE each date is placed in
 * it; without one the dates stay on the wall, which is less work.
 */
function time({ rules, zone, count }) {
  const events = rules.map((rule) => prepare(rule, zone));
  let dates = 0;
  let sum = 0;
  const work = () => {
    dates = sum = 0;
    for (const event of events) {
      const iterator = event.iterator();
      for (let next = iterator.next(); next; next = iterator.next()) {
        dates++;
        sum += next.toUnixTime();
      }
    }
  };
  return { ms: rounds(count, work), dates, sum };
}

function prepare({ rule, start, skipped }, zone) {
  const name = /TZID:(.*)/.exec(zone)?.[1].trim();
  const at = (wall) => `${name ? `;TZID=${name}` : ""}:${wall.replaceAll(/[-:]/g, "")}`;
  const lines = ["BEGIN:VCALENDAR", zone, "BEGIN:VEVENT", `DTSTART${at(start)}`, `RRULE:${rule}`,
    ...skipped.map((wall) => `EXDATE${at(wall)}`), "END:VEVENT", "END:VCALENDAR"];
  const root = ICAL.Component.fromString(lines.filter(Boolean).join("\r\n"));
  return new ICAL.Event(root.getFirstSubcomponent("vevent"));
}
