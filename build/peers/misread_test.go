package peers

// misread is what the readers get wrong in everybody's file of a family, in full: the
// key is the reader and the zone. The duties at 00:20, 01:40 and 02:15 in
// families_test.go are there to show it. Three sentences of RFC 5545 decide:
//
// 3.3.5, "If the local time described occurs more than once (when changing from daylight
// to standard time), the DATE-TIME value refers to the first occurrence of the
// referenced time." ical.js 2.2.1 and libical 3.0.16 take the second: Casablanca on 7
// February, New York on 1 November, Lord Howe on 4 April.
//
// 3.8.5.3, "If the duration of the recurring component is specified with the DTEND or DUE
// property, the same exact duration will apply to all the members of the generated
// recurrence set." ical.js adds it on the wall, so a ride during which the clocks go
// forward ends an hour early: Berlin on 28 March.
//
// 3.3.10, "If the computed local start time of a recurrence instance does not exist … the
// time of the recurrence instance is interpreted in the same manner as an explicit
// DATE-TIME value describing that date and time" (and elsewhere there, that it is left
// out). The file takes the date out by EXDATE and has it as an event of its own. libical
// moves the rule's date on by an hour, past its EXDATE, so that it stands there twice,
// and then moves the next day's too, which no sentence asks for.
var misread = map[string]mistake{
	"icaljs.mjs Africa/Casablanca": {
		loses: []string{"2027-02-07T01:15Z/2027-02-07T01:30Z"},
		shows: []string{"2027-02-07T02:15Z/2027-02-07T02:30Z"},
	},
	"icaljs.mjs America/New_York": {
		loses: []string{"2026-11-01T05:40Z/2026-11-01T05:55Z"},
		shows: []string{"2026-11-01T06:40Z/2026-11-01T06:55Z"},
	},
	"icaljs.mjs Australia/Lord_Howe": {
		loses: []string{"2027-04-03T14:40Z/2027-04-03T14:55Z"},
		shows: []string{"2027-04-03T15:10Z/2027-04-03T15:25Z"},
	},
	"icaljs.mjs Europe/Berlin": {
		loses: []string{"2027-03-27T22:10Z/2027-03-28T01:45Z"},
		shows: []string{"2027-03-27T22:10Z/2027-03-28T00:45Z"},
	},
	"libical_peer.py Africa/Casablanca": {
		loses: []string{"2027-02-07T01:15Z/2027-02-07T01:30Z", "2027-03-15T01:15Z/2027-03-15T01:30Z"},
		shows: []string{"2027-02-07T02:15Z/2027-02-07T02:30Z", "2027-03-14T02:15Z/2027-03-14T02:30Z", "2027-03-15T02:15Z/2027-03-15T02:30Z"},
	},
	"libical_peer.py America/Chicago": {
		loses: []string{"2027-03-15T07:15Z/2027-03-15T07:30Z"},
		shows: []string{"2027-03-14T08:15Z/2027-03-14T08:30Z", "2027-03-15T08:15Z/2027-03-15T08:30Z"},
	},
	"libical_peer.py America/Havana": {
		loses: []string{"2027-03-15T04:20Z/2027-03-15T04:45Z"},
		shows: []string{"2027-03-14T05:20Z/2027-03-14T05:45Z", "2027-03-15T05:20Z/2027-03-15T05:45Z"},
	},
	"libical_peer.py America/New_York": {
		loses: []string{"2026-11-01T05:40Z/2026-11-01T05:55Z"},
		shows: []string{"2026-11-01T06:40Z/2026-11-01T06:55Z"},
	},
	"libical_peer.py America/Santiago": {
		loses: []string{"2026-09-07T03:20Z/2026-09-07T03:45Z"},
		shows: []string{"2026-09-06T04:20Z/2026-09-06T04:45Z", "2026-09-07T04:20Z/2026-09-07T04:45Z"},
	},
	"libical_peer.py Australia/Adelaide": {
		loses: []string{"2026-10-04T15:45Z/2026-10-04T16:00Z"},
		shows: []string{"2026-10-03T16:45Z/2026-10-03T17:00Z", "2026-10-04T16:45Z/2026-10-04T17:00Z"},
	},
	"libical_peer.py Australia/Lord_Howe": {
		loses: []string{"2027-04-03T14:40Z/2027-04-03T14:55Z"},
		shows: []string{"2027-04-03T15:10Z/2027-04-03T15:25Z"},
	},
	"libical_peer.py Europe/Berlin": {
		loses: []string{"2027-03-29T00:15Z/2027-03-29T00:30Z"},
		shows: []string{"2027-03-28T01:15Z/2027-03-28T01:30Z", "2027-03-29T01:15Z/2027-03-29T01:30Z"},
	},
}
