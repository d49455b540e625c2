package check

import (
	"fmt"
	"slices"
	"strings"
)

// anyRoom stands for every room of the core that comes before the own one in
// the table.
const anyRoom = "*"

// room is a folder of the repository and which other rooms its files may
// import. A folder inside a room belongs to it. Tests may import anything.
type room struct {
	folder string
	may    []string
}

// layers is the table of who may import whom, lowest first. core/zone (the
// time zones) and core/wall (days and times without a zone) are open to everyone
// above them.
var layers = []room{
	{"core/zone", nil},
	{"core/wall", nil},
	{"core/repeat", nil},
	{"core/message", nil},
	{"core/pack", nil},
	{"core/plan", []string{"core/repeat"}},
	{"core/merge", []string{"core/plan", "core/repeat"}},
	{"core/link", []string{"core/pack", "core/merge", "core/plan", "core/repeat"}},
	{"core/schedule", []string{"core/plan", "core/repeat"}},
	{"core/assign", nil},
	{"core/split", []string{"core/schedule", "core/plan", "core/repeat", "core/assign"}},
	{"core/guide", []string{"core/plan", "core/schedule", "core/repeat"}},
	{"core/calendar", []string{"core/plan", "core/schedule", "core/repeat", "core/guide"}},
	{"core/desk", []string{"core/plan", "core/merge", "core/schedule", "core/link", "core/guide", "core/message"}},
	{"core/markup", nil},
	{"core/picture", []string{"core/markup"}},
	{"core/page", []string{anyRoom}},
	{"core/app", []string{anyRoom}},
	{"wasm", []string{"core/app"}},
	{"build/site", nil}, // an edge host takes this folder alone
	{"build", []string{anyRoom, "build"}},
}

// open may be imported from every room.
var open = []string{"core/zone", "core/wall"}

// Layers holds every import between our packages against the table.
func Layers(root string) ([]string, error) {
	sources, err := goSources(root, "")
	if err != nil {
		return nil, err
	}
	var problems []string
	for _, s := range sources {
		from := roomOf(s.dir)
		if from < 0 {
			problems = append(problems, fmt.Sprintf("%s is in no room: add its folder to the table in build/check/layers.go", s.name))
			continue
		}
		for _, p := range s.imports() {
			if problem := judge(from, p); problem != "" {
				problems = append(problems, s.name+" "+problem)
			}
		}
	}
	return problems, nil
}

// judge says what is wrong with an import from a room, or "".
func judge(from int, importPath string) string {
	own := layers[from]
	target, ours := strings.CutPrefix(importPath, module)
	if !ours {
		if own.folder == "build/site" && strings.Contains(importPath, ".") {
			return fmt.Sprintf("imports %s: build/site uses the standard library only", importPath)
		}
		return ""
	}
	to := roomOf(target)
	switch {
	case to < 0:
		return fmt.Sprintf("imports %s, which is in no room of the table in build/check/layers.go", target)
	case to == from, slices.Contains(open, layers[to].folder) && own.folder != "build/site":
		return ""
	case slices.Contains(own.may, layers[to].folder), own.folder == "build" && layers[to].folder == "build/site":
		return ""
	case slices.Contains(own.may, anyRoom) && to < from && strings.HasPrefix(layers[to].folder, "core/"):
		return ""
	}
	return fmt.Sprintf("imports %s: %s may import only %s (build/check/layers.go)", target, own.folder, allowed(own))
}

func allowed(r room) string {
	switch {
	case slices.Contains(r.may, anyRoom):
		return "the rooms of core above it"
	case r.folder == open[0]:
		return "nothing of ours"
	}
	return strings.Join(append(slices.Clone(r.may), open...), ", ")
}

// roomOf finds the room of a folder: the longest entry of the table that it is
// or lies in; -1 for none.
func roomOf(folder string) int {
	best := -1
	for i, r := range layers {
		inside := folder == r.folder || strings.HasPrefix(folder, r.folder+"/")
		if inside && (best < 0 || len(r.folder) > len(layers[best].folder)) {
			best = i
		}
	}
	return best
}
