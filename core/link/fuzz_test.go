package link

import (
	"errors"
	"math/rand"
	"testing"

	"newel/core/plan"
)

// check is what holds of every text: it is a plan that encodes to this very text
// and has no fault, or one of the two errors.
func check(t *testing.T, fragment string) {
	p, err := Decode(fragment)
	if err != nil {
		if !errors.Is(err, ErrDamaged) && !errors.Is(err, ErrNewer) {
			t.Fatalf("%q gives an error of another kind: %v", fragment, err)
		}
		return
	}
	if again := Encode(p); again != fragment {
		t.Fatalf("%q decodes, but its plan encodes to %q", fragment, again)
	}
	for _, problem := range plan.Check(&p, p.Surgery) {
		if !problem.Ask && problem.Code != plan.ZoneUnknown && problem.Code != plan.ClockSkipped {
			t.Fatalf("%q decodes to a plan with a fault: %+v", fragment, problem)
		}
	}
	for i := 1; i < len(p.Ticked); i++ {
		if !p.Has(p.Ticked[i]) || p.Ticked[i] == p.Ticked[i-1] {
			t.Fatalf("%q decodes to ticks that are out of order or twins", fragment)
		}
	}
}

func FuzzDecode(f *testing.F) {
	for _, s := range []string{"", "A", "start", "demo", "AQ", "AQAAAAAAAAAAAAAAAAAA", "%41", "\x00", "####", Encode(family(f)), Encode(starter(f)), Encode(withFamily(f))} {
		f.Add(s)
	}
	r := rand.New(rand.NewSource(3))
	for range 20 {
		f.Add(Encode(anyPlan(r)))
	}
	f.Fuzz(check)
}

// FuzzBehindChecksum puts a right checksum behind any bytes, so that the reader
// behind it meets them.
func FuzzBehindChecksum(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte{1})
	f.Add([]byte{2, 0, 0, 0, 0, 0, 0, 0, 0, 0})
	f.Add(make([]byte, 40))
	f.Add(opened(f, Encode(family(f))))
	f.Add(opened(f, Encode(starter(f))))
	f.Add(opened(f, Encode(withFamily(f))))
	r := rand.New(rand.NewSource(4))
	for range 20 {
		f.Add(opened(f, Encode(anyPlan(r))))
	}
	f.Fuzz(func(t *testing.T, body []byte) { check(t, seal(body)) })
}
