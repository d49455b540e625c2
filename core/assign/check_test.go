package assign

import (
	"strings"
	"testing"
)

// sound is a problem that Check lets through.
func sound() *Problem {
	return &Problem{
		Helpers: []Helper{{"Dana", 60}, {"Luis", 120}},
		Items: []Item{
			{Key: "a", Weight: 1, Load: 30, Takes: []Take{{0, 30, 1}}, Able: []bool{true, true}, Now: 0, Held: true},
			{Key: "b", Weight: 1, Load: 30, Takes: []Take{{30, 60, 1}}, Able: []bool{true, false}, Now: 0, Held: true, Rather: []int8{1, -1}},
		},
	}
}

func TestCheck(t *testing.T) {
	if err := sound().Check(); err != nil {
		t.Fatal(err)
	}
	if err := (&Problem{}).Check(); err != nil {
		t.Fatal(err)
	}
	for says, spoil := range map[string]func(p *Problem){
		"61 helpers":                       func(p *Problem) { p.Helpers = make([]Helper, 61) },
		"3001 items":                       func(p *Problem) { p.Items = make([]Item, 3001) },
		`helper "Dana" has the offer 0`:    func(p *Problem) { p.Helpers[0].Offer = 0 },
		`"Luis" has the offer 1048577`:     func(p *Problem) { p.Helpers[1].Offer = MaxOffer + 1 },
		`two helpers have the key "Luis"`:  func(p *Problem) { p.Helpers[0].Key = "Luis" },
		`two items have the key "b"`:       func(p *Problem) { p.Items[0].Key = "b" },
		"series below 0":                   func(p *Problem) { p.Items[0].Series = -1 },
		"unknown tier":                     func(p *Problem) { p.Items[0].Tier = 3 },
		"the weight 0":                     func(p *Problem) { p.Items[0].Weight = 0 },
		"the load 1441":                    func(p *Problem) { p.Items[0].Load = 1441 },
		"one Able for each":                func(p *Problem) { p.Items[0].Able = nil },
		"likings of some helpers":          func(p *Problem) { p.Items[0].Rather = []int8{0} },
		"the liking 2":                     func(p *Problem) { p.Items[1].Rather[0] = 2 },
		"a helper that there is not":       func(p *Problem) { p.Items[0].Now = 2 },
		"held by nobody":                   func(p *Problem) { p.Items[1].Now = 1 },
		"ends before it begins":            func(p *Problem) { p.Items[0].Takes[0].To = 0 },
		`"a" and "b" overlap and are held`: func(p *Problem) { p.Items[1].Takes[0].From = 29 },
	} {
		p := sound()
		spoil(p)
		if err := p.Check(); err == nil || !strings.Contains(err.Error(), says) || !strings.Contains(err.Error(), ";") {
			t.Errorf("want an error that says %q and what to do, got %v", says, err)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("Solve takes a problem that is not sound")
		}
	}()
	Solve(&Problem{Helpers: []Helper{{"Dana", 0}}}, Options{})
}
