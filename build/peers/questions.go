package peers

import "time"

// Expand gives the first dates of a RECUR value from a start on, both on the wall and
// written like 2027-03-15T10:30; of libical at most some thousand.
func (p *Peer) Expand(rule, start string, limit int) ([]string, error) {
	var answer struct{ Dates []string }
	err := p.Ask("expand", map[string]any{"rule": rule, "start": start + ":00", "limit": limit}, &answer)
	return answer.Dates, err
}

// Place gives where times on the wall (2027-03-15T10:30) stand in a zone, in seconds
// since 1970. Only the Python peers know.
func (p *Peer) Place(zone string, times []string) ([]int64, error) {
	whole := make([]string, len(times))
	for i, t := range times {
		whole[i] = t + ":00"
	}
	var answer struct{ Seconds []int64 }
	err := p.Ask("place", map[string]any{"zone": zone, "times": whole}, &answer)
	return answer.Seconds, err
}

// Changes gives the seconds since 1970 at which a zone changes its clocks. Only
// Dateutil knows.
func (p *Peer) Changes(zone string, from, to time.Time) ([]int64, error) {
	var answer struct{ Seconds []int64 }
	err := p.Ask("changes", map[string]any{"zone": zone, "from": from.Unix(), "to": to.Unix()}, &answer)
	return answer.Seconds, err
}

// Event is one date of an event of a calendar, as a peer sees it. Times are seconds
// since 1970; those of whole days are midnights in UTC.
type Event struct {
	UID                            string
	Summary, Description, Location string
	Status                         string // CANCELLED, or what the file says
	Sequence                       int
	Stamp                          int64
	AllDay                         bool
	Start, End                     int64 // End is the first second that is not in it
	Alarms                         []int64
	Of                             *int64 // RECURRENCE-ID, of a date that was moved
	Orphan                         bool   // moved from a date that the event's rule does not have
}

// limit is more than the dates that any event of ours has.
const limit = 1100

// Calendar gives every date of every event of a file, and what the peer finds wrong
// with the file. Only IcalJS and Libical know.
func (p *Peer) Calendar(ics string) (events []Event, problems []string, err error) {
	var answer struct {
		Events   []Event
		Problems []string
	}
	err = p.Ask("calendar", map[string]any{"ics": ics, "limit": limit}, &answer)
	return answer.Events, answer.Problems, err
}

// Update gives what a calendar holds after files were brought into it one after the
// other (RFC 5546 2.1.5). Calendars differ in one thing, and whole chooses: whether a
// newer event replaces the older one with all its moved dates, or only itself.
func (p *Peer) Update(whole bool, files ...string) ([]Event, error) {
	var answer struct{ Events []Event }
	err := p.Ask("update", map[string]any{"files": files, "whole": whole, "limit": limit}, &answer)
	return answer.Events, err
}
