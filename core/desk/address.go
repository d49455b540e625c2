package desk

import (
	"errors"
	"slices"
	"strings"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// Word is the fragment of the desk without settings. With settings a point and a link follow,
// that of a plan without a patient. So an address holds all that the desk knows, can be kept
// as a bookmark or given to a colleague, and nothing has to be stored.
const Word = "desk"

// IsAddress tells whether a fragment is one of the desk.
func IsAddress(fragment string) bool {
	return fragment == Word || strings.HasPrefix(fragment, Word+".")
}

// Address writes settings as the fragment of the desk's address.
func Address(s *Settings) string {
	blank := blankOf(*s)
	if blank.SameFacts(blankOf(Settings{})) {
		return Word
	}
	return Word + "." + link.Encode(merge.New(blank)) // nothing behind the point: see Check
}

// ErrAddress says that an address of the desk holds no settings that can be read.
var ErrAddress = errors.New("desk: the address was cut off or changed on the way; open the settings file again")

// ReadAddress reads what Address wrote. Errors: ErrAddress, and those of link.Decode.
func ReadAddress(fragment string) (Settings, error) {
	rest, found := strings.CutPrefix(fragment, Word+".")
	if !found {
		return Settings{}, nil
	}
	d, err := link.Decode(rest)
	if err != nil {
		return Settings{}, errors.Join(ErrAddress, err)
	}
	p := d.Plan()
	return Settings{Zone: p.Zone, Program: p.Program, Given: p.Facts & plan.Given, Lines: hospitalLines(p.Lines)}, nil
}

// hospitalLines are the lines that a hospital gives to everybody. The link in an address may
// be a family's, whose own lines and ticks are nobody else's.
func hospitalLines(all []plan.Line) []plan.Line {
	var kept []plan.Line
	for _, l := range all {
		if l.Hospital {
			l.Done = false
			kept = append(kept, l)
		}
	}
	return kept
}

// blankDay stands for the day of surgery in the desk's address. No patient has it.
const blankDay = wall.FirstDate

// blankOf is a plan that says the settings and nothing else.
func blankOf(s Settings) plan.Plan {
	return plan.Plan{
		Surgery: blankDay, Arrival: wall.NoClock, Zone: s.Zone, Drive: plan.Unknown, Parking: plan.Unknown,
		Facts: s.Given, Program: s.Program, Lines: s.Lines,
	}
}

// Check lists what is wrong with settings, or is to be asked about, as plan.Check does.
func Check(s *Settings, today wall.Date) []plan.Problem {
	p := blankOf(*s)
	p.Surgery = min(max(today, wall.FirstDate), wall.LastDate)
	found := slices.DeleteFunc(plan.Check(&p, today), func(f plan.Problem) bool { return f.Field == "surgery" }) // nobody put a day in
	if len(s.Lines) > MostLines && s.Program.Number == 0 {
		found = append(found, plan.Problem{Field: "lines", Code: plan.LinesMany, High: MostLines})
	}
	stops := slices.ContainsFunc(found, func(f plan.Problem) bool { return !f.Ask })
	if !stops && Address(s) == Word+"." { // no link holds so much
		found = append(found, plan.Problem{Field: "lines", Code: plan.DutiesMany})
	}
	return found
}
