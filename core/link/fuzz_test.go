package link

import (
	"errors"
	"math/rand"
	"testing"

	"newel/core/merge"
	"newel/core/plan"
)

// check is what holds of every text: it is a document that encodes to this very text and
// shows a plan, or a part that nobody can change, or one of the four errors.
func check(t *testing.T, fragment string) {
	head, headErr := ReadHead(fragment)
	d, err := Decode(fragment)
	switch {
	case errors.Is(err, ErrPart):
		checkPart(t, fragment)
		return
	case errors.Is(err, ErrDamaged), errors.Is(err, ErrNewer), errors.Is(err, ErrLocked):
		return
	case err != nil:
		t.Fatalf("%q gives an error of another kind: %v", fragment, err)
	case headErr != nil:
		t.Fatalf("%q opens, but its head does not: %v", fragment, headErr)
	}
	if err := d.Check(); err != nil {
		t.Fatalf("%q decodes to an unsound document: %v", fragment, err)
	}
	p := d.Plan()
	apart := len(d.Get(merge.Key{Field: merge.Surgery})) > 1 // then a time that is for the other day is not shown
	if head.Version != 0 && (head.Number != p.Number || head.Surgery != p.Surgery || head.Arrival != p.Arrival && !apart || head.Stay != p.Stay) {
		t.Fatalf("%q says in its head %+v and shows %+v", fragment, head, p)
	}
	if again := Encode(d); again != fragment && head.Version != 0 {
		t.Fatalf("%q decodes, but its document encodes to %q", fragment, again)
	}
	for _, problem := range plan.Check(&p, p.Surgery) {
		if problem.Field == "surgery" && !problem.Ask {
			t.Fatalf("%q decodes to a plan without a day: %+v", fragment, problem)
		}
	}
}

func checkPart(t *testing.T, fragment string) {
	p, helper, err := DecodePart(fragment)
	if err != nil {
		t.Fatalf("%q is a part and does not open as one: %v", fragment, err)
	}
	if plan.Clean(helper) != helper || p.Surgery == 0 {
		t.Fatalf("%q opens as a part of %q on %v", fragment, helper, p.Surgery)
	}
}

func FuzzDecode(f *testing.F) {
	for _, s := range []string{"", "A", "start", "demo", "AQ", "AQAAAAAAAAAAAAAAAAAA", "%41", "\x00", "####", "D", "g", "EAAAAAAAAAAAAAAA"} {
		f.Add(s)
	}
	for _, s := range samples(f) {
		f.Add(s)
	}
	f.Add(encodeOld(old{family(f), 3}))
	f.Add(EncodePart(withFamily(f), "Dana"))
	r := rand.New(rand.NewSource(3))
	for range 20 {
		f.Add(Encode(anyDoc(r, 1+r.Intn(8))))
	}
	f.Fuzz(check)
}

// FuzzBehindChecksum puts a right checksum behind any bytes, so that the reader behind it
// meets them.
func FuzzBehindChecksum(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte{3 << 2})
	f.Add(make([]byte, 40))
	r := rand.New(rand.NewSource(4))
	fragments := append(samples(f), EncodePart(withFamily(f), "Dana"))
	for range 20 {
		fragments = append(fragments, Encode(anyDoc(r, 1+r.Intn(8))))
	}
	for _, fragment := range fragments {
		whole, _ := bytesOf(fragment)
		data, _ := unseal(whole)
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, body []byte) { check(t, sealed(body)) })
}

// FuzzTrim: whatever surrounds a link, what is found is short, and opens if a link was in it.
func FuzzTrim(f *testing.F) {
	fragment := Encode(docOf(starter(f)))
	f.Add("see <https://alder.example/#", ">.")
	f.Add("%3C%23", "%3E")
	f.Add("# # #", "\r\n")
	f.Fuzz(func(t *testing.T, before, behind string) {
		if len(Trim(before+behind)) > 2*MaxLength {
			t.Fatalf("%q gives a longer text than may be looked at", before+behind)
		}
		if got := Trim(fragment + "?" + behind); got != fragment && len(behind) < MaxLength {
			t.Fatalf("%q behind a link gives %q", behind, got)
		}
	})
}
