package guide

import (
	_ "embed"
	"strings"
)

//go:embed sources.txt
var sourcesText string

// Source is where some of the guide's text comes from; a line of sources.txt or, where a
// key has several, all of them.
type Source struct {
	Key       string     // as in the source column of core/schedule/steps.txt, or one of its own
	For       []string   // what leans on it: steps, signs, drive, say-back, reading
	Citations []Citation // none for common practice
}

// Citation is one work.
type Citation struct {
	Text string // as it is, in the language of the source
	// Memory: it is from memory, or was read only where somebody quotes it, so a hospital that
	// reviews the text has to check it.
	Memory bool
}

// Sources gives all sources in the order of sources.txt. Each key comes once.
func Sources() []Source {
	var all []Source
	for _, line := range strings.Split(sourcesText, "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		col := strings.SplitN(line, " | ", 4)
		if len(col) != 4 {
			panic("sources.txt: key, for, checked and citation are needed: " + line)
		}
		s := Source{Key: col[0], For: strings.Split(col[1], ",")}
		if col[3] != "" {
			s.Citations = []Citation{{Text: col[3], Memory: col[2] == "memory" || col[2] == "quoted"}}
		}
		if last := len(all) - 1; last >= 0 && all[last].Key == s.Key {
			all[last].join(s)
			continue
		}
		all = append(all, s)
	}
	return all
}

// join adds a further line of the same key.
func (s *Source) join(t Source) {
	s.Citations = append(s.Citations, t.Citations...)
	for _, use := range t.For {
		if !s.Serves(use) {
			s.For = append(s.For, use)
		}
	}
}

// Serves tells whether something leans on the source: "steps", "signs", "drive", "say-back" or
// "reading".
func (s *Source) Serves(use string) bool {
	for _, u := range s.For {
		if u == use {
			return true
		}
	}
	return false
}
