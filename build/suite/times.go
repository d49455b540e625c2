package suite

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// took is a browser test's line; its name begins with its engine.
var took = regexp.MustCompile(`(?m)^[✔✖] (\w+): (.*) \((\d+)[\d.]*ms\)$`)

// engineTimes says how long the tests of each engine took and which were the longest: the first
// question of whoever wants the suite to be quicker. Two files run at a time, so the sum is twice the clock's.
func engineTimes(out string) string {
	out, _, _ = strings.Cut(out, "✖ failing tests:")
	type test struct {
		name string
		ms   int
	}
	var all []test
	var engines []string
	ms, count := map[string]int{}, map[string]int{}
	for _, m := range took.FindAllStringSubmatch(out, -1) {
		n, _ := strconv.Atoi(m[3])
		if count[m[1]] == 0 {
			engines = append(engines, m[1])
		}
		ms[m[1]] += n
		count[m[1]]++
		all = append(all, test{m[1] + ": " + m[2], n})
	}
	slices.SortFunc(all, func(a, b test) int { return cmp.Compare(b.ms, a.ms) })
	var parts []string
	for _, engine := range engines {
		parts = append(parts, fmt.Sprintf("%s %d s in %d tests", engine, ms[engine]/1000, count[engine]))
	}
	text := strings.Join(parts, ", ")
	for _, t := range all[:min(12, len(all))] {
		text += fmt.Sprintf("\n    %4d s  %s", t.ms/1000, t.name)
	}
	return text
}
