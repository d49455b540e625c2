package families

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"newel/core/assign"
)

// readItem reads the words of an item's line after the first.
func readItem(p *assign.Problem, words []string) (it assign.Item, err error) {
	it = assign.Item{Key: words[0], Now: assign.Nobody}
	for _, word := range words[1:] {
		name, value, _ := strings.Cut(word, "=")
		switch name {
		case "series":
			it.Series, err = strconv.Atoi(value)
		case "weight":
			it.Weight, err = strconv.Atoi(value)
		case "load":
			it.Load, err = strconv.Atoi(value)
		case "tier":
			it.Tier, err = placed[assign.Tier](tiers, value)
		case "takes":
			it.Takes, err = readTakes(value)
		case "able":
			it.Able, err = readAble(p, value)
		case "now":
			it.Now, err = readHelper(p, value)
		case "held":
			it.Held = true
		case "rather":
			it.Rather, err = readRather(p, value)
		default:
			err = fmt.Errorf("nothing is called %q", name)
		}
		if err != nil {
			return it, err
		}
	}
	return it, nil
}

// placed gives the place of a name in a list.
func placed[T ~int | ~uint8](list []string, name string) (T, error) {
	place := slices.Index(list, name)
	if place < 0 {
		return 0, fmt.Errorf("%q is none of %s", name, strings.Join(list, ", "))
	}
	return T(place), nil
}

func readHelper(p *assign.Problem, key string) (int, error) {
	var keys []string
	for _, h := range p.Helpers {
		keys = append(keys, h.Key)
	}
	return placed[int](keys, key)
}

func readTakes(text string) (takes []assign.Take, err error) {
	for part := range strings.SplitSeq(text, ",") {
		var t assign.Take
		if _, err := fmt.Sscanf(part, "%d-%d/%d", &t.From, &t.To, &t.Uses); err != nil {
			return nil, err
		}
		takes = append(takes, t)
	}
	return takes, nil
}

func readAble(p *assign.Problem, text string) (able []bool, err error) {
	if len(text) != len(p.Helpers) {
		return nil, fmt.Errorf("able needs %d signs", len(p.Helpers))
	}
	for _, sign := range text {
		able = append(able, sign == '1')
	}
	return able, nil
}

func readRather(p *assign.Problem, text string) (rather []int8, err error) {
	if len(text) != len(p.Helpers) {
		return nil, fmt.Errorf("rather needs %d signs", len(p.Helpers))
	}
	for _, sign := range text {
		rather = append(rather, int8(strings.IndexRune("-.+", sign)-1))
	}
	return rather, nil
}
