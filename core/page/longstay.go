package page

import (
	"sort"
	"time"

	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/split"
)

// longStay is how long somebody who does not live there may be with the patient on end before
// the page says so. Ours; no published source.
const longStay = 24 * time.Hour

// longStays says who would be with the patient for more than a day without a break: the
// programme prefers the same person, and whether that is too much is theirs to say.
func (m *maker) longStays(lines []split.Line) []string {
	to := map[int]uint8{}
	for i := range lines {
		to[lines[i].Duty] = lines[i].To
	}
	spans := make([][]schedule.Span, len(m.p.Helpers)+1)
	for _, f := range m.report().Findings {
		d := &m.s.Duties[f.Duty]
		who, suggested := to[f.Duty]
		if !suggested {
			who = f.Who
		}
		if own, known := m.p.AboutOf(who).Own(); isStay(d) && (own > 0 || !known) && int(who) < len(spans) {
			spans[who] = append(spans[who], schedule.Span{From: d.There.From, To: d.Ends.To})
		}
	}
	var said []string
	for who := 1; who < len(spans); who++ {
		if s := longest(spans[who]); s.To.Sub(s.From) > longStay {
			said = append(said, m.v.Say("suggest.long", arg("who", m.p.Helper(uint8(who))), arg("name", m.v.Patient(m.p)), arg("when", m.shortSpan(s.From, s.To))))
		}
	}
	return said
}

// isStay tells whether a duty is being with the patient at home, for a part of a day or a night.
func isStay(d *schedule.Duty) bool {
	return (d.IsSlot() || d.Family != nil && d.Family.Kind == plan.Nights) && d.There.Known() && d.Ends.Known()
}

// longest is the longest time that spans cover without a break.
func longest(spans []schedule.Span) (best schedule.Span) {
	sort.Slice(spans, func(i, j int) bool { return spans[i].From.Before(spans[j].From) })
	var run schedule.Span
	for _, s := range spans {
		if run.From.IsZero() || s.From.After(run.To) {
			run = s
		} else if s.To.After(run.To) {
			run.To = s.To
		}
		if run.To.Sub(run.From) > best.To.Sub(best.From) {
			best = run
		}
	}
	return best
}
