// Package hostile is what the tests on hostile texts, links and forms share: the texts themselves
// (testdata/hostile/texts.txt), a judge of rendered pages, and a watch over code that might never end.
//
//	Texts, Names  the texts by name, and the names in the order of the file
//	Pages, Judge  what the templates write, and what else stands on a page
//	Watch         ends the program where something does not end
package hostile

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
)

// Texts reads the texts of the file below root, the top of the repository. names is their order.
func Texts(root string) (texts map[string]string, names []string, err error) {
	file := filepath.Join(root, "testdata/hostile/texts.txt")
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, nil, err
	}
	texts = map[string]string{}
	for l := range strings.Lines(string(data)) {
		l = strings.TrimSpace(l)
		if l == "" || l[0] == '#' {
			continue
		}
		name, quoted, _ := strings.Cut(l, " ")
		text, err := strconv.Unquote(strings.TrimSpace(quoted))
		if _, there := texts[name]; err != nil || there {
			return nil, nil, fmt.Errorf("%s: the line of %q is there twice or is no Go string", file, name)
		}
		texts[name] = text
		names = append(names, name)
	}
	if len(names) == 0 {
		return nil, nil, fmt.Errorf("%s has no texts", file)
	}
	return texts, names, nil
}

// Unseen finds characters that nobody sees and that change how a text reads: controls but for tab and
// line feed, what Unicode calls format controls of direction (UAX #9, table 4), and zero-width ones.
var Unseen = regexp.MustCompile("[\u202a-\u202e\u2066-\u2069\u061c\u200b-\u200f\u2060-\u2064\u00ad\ufeff\u2028\u2029\\x00-\\x08\\x0b-\\x1f\\x7f-\u009f]")
