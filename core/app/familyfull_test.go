package app

import (
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/repeat"
)

// More than a plan can hold is refused with a sentence, and nothing is half taken over.
func TestTooMuchForOneLink(t *testing.T) {
	p := started(t)
	for n := 0; ; n++ {
		before := p.plan()
		p.send("/duty/new/pets", "first", "2026-12-04", "at", "07:30", "length", "20", "often", "daily", "every", "1", "month", "day", "ends", "times", "times", "900")
		if p.path != "/duty/new/pets" {
			require.Less(t, n, 4)
			continue
		}
		require.Contains(t, p.text(), "more than a plan can hold")
		require.Equal(t, before, p.plan())
		break
	}
	require.Len(t, p.plan().Duties, plan.MaxDates/900)
	// Neither do single dates go over it, nor a duty that is put back.
	p.send("/duty/1/drop")
	p.send("/duty/new/pets", "first", "2026-12-04", "at", "07:30", "length", "20", "often", "daily", "every", "1", "month", "day", "ends", "times", "times", "900")
	p.send("/duty/1/put-back")
	require.Contains(t, p.part("problem-date"), "more than a plan can hold")
	require.True(t, p.plan().Duties[0].Dropped)
}

// letters gives words of letters by chance, which no link can make shorter.
func letters(r *rand.Rand, n int) string {
	text := make([]rune, n)
	for i := range text {
		text[i] = rune(0x4e00 + r.Intn(20000)) // a Chinese character
	}
	return string(text)
}

// filled is a plan with as much in its duties as a link of a length holds.
func filled(p plan.Plan, length int) plan.Plan {
	p.Number++ // not the plan of any phone
	return filledAs(p, length, func(q plan.Plan) string { return link.Encode(merge.New(q)) })
}

// filledAs fills a plan that is written as a link in a way of its own.
func filledAs(p plan.Plan, length int, encode func(plan.Plan) string) plan.Plan {
	r := rand.New(rand.NewSource(1))
	for i := range plan.MaxDuties {
		d := plan.Duty{
			ID: uint32(i + 1), Kind: plan.OtherDuty, Title: letters(r, 40), Place: letters(r, 120), Note: letters(r, 96), Length: 10,
			Rule: repeat.Rule{First: p.Surgery, At: 600, Every: 1}, Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown},
		}
		q := p.WithDuty(d)
		if fragment := encode(q); fragment != "" && len(fragment) <= length {
			p = q
		}
	}
	return p
}

// A plan that would not open again is neither stored nor sent, whatever was changed.
func TestAPlanThatIsTooLargeIsNotStored(t *testing.T) {
	p := started(t)
	full := filled(p.plan(), link.MaxLength)
	require.Less(t, len(full.Duties), plan.MaxDuties)
	p.open(link.Encode(merge.New(full)))
	require.Equal(t, full.Duties, p.plan().Duties)
	r := rand.New(rand.NewSource(2))
	for _, try := range [][]string{
		{"/facts", "address", letters(r, 120), "hospital", letters(r, 40), "phone", letters(r, 40)},
		{"/who/drive-there", "who", letters(r, 40)}, {"/duty/new/other", "first", "2026-12-05", "at", "10:00", "length", "10", "often", "once", "title", letters(r, 40)},
	} {
		fields := try[1:]
		if try[0] == "/facts" {
			fields = facts(fields...)
		}
		p.send(try[0], fields...)
		if try[0] == "/facts" {
			require.Contains(t, p.text(), "more than a plan can hold")
		}
		require.Equal(t, full.Duties, p.planOf(p.fragment).Duties, try[0])
		require.Equal(t, full.Duties, p.planOf(p.kept[keyPlan+planKey(full.Number)]).Duties, try[0])
	}
}
