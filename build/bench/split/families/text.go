package families

import (
	"bufio"
	"fmt"
	"strings"

	"newel/core/assign"
)

// The form of a family's file is one line for each helper and one for each item:
//
//	helper Dana offer=2160
//	item therapy-05 series=6 tier=must weight=5 load=90 takes=8130-8220/3 able=1101 now=Dana held rather=+.-.
//
// A take is from-to/uses, several are joined by commas. "able" has 1 or 0 by helper. "now",
// "held" and "rather" (+ would rather, - rather not) are left out where there is nothing to
// say. Lines that begin with # are for people.

var tiers = []string{assign.Nice: "nice", assign.Should: "should", assign.Must: "must"}

// Write gives a problem as text. Keys hold no spaces; heading is a comment without line ends.
func Write(p *assign.Problem, heading string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n", heading)
	for _, h := range p.Helpers {
		fmt.Fprintf(&b, "helper %s offer=%d\n", h.Key, h.Offer)
	}
	for j := range p.Items {
		b.WriteString(itemLine(p, &p.Items[j]) + "\n")
	}
	return b.String()
}

func itemLine(p *assign.Problem, it *assign.Item) string {
	var takes []string
	for _, t := range it.Takes {
		takes = append(takes, fmt.Sprintf("%d-%d/%d", t.From, t.To, t.Uses))
	}
	able := []byte(strings.Repeat("0", len(p.Helpers)))
	for i, can := range it.Able {
		if can {
			able[i] = '1'
		}
	}
	line := fmt.Sprintf("item %s series=%d tier=%s weight=%d load=%d takes=%s able=%s",
		it.Key, it.Series, tiers[it.Tier], it.Weight, it.Load, strings.Join(takes, ","), able)
	if it.Now != assign.Nobody {
		line += " now=" + p.Helpers[it.Now].Key
	}
	if it.Held {
		line += " held"
	}
	if it.Rather != nil {
		line += " rather="
		for _, r := range it.Rather {
			line += string("-.+"[r+1])
		}
	}
	return line
}

// Read reads what Write wrote. The error says which line is wrong and how.
func Read(text string) (*assign.Problem, error) {
	p := &assign.Problem{}
	lines := bufio.NewScanner(strings.NewReader(text))
	for n := 1; lines.Scan(); n++ {
		line := lines.Text()
		if line == "" || line[0] == '#' {
			continue
		}
		if err := readLine(p, strings.Fields(line)); err != nil {
			return nil, fmt.Errorf("line %d of the family is wrong: %w: %s", n, err, line)
		}
	}
	return p, lines.Err()
}

func readLine(p *assign.Problem, words []string) error {
	if len(words) < 2 {
		return fmt.Errorf("it has no name")
	}
	switch words[0] {
	case "helper":
		h := assign.Helper{Key: words[1]}
		_, err := fmt.Sscanf(strings.Join(words[2:], " "), "offer=%d", &h.Offer)
		p.Helpers = append(p.Helpers, h)
		return err
	case "item":
		it, err := readItem(p, words[1:])
		p.Items = append(p.Items, it)
		return err
	}
	return fmt.Errorf("%q is neither helper nor item", words[0])
}
