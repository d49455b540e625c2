// The peer rrule.js: rules only. It knows no calendar files, and it lists wall-clock dates in
// UTC, which is what its own documentation advises.

import rrule from "rrule";
import { rounds, serve, version } from "./lines.mjs";

const { RRule, RRuleSet } = rrule;

serve({ about, expand, time });

function about() {
  return { version: version("rrule") };
}

/** The first dates of a rule, on the wall. */
function expand({ rule, start, limit }) {
  const dates = [];
  if (limit > 0) {
    parse(rule, start).all((date) => {
      dates.push(date.toISOString().slice(0, "2027-01-04T10:30".length));
      return dates.length < limit;
    });
  }
  return { dates };
}

function parse(rule, start) {
  // true: it must not remember the dates of an earlier call.
  return new RRule({ ...RRule.parseString(rule), dtstart: new Date(`${start}Z`) }, true);
}

/** Times listing all dates of all rules as seconds on the wall, without a zone. */
function time({ rules, count }) {
  const sets = rules.map(prepare);
  let dates = 0;
  let sum = 0;
  const work = () => {
    dates = sum = 0;
    for (const set of sets) {
      for (const date of set.all()) {
        dates++;
        sum += date.getTime() / 1000;
      }
    }
  };
  return { ms: rounds(count, work), dates, sum };
}

function prepare({ rule, start, skipped }) {
  if (skipped.length === 0) return parse(rule, start); // the set is slower
  const set = new RRuleSet(true);
  set.rrule(parse(rule, start));
  for (const wall of skipped) set.exdate(new Date(`${wall}Z`));
  return set;
}
