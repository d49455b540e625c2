package schedule

import (
	_ "embed"
	"strconv"
	"strings"

	"newel/core/plan"
)

//go:embed steps.txt
var stepsText string

// Who a step is for.
type Who uint8

// The people of a step.
const (
	Both Who = iota
	Coach
	Patient
)

// Kind is the line of steps.txt that a step comes from.
type Kind struct {
	Code   uint16 // lasting number
	ID     string
	List   string
	Part   string // of the list: a room, or what is needed and what may help; empty where it has none
	Who    Who
	When   string // a fact's key, with ! before it for "not" and + for "surely", or empty
	Due    Timing
	Source []string
}

// Timing is the due column of steps.txt, read.
type Timing struct {
	Text string // as it stands in the file
	How  How
	From int       // On, From: days from surgery, negative before it
	To   int       // From: the last day, where it is a number
	Rule plan.Rule // By: how many days before; From: the last day, where ByRule
	// ByRule: the last day of From is Rule's. Open: it has none.
	ByRule, Open bool
	Evening      bool // OnHome: in the evening
}

// How says which kind of due column it is.
type How uint8

// The kinds of due column, as steps.txt explains them.
const (
	Computed How = iota
	By           // by:RULE
	ByWash       // by:wash
	On           // on:N
	OnHome       // on:home, eve:home
	From         // from:N..M
)

// Kinds holds steps.txt, in its order.
var Kinds = readKinds(stepsText)

// KindByID finds a kind by its id. An id that is not in steps.txt is a mistake in
// the code, so it panics.
func KindByID(id string) *Kind {
	for i := range Kinds {
		if Kinds[i].ID == id {
			return &Kinds[i]
		}
	}
	panic("schedule: no step is called " + id)
}

// readKinds reads the table. The file is part of the program, so a fault in it is
// a mistake that must stop the first test that runs.
func readKinds(text string) []Kind {
	var kinds []Kind
	for number, line := range strings.Split(text, "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		col := strings.Fields(line)
		if len(col) != 7 {
			panic("steps.txt line " + strconv.Itoa(number+1) + ": seven columns are needed: code id list who when due source")
		}
		list, part, _ := strings.Cut(col[2], "/")
		code, err := strconv.ParseUint(col[0], 10, 16)
		if err != nil {
			panic("steps.txt line " + strconv.Itoa(number+1) + ": the code is not a number: " + col[0])
		}
		kinds = append(kinds, Kind{
			Code: uint16(code), ID: col[1], List: list, Part: part, Who: who(col[3]),
			When: strings.TrimPrefix(col[4], "-"), Due: readTiming(col[5]), Source: strings.Split(col[6], ","),
		})
	}
	return kinds
}

// readTiming reads a due column. A fault in it is a mistake in the file.
func readTiming(text string) Timing {
	how, what, _ := strings.Cut(text, ":")
	t := Timing{Text: text}
	switch {
	case text == "computed":
		t.How = Computed
	case text == "by:wash":
		t.How = ByWash
	case text == "on:home":
		t.How = OnHome
	case text == "eve:home":
		t.How, t.Evening = OnHome, true
	case how == "by":
		t.How, t.Rule = By, daysRule(text, what)
	case how == "on":
		t.How, t.From = On, days(text, what)
	case how == "from":
		return t.between(what)
	default:
		panic("steps.txt: a step is due in a way that is not known: " + text)
	}
	return t
}

// between reads N..M.
func (t Timing) between(text string) Timing {
	from, to, _ := strings.Cut(text, "..")
	t.How, t.From = From, days(t.Text, from)
	switch _, isRule := plan.RuleByKey(to); {
	case to == "open":
		t.Open = true
	case isRule:
		t.ByRule, t.Rule = true, daysRule(t.Text, to)
	default:
		t.To = days(t.Text, to)
	}
	return t
}

func days(due, text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		panic("steps.txt: " + due + " counts by something that is neither a number nor a rule")
	}
	return n
}

func daysRule(due, key string) plan.Rule {
	r, ok := plan.RuleByKey(key)
	if !ok || plan.Rules[r].Unit != plan.Days {
		panic("steps.txt: " + due + " names no rule of the program that counts days")
	}
	return r
}

func who(s string) Who {
	switch s {
	case "coach":
		return Coach
	case "patient":
		return Patient
	case "both":
		return Both
	}
	panic("steps.txt: a step is for coach, patient or both, not for " + s)
}

// General tells whether the line belongs in a guide without a plan, of a hospital that hands
// out what given has.
func (k *Kind) General(given plan.Facts) bool {
	return !strings.HasPrefix(k.When, "+") || k.applies(given)
}

// applies tells whether the line belongs in a plan with these facts.
func (k *Kind) applies(f plan.Facts) bool {
	if k.When == "" {
		return true
	}
	key, not := strings.CutPrefix(k.When, "!")
	key, sure := strings.CutPrefix(key, "+")
	fact, ok := plan.FactByKey(key)
	if !ok {
		panic("steps.txt: " + k.ID + " depends on an unknown fact: " + key)
	}
	if not {
		return !f.Has(fact)
	}
	if sure {
		return f.Has(fact)
	}
	return f.Applies(fact)
}
