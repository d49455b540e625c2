package plan

// Facts are what was given and what is so at home, one bit each. They trim the
// lists: no pets, no line about pets.
type Facts uint32

// The facts. Their bits go into links, so a bit never changes its meaning.
const (
	// SoapGiven: the hospital handed out a surgical soap.
	SoapGiven Facts = 1 << iota
	// DrinkGiven: the hospital handed out a pre-surgery drink.
	DrinkGiven
	// NoSurgicalSoap: a skin condition (eczema, psoriasis, contact dermatitis) or
	// a soap allergy. The plan does not say which.
	NoSurgicalSoap
	// TeamTimes: diabetes, reflux, or the team gave other eating and drinking
	// times. The plan does not say which.
	TeamTimes
	// HomeAnswered: the questions below were answered. Until then the lists are
	// shown whole, since a line too many is safer than one too few.
	HomeAnswered
	Stairs
	Pets
	BreathingMachine // used at night
	Glasses
	Contacts
	HearingAids
	Dentures
	OwnWalker
	Tub
	Shower
	// ParkingPass: the hospital handed out a pass for its parking.
	ParkingPass
	factsEnd
)

// HomeFacts are the facts that only trim the lists.
const HomeFacts = AllFacts &^ (Given | NoSurgicalSoap | TeamTimes | HomeAnswered)

// Given is what the hospital may have handed out.
const Given = SoapGiven | DrinkGiven | ParkingPass

// AllFacts is every bit that has a meaning.
const AllFacts = factsEnd - 1

// FactKeys names each fact as forms, data files and words do, in the order in
// which a form asks for them. HomeAnswered is set by answering, not asked.
var FactKeys = []struct {
	Key  string
	Fact Facts
}{
	{"soap-given", SoapGiven},
	{"drink-given", DrinkGiven},
	{"parking-pass", ParkingPass},
	{"no-surgical-soap", NoSurgicalSoap},
	{"team-times", TeamTimes},
	{"stairs", Stairs},
	{"tub", Tub},
	{"shower", Shower},
	{"own-walker", OwnWalker},
	{"pets", Pets},
	{"breathing-machine", BreathingMachine},
	{"glasses", Glasses},
	{"contacts", Contacts},
	{"hearing-aids", HearingAids},
	{"dentures", Dentures},
}

// FactByKey finds a fact by its key.
func FactByKey(key string) (Facts, bool) {
	for _, f := range FactKeys {
		if f.Key == key {
			return f.Fact, true
		}
	}
	return 0, false
}

// Has tells whether all of the given facts hold.
func (f Facts) Has(g Facts) bool { return f&g == g }

// Applies tells whether a line that is only for homes with fact g should be
// shown: it holds, or nobody has answered yet. Every home has a tub or a shower,
// so where neither was named both apply.
func (f Facts) Applies(g Facts) bool {
	if g&(Tub|Shower) != 0 && f&(Tub|Shower) == 0 {
		return true
	}
	return f.Has(g) || !f.Has(HomeAnswered)
}
