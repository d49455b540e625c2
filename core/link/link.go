package link

import (
	"errors"

	"newel/core/merge"
	"newel/core/pack"
	"newel/core/plan"
	"newel/core/wall"
)

// The errors of reading a link.
var (
	// ErrDamaged: characters were lost or changed on the way.
	ErrDamaged = errors.New("the link was cut off or changed on the way; ask for it to be sent again")
	// ErrNewer: the link was made by a later version of this page.
	ErrNewer = errors.New("the link was made by a newer version of this page; load the page again")
	// ErrLocked: it opens with a passphrase only.
	ErrLocked = errors.New("the link is locked; it opens with the passphrase of whoever sent it")
	// ErrPart: it holds one helper's part, not a plan; DecodePart reads it.
	ErrPart = errors.New("the link holds one helper’s part of a plan, which cannot be changed")
)

// Encode writes a plan's document as a fragment, without the # sign. It is "" for a document
// that merge.Doc.Check refuses, and for one that is more than a link holds (MaxLength, and
// the bounds in form.go).
func Encode(d *merge.Doc) string { return encode(d, "", false) }

func encode(d *merge.Doc, part string, isPart bool) string {
	if d.Check() != nil {
		return ""
	}
	fragment, ok := written(d, part, isPart)
	if !ok || len(fragment) > MaxLength {
		return ""
	}
	return fragment
}

// written is a link without a look at the document: Check has to let it through.
func written(d *merge.Doc, part string, isPart bool) (fragment string, ok bool) {
	f, h := writing(d)
	defer f.release()
	h.Part = isPart
	data := h.bytes()
	f.body(part, isPart)
	data = append(data, f.c.Close()...)
	return lettersOf(seal(data)), !f.tooMuch
}

// writing prepares the form of a document and its head.
func writing(d *merge.Doc) (*form, Head) {
	h := Head{
		Version: version, Number: d.Number, Surgery: wall.Date(headValue(d, merge.Surgery, 0)),
		Arrival: wall.Clock(headValue(d, merge.Arrival, int(wall.NoClock))), Stay: plan.Stay(headValue(d, merge.Stay, 0)),
		Joint: plan.Joint(headValue(d, merge.Joint, 0)), Operation: plan.Operation(headValue(d, merge.Operation, 0)),
		stamped: !madeAtOnce(d),
	}
	return newForm(pack.NewEncoder(), d, h), h
}

// headValue is the value of a register that goes into the head, none where nobody wrote it.
// Of several it is the earliest day or time, else the one with the greatest stamp: what the
// page shows, too, but by a rule of the link’s own, which stays as it is.
func headValue(d *merge.Doc, field merge.Field, none int) int {
	versions := d.Get(merge.Key{Field: field})
	if len(versions) == 0 {
		return none
	}
	value := number(versions[len(versions)-1].Value)
	if field == merge.Surgery || field == merge.Arrival {
		for _, v := range versions {
			value = min(value, number(v.Value))
		}
	}
	return value
}

// madeAtOnce tells whether all of a document was written in the first act of the device
// on which the plan was made: then the link needs no stamps.
func madeAtOnce(d *merge.Doc) bool {
	first := merge.Stamp{Actor: merge.Maker, N: 1}
	if seen := d.Seen(); len(seen) != 1 || seen[0] != first {
		return false
	}
	for _, k := range d.Keys() {
		if v := d.Get(k); len(v) != 1 || v[0].Stamp != first {
			return false
		}
	}
	return true
}

// Decode reads a fragment. Each register of the document is sound by itself; what only
// goes wrong between two of them, plan.Check finds in its plan. Errors: ErrDamaged,
// ErrNewer, ErrLocked, ErrPart.
func Decode(fragment string) (*merge.Doc, error) {
	d, h, _, err := decode(fragment)
	if err == nil && h.Part {
		err = ErrPart
	}
	if err != nil {
		return nil, err
	}
	return d, nil
}

func decode(fragment string) (d *merge.Doc, h Head, part string, err error) {
	whole, ok := bytesOf(fragment)
	if !ok {
		return nil, h, "", ErrDamaged
	}
	h, body, err := open(whole)
	switch {
	case err != nil:
		return nil, h, "", err
	case h.Locked:
		return nil, h, "", ErrLocked
	case h.Version == 0:
		p, err := decodeOld(fragment)
		if err != nil {
			return nil, h, "", err
		}
		for i, name := range p.Helpers {
			if name == "-" { // since version 3 a dash means nobody
				p.Helpers[i] = "--"
			}
		}
		return merge.FromOld(p.Plan, p.edition), h, "", nil
	}
	f := newForm(pack.NewDecoder(body), merge.NewDocFor(h.Number, len(body)/2), h)
	defer f.release()
	part = f.body("", h.Part)
	if f.c.Err() != nil {
		return nil, h, "", ErrDamaged
	}
	// The checksum is right, so this is what somebody wrote: a later page, which allows more.
	if f.d.Check() != nil || plan.Clean(part) != part {
		return nil, h, "", ErrNewer
	}
	// One document has one link. Whatever else these bytes may be read as is refused.
	if again, ok := written(f.d, part, h.Part); !ok || again != fragment || len(again) > MaxLength {
		return nil, h, "", ErrDamaged
	}
	return f.d, h, part, nil
}

// Opens tells whether a fragment, which has to be what Encode gave for the document, is read as that
// very document. It does what Decode does but for two things that are known already: that the
// document is sound, and that it is written so and no other way.
func Opens(fragment string, d *merge.Doc) bool {
	whole, ok := bytesOf(fragment)
	if !ok {
		return false
	}
	h, body, err := open(whole)
	if err != nil || h.Locked || h.Part || h.Version == 0 {
		return false
	}
	f := newForm(pack.NewDecoder(body), merge.NewDocFor(h.Number, d.Size()), h)
	defer f.release()
	f.body("", false)
	return f.c.Err() == nil && f.d.Equal(d)
}

// Spend gives the bits that each part of a link's body takes.
func Spend(d *merge.Doc) []pack.Part {
	f, _ := writing(d)
	defer f.release()
	f.c.Account()
	f.body("", false)
	f.c.Close()
	return f.c.Spent()
}
