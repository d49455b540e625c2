package link

import (
	"slices"
	"strconv"
	"unicode/utf8"

	"newel/core/merge"
	"newel/core/pack"
)

// form writes a document into a coder, or fills one from it: every function below works
// both ways (see core/pack). What a register has is taken from the document; on the way
// in the document has nothing yet, and what the coder gives is put there.
type form struct {
	c       *pack.Coder
	d       *merge.Doc
	h       Head
	helpers []string               // in order
	mine    map[merge.Actor]string // whose the devices are
	shown   map[last]string        // what the register of that field and sort had last
	values  int                    // how many were coded
	letters int                    // of texts, the same
	tooMuch bool                   // one of them is over its bound
	part    string                 // whose bits are counted now
	acts    acts
	order   []merge.Key // the registers of the document, while it is written
	named   []bool      // by their order: those that the form has a place for; the rest comes last
	m       models
}

// last names a memory: a field, and the kind of the duty that it is of.
type last struct {
	field merge.Field
	kind  string
}

// Places in the models that are no field's. Fields stay below.
const (
	byDay merge.Field = 48 + iota
	byStep
	byTimes
	byDuty
	byDevice
	byEvery
	byCount
	byWeeks
	bySpan
	byOther
	byMove
	byTime
	byMonthDay
	byNth
	byRest
	places
)

// models are what the coder learns with. The start values (start) are what ordinary plans
// have, estimated, not counted: a wrong one costs a bit or two.
type models struct {
	more         pack.Bit // a register has one more version
	has, hasRide [places]pack.Bit
	same, five   [places]pack.Bit
	number, list [places]pack.Number
	quarter      pack.Bit
	hour, minute pack.Choice
	helper, kind pack.Choice
	zone, device pack.Choice
	length       pack.Choice
	freq         [kinds + 1]pack.Choice
	end          pack.Choice
	weekday      [2]pack.Bit
	notEach      pack.Bit // every second, every third…
	notMonday    pack.Bit
	notWeeks     pack.Bit
	notInRule    pack.Bit
	notOut       pack.Bit
	newStep      pack.Bit
	groups       [groupEnd]pack.Bit
	act          [actContexts]actModels
	rank, actsOf pack.Number
	step         pack.Number // from one act of a device to the next that is named
	notMine      pack.Bit    // somebody else than the helper whose device it is
}

func newForm(c *pack.Coder, d *merge.Doc, h Head) *form {
	f := forms.Get().(*form)
	*f = form{}
	f.c, f.d, f.h, f.shown, f.mine = c, d, h, map[last]string{}, map[merge.Actor]string{}
	f.m.start()
	if c.Encoding() {
		f.order = d.Keys()
		f.named = make([]bool, len(f.order))
	}
	return f
}

// A link may be made to be a burden: what always comes costs next to no bits. So these
// bound what is read, far above what any family has.
const (
	mostVersions = 64     // of one register
	mostListed   = 1000   // registers of one list
	mostRest     = 5000   // registers without a place in the form
	mostValues   = 20_000 // of all registers together
	mostActs     = 5000   // acts that are named: each is looked for among those before it
	mostText     = 400    // characters of one text
	mostLetters  = 30_000 // of all texts together
)

// register codes the versions of a register that has some.
func (f *form) register(k merge.Key, value func(string) string) {
	f.name(k)
	have := f.d.Get(k)
	var got []merge.Version
	for i := 0; i < mostVersions; i++ {
		var v merge.Version
		if i < len(have) {
			v = have[i]
		}
		v.Stamp = f.stamp(k, v.Stamp)
		f.acts.now = v.Stamp
		v.Value = value(v.Value)
		f.values++
		f.bound(f.values <= mostValues)
		got = append(got, v)
		if !f.h.stamped || !f.c.Flag(&f.m.more, i+1 < len(have)) {
			break
		}
	}
	f.put(k, got)
}

func (f *form) put(k merge.Key, got []merge.Version) {
	if !f.c.Encoding() && f.c.Err() == nil {
		f.d.Set(k, got)
	}
}

func (f *form) has(k merge.Key) bool { return len(f.d.Get(k)) > 0 }

// optional codes whether a register has versions, and those.
func (f *form) optional(k merge.Key, m *pack.Bit, value func(string) string) bool {
	present := f.c.Flag(m, f.has(k))
	if present {
		f.register(k, value)
	}
	return present
}

// there is the value of registers that only count that they are there.
func there(string) string { return "1" }

// number is a decimal as the document has it. What is none is left to Check.
func number(v string) int {
	n, _ := strconv.Atoi(v)
	return n
}

// minutes codes a number of minutes, which is mostly one of fives.
func (f *form) minutes(field merge.Field) func(string) string {
	return func(v string) string {
		n := number(v)
		if f.c.Flag(&f.m.five[field], n%5 != 0) {
			return strconv.Itoa(int(f.c.Number(&f.m.number[field], uint64(n))))
		}
		return strconv.Itoa(int(f.c.Number(&f.m.number[field], uint64(n/5))) * 5)
	}
}

func (f *form) plain(field merge.Field) func(string) string {
	return func(v string) string {
		return strconv.Itoa(int(f.c.Number(&f.m.number[field], uint64(number(v)))))
	}
}

func (f *form) text(kind pack.Kind) func(string) string {
	return func(v string) string { return f.words(kind, v) }
}

func (f *form) words(kind pack.Kind, v string) string {
	if f.letters > 2*mostLetters {
		v = "" // it is given up already
	}
	v = f.c.Text(kind, v, mostText)
	f.letters += utf8.RuneCountInString(v)
	f.bound(f.letters <= mostLetters)
	return v
}

// bound refuses what is more than a link holds, in either direction.
func (f *form) bound(within bool) {
	if !within {
		f.tooMuch = true
		f.c.Fail()
	}
}

// before codes a value that is often the one that the same field of a duty of the same
// kind had last.
func (f *form) before(field merge.Field, kind string, value func(string) string) func(string) string {
	return func(v string) string {
		at := last{field, kind}
		old, known := f.shown[at]
		if !known || f.c.Flag(&f.m.same[field], v != old) {
			old = value(v)
		}
		f.shown[at] = old
		return old
	}
}

// clock codes a time of day.
func (f *form) clock(minutes int) int {
	hour := f.c.Choose(&f.m.hour, minutes/60)
	if f.c.Flag(&f.m.quarter, minutes%15 != 0) {
		return hour*60 + f.c.Uniform(minutes%60, 60)
	}
	return hour*60 + 15*f.c.Choose(&f.m.minute, minutes%60/15)
}

// helper codes a name as its place among the helpers; one who is no longer among them is
// written out. People mostly take on what they write down themselves.
func (f *form) helper(v string) string {
	mine, known := f.mine[f.acts.now.Actor]
	if known && !f.c.Flag(&f.m.notMine, v != mine) {
		return mine
	}
	at := slices.Index(f.helpers, v)
	if at < 0 {
		at = len(f.helpers)
	}
	at = f.c.Choose(&f.m.helper, at)
	switch {
	case at == len(f.helpers):
		v = f.words(pack.Name, v)
	default:
		v = f.helpers[at]
	}
	if known && v == mine {
		f.c.Fail()
	}
	return v
}

// count codes how many registers a list has.
func (f *form) count(field merge.Field, n int) int {
	n = int(f.c.Number(&f.m.list[field], uint64(n)))
	most := mostListed
	if field == byRest {
		most = mostRest
	}
	if n > most {
		f.c.Fail()
		return 0
	}
	return n
}
