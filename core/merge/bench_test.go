package merge

import (
	"testing"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// largeFamily is a plan somewhat larger than the family of issue 4: about 260 registers that
// five devices wrote in 60 acts.
func largeFamily(b *testing.B) *Doc {
	d := New(rosa(b))
	for n := range 59 {
		a := someActors[n%len(someActors)]
		d = d.with(a, func(p *plan.Plan) {
			switch n % 3 {
			case 0:
				*p = p.WithTick(plan.Tick{Code: uint16(2 + n)}, true)
			case 1:
				d := anyDuty(fromSeed(int64(n)), p.FreshDuty(uint32(a)), len(p.Helpers))
				if d.Dropped = false; len(p.Duties) < 12 {
					*p = p.WithDuty(d)
				}
			default:
				d := &p.Duties[n%len(p.Duties)]
				d.Takes = append(d.Takes, plan.Take{Day: wall.Date(21000 + n), Who: uint8(1 + n%3)})
				d.Rule.Extra = append(d.Rule.Extra, repeat.Moment{Day: d.Rule.First + 1, At: 77})
				d.Rule = d.Rule.Canonical()
			}
		})
	}
	return d
}

func BenchmarkJoin(b *testing.B) {
	d := largeFamily(b)
	other := d
	for n := range 10 {
		other = other.with(ann, func(p *plan.Plan) {
			p.Arrival = wall.Clock(300 + n)
			*p = p.WithTick(plan.Tick{Code: uint16(200 + n)}, true)
			p.Duties[n%len(p.Duties)].Note = "bring the walker"
		})
	}
	mine := d.with(luis, func(p *plan.Plan) { p.Arrival = 400; p.Duties[0].Who = 2 })
	for _, row := range []struct {
		name string
		a, b *Doc
	}{{"itself", d, d}, {"diverged", mine, other}} {
		b.Run(row.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Join(row.a, row.b); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(len(row.a.regs)), "registers")
		})
	}
	b.Run("show", func(b *testing.B) {
		for b.Loop() {
			d.Plan()
		}
	})
}
