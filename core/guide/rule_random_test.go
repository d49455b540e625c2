package guide

import (
	"math/rand"
	"slices"
	"testing"
	"time"

	"newel/core/repeat"
	"newel/core/wall"
)

// oneOf chooses.
func oneOf[T any](rnd *rand.Rand, list ...T) T { return list[rnd.Intn(len(list))] }

// randomRule makes a rule of any kind near the year 2027.
func randomRule(rnd *rand.Rand, t *testing.T) repeat.Rule {
	r := repeat.Rule{
		First: day(t, "2026-10-01") + wall.Date(rnd.Intn(500)), At: wall.Clock(oneOf(rnd, 0, 720, 630, rnd.Intn(1440))),
		Freq: repeat.Freq(rnd.Intn(4)), Every: oneOf(rnd, 1, 1, 2, 3, 12, 24, 1+rnd.Intn(repeat.MaxEvery)),
		Days: repeat.Days(1 + rnd.Intn(int(repeat.AllDays))), Week: time.Weekday(rnd.Intn(7)),
	}
	for range 1 + rnd.Intn(3) {
		if rnd.Intn(2) == 0 && r.Nth == nil || r.MonthDays != nil {
			r.MonthDays = append(r.MonthDays, int8(oneOf(rnd, 1, -1)*(1+rnd.Intn(31))))
		} else {
			r.Nth = append(r.Nth, repeat.Nth{N: int8(rnd.Intn(11) - 5), Day: time.Weekday(rnd.Intn(7))})
		}
	}
	switch r = r.Canonical(); rnd.Intn(4) {
	case 0:
		r.Count = 1 + rnd.Intn(40)
	case 1:
		r.Last = r.First + wall.Date(rnd.Intn(200))
	case 2:
		r.Last = r.First + wall.Date(7*(1+rnd.Intn(20))-1)
	}
	return withExceptions(rnd, r).Canonical()
}

// withExceptions adds dates that fall out, move or come on top.
func withExceptions(rnd *rand.Rand, r repeat.Rule) repeat.Rule {
	days, _ := r.Canonical().Pattern()
	near := func() repeat.Moment {
		at := oneOf(rnd, r.At, 0, 720, wall.Clock(rnd.Intn(1440)))
		return repeat.Moment{Day: oneOf(rnd, r.First+wall.Date(rnd.Intn(80)), oneOf(rnd, days...)), At: at}
	}
	if rnd.Intn(2) == 0 {
		for range rnd.Intn(4) {
			r.Skipped = append(r.Skipped, oneOf(rnd, days...))
		}
		for range rnd.Intn(3) {
			r.Moved = append(r.Moved, repeat.Move{From: oneOf(rnd, days...), To: near()})
		}
		for range rnd.Intn(3) {
			r.Extra = append(r.Extra, near())
		}
	}
	return r
}

// family is a rule with those that differ from it by the least that a part of a rule
// can differ by. Not all of them are sound.
type family struct {
	of  repeat.Rule
	all []repeat.Rule
}

func familyOf(r repeat.Rule) []repeat.Rule {
	f := &family{of: r}
	f.with(func(*repeat.Rule) {})
	f.fields()
	f.later()
	f.ends()
	f.months()
	f.lists()
	return f.all
}

func (f *family) with(change func(r *repeat.Rule)) {
	r := f.of
	r.MonthDays, r.Nth = slices.Clone(r.MonthDays), slices.Clone(r.Nth)
	r.Skipped, r.Moved, r.Extra = slices.Clone(r.Skipped), slices.Clone(r.Moved), slices.Clone(r.Extra)
	change(&r)
	f.all = append(f.all, r)
}

func (f *family) fields() {
	for _, step := range []int{-1, 1} {
		f.with(func(r *repeat.Rule) { r.First += wall.Date(step) })
		f.with(func(r *repeat.Rule) { r.First += wall.Date(365 * step) })
		f.with(func(r *repeat.Rule) { r.At += wall.Clock(step) })
		f.with(func(r *repeat.Rule) { r.At += wall.Clock(720 * step) })
		f.with(func(r *repeat.Rule) { r.Freq += repeat.Freq(step) })
		f.with(func(r *repeat.Rule) { r.Every += step })
		f.with(func(r *repeat.Rule) { r.Every += 12 * step })
		f.with(func(r *repeat.Rule) { r.Count += step })
		f.with(func(r *repeat.Rule) { r.Last += wall.Date(step) })
		f.with(func(r *repeat.Rule) { r.Last += wall.Date(7 * step) })
	}
	for d := range time.Weekday(7) {
		f.with(func(r *repeat.Rule) { r.Week = d })
		f.with(func(r *repeat.Rule) { r.Days ^= repeat.DaysOf(d) })
	}
}

// again is 28 years: within this century each day of the month is on the same day of
// the week again after them, so that only the year tells the two apart.
const again = 28*365 + 7

// later puts the whole rule 28 years on.
func (f *family) later() {
	f.with(func(r *repeat.Rule) {
		r.First += again
		if r.Last != 0 {
			r.Last += again
		}
		for i := range r.Skipped {
			r.Skipped[i] += again
		}
		for i := range r.Moved {
			r.Moved[i].From += again
			r.Moved[i].To.Day += again
		}
		for i := range r.Extra {
			r.Extra[i].Day += again
		}
	})
}

// ends gives rules with other ends, among them those that have the same dates.
func (f *family) ends() {
	days, _ := f.of.Pattern()
	end := func(count int, last wall.Date) {
		f.with(func(r *repeat.Rule) { r.Count, r.Last = count, last })
	}
	last := days[len(days)-1]
	end(0, 0)
	end(len(days), 0)
	end(0, last)
	end(0, last-(last-f.of.First)%7+6)
	end(0, f.of.First+repeat.Year)
	f.with(func(r *repeat.Rule) { r.Count, r.Skipped = r.Count+1, append(r.Skipped, last) })
	f.with(func(r *repeat.Rule) { r.Extra = append(r.Extra, repeat.Moment{Day: last + 1, At: r.At}) })
}

func (f *family) months() {
	for i := range f.of.MonthDays {
		f.with(func(r *repeat.Rule) { r.MonthDays[i]++ })
		f.with(func(r *repeat.Rule) { r.MonthDays[i]-- })
		f.with(func(r *repeat.Rule) { r.MonthDays[i] = -r.MonthDays[i] })
		f.with(func(r *repeat.Rule) { r.MonthDays = slices.Delete(r.MonthDays, i, i+1) })
	}
	for i := range f.of.Nth {
		f.with(func(r *repeat.Rule) { r.Nth[i].N++ })
		f.with(func(r *repeat.Rule) { r.Nth[i].N-- })
		f.with(func(r *repeat.Rule) { r.Nth[i].N = -r.Nth[i].N })
		f.with(func(r *repeat.Rule) { r.Nth[i].N = 0 })
		f.with(func(r *repeat.Rule) { r.Nth[i].Day = (r.Nth[i].Day + 1) % 7 })
		f.with(func(r *repeat.Rule) { r.Nth = slices.Delete(r.Nth, i, i+1) })
	}
}

func (f *family) lists() {
	first := f.of.First
	f.with(func(r *repeat.Rule) { r.Skipped = append(r.Skipped, first) })
	for i, d := range f.of.Skipped {
		without := func(r *repeat.Rule) { r.Skipped = slices.Delete(r.Skipped, i, i+1) }
		f.with(without)
		f.with(func(r *repeat.Rule) { r.Skipped[i]++ })
		f.with(func(r *repeat.Rule) {
			without(r)
			r.Moved = append(r.Moved, repeat.Move{From: d, To: repeat.Moment{Day: d, At: r.At/2 + 1}})
		})
	}
	for i, m := range f.of.Moved {
		without := func(r *repeat.Rule) { r.Moved = slices.Delete(r.Moved, i, i+1) }
		f.with(without)
		f.moments(func(r *repeat.Rule) *repeat.Moment { return &r.Moved[i].To })
		f.with(func(r *repeat.Rule) { // the same dates, said in another way
			without(r)
			r.Skipped, r.Extra = append(r.Skipped, m.From), append(r.Extra, m.To)
		})
	}
	for i := range f.of.Extra {
		f.with(func(r *repeat.Rule) { r.Extra = slices.Delete(r.Extra, i, i+1) })
		f.moments(func(r *repeat.Rule) *repeat.Moment { return &r.Extra[i] })
	}
}

// moments changes one moment of a rule.
func (f *family) moments(which func(r *repeat.Rule) *repeat.Moment) {
	for _, step := range []int{-1, 1} {
		f.with(func(r *repeat.Rule) { which(r).Day += wall.Date(step) })
		f.with(func(r *repeat.Rule) { which(r).Day += wall.Date(365 * step) })
		f.with(func(r *repeat.Rule) { which(r).At += wall.Clock(step) })
		f.with(func(r *repeat.Rule) { which(r).At += wall.Clock(720 * step) })
	}
}

// eachRule gives every sound rule of some families.
func eachRule(t *testing.T, seed int64, families int, look func(r repeat.Rule)) {
	rnd := rand.New(rand.NewSource(seed))
	for range families {
		r := randomRule(rnd, t)
		if r.Check() != nil {
			continue
		}
		for _, twin := range familyOf(r) {
			if twin = twin.Canonical(); twin.Check() == nil {
				look(twin)
			}
		}
	}
}
