package mutate

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// listFile gives the reason of every survivor: a line that begins with "# " is a
// reason, and the names below it are those of which it holds.
const listFile = "build/mutate/survivors.txt"

// readList gives the reason by name, and what is wrong with the list itself.
func readList(root string) (map[string]string, []string, error) {
	data, err := os.ReadFile(filepath.Join(root, listFile))
	if err != nil {
		return nil, nil, err
	}
	reasons, problems := parseList(string(data))
	return reasons, problems, nil
}

func parseList(text string) (reasons map[string]string, problems []string) {
	reasons = map[string]string{}
	reason, open := "", false // open: the lines of a reason are being read
	for _, line := range strings.Split(text, "\n") {
		more, isReason := strings.CutPrefix(line, "# ")
		switch {
		case isReason && open:
			reason += " " + more
		case isReason:
			reason, open = more, true
		case strings.TrimSpace(line) == "":
			open = false
		case reason == "":
			problems = append(problems, listFile+" gives no reason for "+line)
		case reasons[line] != "":
			problems = append(problems, listFile+" holds this twice: "+line)
		default:
			reasons[line], open = reason, false
		}
	}
	return reasons, problems
}

// gone are the listed names of this package's that no fault has any more.
func (r report) gone(list map[string]string) []string {
	var problems []string
	for name := range list {
		if strings.HasPrefix(name, r.folder+"/") && !slices.Contains(r.all, name) {
			problems = append(problems, fmt.Sprintf("the source has changed: look at it again, and at its reason in %s: %s", listFile, name))
		}
	}
	slices.Sort(problems)
	return problems
}

// readNames reads a file of names; without a file there is no choice to make.
func readNames(name string) (map[string]bool, error) {
	if name == "" {
		return nil, nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	names := map[string]bool{}
	for _, line := range strings.Split(string(data), "\n") {
		names[line] = true
	}
	return names, nil
}

func writeNames(name string, names []string) error {
	return os.WriteFile(name, []byte(strings.Join(names, "\n")+"\n"), 0o644)
}
