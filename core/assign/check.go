package assign

import (
	"errors"
	"sort"
	"strconv"
)

// Check says whether Solve can take the problem. The error says what is wrong with which
// helper or item and what would be right; it is for the programmer who made the problem.
func (p *Problem) Check() error {
	if len(p.Helpers) > MaxHelpers {
		return errors.New("assign: " + strconv.Itoa(len(p.Helpers)) + " helpers; give at most " + strconv.Itoa(MaxHelpers))
	}
	if len(p.Items) > MaxItems {
		return errors.New("assign: " + strconv.Itoa(len(p.Items)) + " items; give at most " + strconv.Itoa(MaxItems))
	}
	keys := make([]string, len(p.Helpers))
	for i, h := range p.Helpers {
		keys[i] = h.Key
		if h.Offer < 1 || h.Offer > MaxOffer {
			return outOf("helper "+strconv.Quote(h.Key), "offer", h.Offer, 1, MaxOffer)
		}
	}
	if twice, found := doubled(keys); found {
		return errors.New("assign: two helpers have the key " + strconv.Quote(twice) + "; give each its own")
	}
	keys = make([]string, len(p.Items))
	for j := range p.Items {
		keys[j] = p.Items[j].Key
		if err := p.checkItem(&p.Items[j]); err != nil {
			return err
		}
	}
	if twice, found := doubled(keys); found {
		return errors.New("assign: two items have the key " + strconv.Quote(twice) + "; give each its own")
	}
	return p.checkHeld()
}

func outOf(what, field string, got, least, most int) error {
	return errors.New("assign: " + what + " has the " + field + " " + strconv.Itoa(got) +
		"; give one from " + strconv.Itoa(least) + " to " + strconv.Itoa(most))
}

func doubled(keys []string) (string, bool) {
	sort.Strings(keys)
	for k := 1; k < len(keys); k++ {
		if keys[k] == keys[k-1] {
			return keys[k], true
		}
	}
	return "", false
}

func (p *Problem) checkItem(it *Item) error {
	name := "item " + strconv.Quote(it.Key)
	switch {
	case it.Series < 0:
		return errors.New("assign: " + name + " has a series below 0; give one from 0")
	case it.Tier >= tierEnd:
		return errors.New("assign: " + name + " has an unknown tier; give Nice, Should or Must")
	case it.Weight < 1 || it.Weight > MaxWeight:
		return outOf(name, "weight", it.Weight, 1, MaxWeight)
	case it.Load < 0 || it.Load > MaxLoad:
		return outOf(name, "load", it.Load, 0, MaxLoad)
	case len(it.Able) != len(p.Helpers):
		return errors.New("assign: " + name + " does not say of each helper whether they are able; give one Able for each")
	case it.Rather != nil && len(it.Rather) != len(p.Helpers):
		return errors.New("assign: " + name + " has likings of some helpers only; give one Rather for each, or none at all")
	case it.Now < Nobody || it.Now >= len(p.Helpers):
		return errors.New("assign: " + name + " is with a helper that there is not; give a place in Helpers or Nobody")
	case it.Held && (it.Now == Nobody || !it.Able[it.Now]):
		return errors.New("assign: " + name + " is held by nobody who is able; let it go, or say that its helper is able")
	}
	for _, r := range it.Rather {
		if r < -1 || r > 1 {
			return outOf(name, "liking", int(r), -1, 1)
		}
	}
	for _, t := range it.Takes {
		if t.From >= t.To {
			return errors.New("assign: " + name + " takes a time that ends before it begins; let From be below To")
		}
	}
	return nil
}

// checkHeld finds two held items of one helper that overlap.
func (p *Problem) checkHeld() error {
	var held []int
	for j := range p.Items {
		if p.Items[j].Held {
			held = append(held, j)
		}
	}
	for a, j := range held {
		for _, k := range held[:a] {
			if p.Items[j].Now == p.Items[k].Now && overlap(p.Items[j].Takes, p.Items[k].Takes) {
				return errors.New("assign: items " + strconv.Quote(p.Items[k].Key) + " and " + strconv.Quote(p.Items[j].Key) +
					" overlap and are held by one helper; let one of them go")
			}
		}
	}
	return nil
}

// overlap says whether two items need one use at the same time.
func overlap(a, b []Take) bool {
	for _, x := range a {
		for _, y := range b {
			if x.Uses&y.Uses != 0 && x.From < y.To && y.From < x.To {
				return true
			}
		}
	}
	return false
}
