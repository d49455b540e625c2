package merge

import (
	"newel/core/plan"
	"newel/core/wall"
)

// The bounds of a document that comes in, so that a link made to be a burden is refused.
// They are not above what core/link can write.
const (
	MaxRegisters = 5000
	MaxActors    = 1000
	MaxVersions  = 64   // of one register
	MaxListed    = 1000 // registers of one list: the ticks; the dates of a duty, of each sort; what has no meaning here
	MaxUnknown   = 400  // bytes of a value, or of a name, that this version gives no meaning
)

// Unsound says what is wrong with a document. No version of the page makes such a one, so
// the link that holds it was damaged, or made up.
type Unsound struct {
	Key  Key // the register; the zero Key where it is the whole
	What string
}

// Error is for tests and logs; people read a sentence of core/guide.
func (u Unsound) Error() string { return "merge: " + u.Key.String() + ": " + u.What }

// Check tells whether a document that was read from a link is sound: there is a surgery
// day, each register by itself holds a value that some page could have written, every act
// is among those seen, every duty is whole, and nothing is more than a plan has. The first
// that is wrong is given, as Unsound. core/link writes and reads again what is sound, as
// far as it is not too long for a link; of anything else it may lose something. What only
// goes wrong between registers is not looked at here: two people can bring that about, and
// core/plan's Check asks about it.
func (d *Doc) Check() error {
	if len(d.regs) > MaxRegisters || len(d.seen) > MaxActors {
		return Unsound{What: "too many registers or devices"}
	}
	d.finished() // what is read from a link is checked once it is whole, before anybody else has it
	for _, s := range d.Seen() {
		if !s.Actor.known() || s.N < 1 || s.N > LastN {
			return Unsound{What: "a device or act that cannot be"}
		}
	}
	if day := (Key{Field: Surgery}); d.regs[day] == nil {
		return Unsound{day, "no surgery day"}
	}
	for _, k := range d.order() {
		if err := d.checkRegister(k); err != nil {
			return err
		}
	}
	if err := d.checkLists(); err != nil {
		return err
	}
	return d.checkDuties()
}

// checkLists counts the registers of each list.
func (d *Doc) checkLists() error {
	long := map[Key]int{}
	for _, k := range d.order() {
		list := Key{Field: k.Field, Of: k.Of}
		if !k.meaning() {
			list = Key{}
		}
		long[list]++
		if n := long[list]; n > MaxListed || k.ofHelper() && n > plan.MostHelpers {
			return Unsound{list, "too long a list"}
		}
	}
	return nil
}

// needed are the registers that every duty has; of Alive and Gone one is enough. Every act
// that adds a duty writes them, and none takes them away.
var needed = [...]Field{Kind, Length, Pattern, Alive, Gone}

// dutyParts gives for the number of each duty which of the needed registers there are: bit
// i is needed[i].
func (d *Doc) dutyParts() map[uint32]uint8 {
	parts := map[uint32]uint8{}
	for k := range d.regs {
		if !k.ofDuty() {
			continue
		}
		set := parts[k.Of]
		for i, f := range needed {
			if k.Field == f {
				set |= 1 << i
			}
		}
		parts[k.Of] = set
	}
	return parts
}

func whole(set uint8) bool { return set&0b111 == 0b111 && set&0b11000 != 0 }

func (d *Doc) checkDuties() error {
	parts := d.dutyParts()
	if len(parts) > plan.MostDuties {
		return Unsound{What: "too many duties"}
	}
	for _, k := range d.order() {
		if k.ofDuty() && !whole(parts[k.Of]) {
			return Unsound{k, "part of a duty that is not whole"}
		}
	}
	return nil
}

// checkRegister looks at a key, its versions and their values.
func (d *Doc) checkRegister(k Key) error {
	if !k.sound() || (k.Field == Hand || k.Field == Moves) && d.seen[Actor(k.Sub)] == 0 {
		return Unsound{k, "no such register"}
	}
	versions := d.regs[k]
	if len(versions) == 0 || len(versions) > MaxVersions {
		return Unsound{k, "too many versions, or none"}
	}
	for i, v := range versions {
		switch {
		case v.N < 1 || !d.has(v.Stamp):
			return Unsound{k, "an act that was not seen"}
		case i > 0 && versions[i-1].Compare(v) >= 0:
			return Unsound{k, "versions out of order"}
		case !k.allows(v.Value):
			return Unsound{k, "not a value of this register"}
		}
	}
	return nil
}

// sound tells whether a key can be. Parts that its field does not use are zero.
func (k Key) sound() bool {
	if k.Field == 0 || k.Field >= fieldEnd {
		return k.Field != 0 && len(k.Name) <= MaxUnknown
	}
	s := &shapes[k.Field]
	if k.Sub > s.sub || (k.Of != 0) != s.duty && k.Field != Moves || (k.Name != "") != k.hasName() {
		return false
	}
	switch k.Field {
	case Helper, About, Out:
		return soundName(k.Name)
	case Hand, Moves:
		return Actor(k.Sub).known()
	case Date:
		return k.Sub >= uint32(wall.FirstDate)
	case Takes:
		return k.Sub >= uint32(firstExtra)
	case Extra:
		return soundMoment(momentOf(k.Sub))
	case Line, LineDone:
		return k.soundLine()
	case LineWords:
		return k.soundLine() && plan.LanguageTag(k.Name)
	}
	return true
}

func (k Key) soundLine() bool { return k.Sub != 0 && Actor(k.Sub>>plan.NthBits).known() }

// ofHelper tells whether a register is about one helper.
func (k Key) ofHelper() bool { return k.Field == Helper || k.Field == About || k.Field == Out }

// hasName tells whether a register is one of several that a name tells apart: a helper's, or a
// language's.
func (k Key) hasName() bool {
	return k.ofHelper() || k.Field == LineWords
}

// soundName tells whether a helper can be called that.
func soundName(s string) bool { return s != "" && s != nobody && soundText(s, plan.MaxName) }

func soundText(s string, most int) bool {
	return len(s) <= 4*most && len([]rune(s)) <= most && plan.Clean(s) == s
}

// allows tells whether a value can stand in a register of that key.
func (k Key) allows(v string) bool {
	if k.Field >= fieldEnd {
		return len(v) <= MaxUnknown
	}
	s := &shapes[k.Field]
	switch s.kind {
	case aMark:
		return v == mark
	case aText:
		return soundText(v, s.high) && (v != "" || k.Field != Zone)
	case aName:
		return soundName(v)
	case aTaker:
		return v == nobody || soundName(v)
	case aPattern:
		_, ok := ReadRule(v)
		return ok
	case anAbout:
		_, ok := ReadAbout(v)
		return ok || k.later(v) && len(v) <= MaxUnknown
	case aLine:
		_, ok := ReadLine(v)
		return ok
	case aWording:
		return soundText(v, plan.MaxText) && v != "" && len(v) <= plan.MaxLineBytes
	case aSaying:
		return k.allowsSaying(v)
	case aChange:
		to, moved := Moved(v)
		return v == leftOut || moved && momentText(to) == v
	}
	n, ok := number(v)
	low, high := s.low, s.high
	if k.Field == Setting {
		if k.Sub >= uint32(len(plan.Rules)) {
			return ok && n >= 0 && len(v) <= 6
		}
		low, high = plan.Rules[k.Sub].Min, plan.Rules[k.Sub].Max
		if ok && n == plan.Rules[k.Sub].Common { // there may be none, which is less than any value
			return true
		}
	}
	return ok && n >= low && n <= high
}

// allowsSaying tells whether one of a hospital's other texts can be that. Of one that only
// later pages know, only the length is known.
func (k Key) allowsSaying(v string) bool {
	if !k.meaning() {
		return soundText(v, MaxUnknown/4)
	}
	return soundText(v, plan.MaxText) && plan.ProgramText(k.Sub).Allows(v)
}
