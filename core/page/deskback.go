package page

import (
	"strings"

	"newel/core/guide"
	"newel/core/plan"
)

// SaidWord begins the fragment of what was said back, and of nothing else.
const SaidWord = "said."

// IsSaid tells whether a fragment is such a one.
func IsSaid(fragment string) bool { return strings.HasPrefix(fragment, SaidWord) }

// saidLetters are the questions by their letter in such a fragment: the first is a. Letters go
// onto paper and into photographs, so a question keeps its place for ever; others come at the
// end, and there is room for twenty-six.
var saidLetters = []string{
	"wash", "food", "drink", "leave", "home", "emergency", "office", "stay", "walk", "pain", "ride", "clots", "pumps", "driving", "hands",
}

// SaidCode writes what was said back, to be held up at the desk: a letter for each question, a
// capital where it is to be explained again. It holds no plan, no name and no answer.
func SaidCode(v *SayBack) string {
	code := []byte(SaidWord)
	for i := range v.Asked {
		for n, id := range saidLetters {
			switch a := &v.Asked[i]; {
			case a.ID != id:
			case a.Said == SaidClear:
				code = append(code, byte('a'+n))
			case a.Said == SaidUnclear:
				code = append(code, byte('A'+n))
			}
		}
	}
	return string(code)
}

// SaidBack is what such a fragment says, at the desk.
type SaidBack struct {
	Voice    guide.Voice
	Fragment string
	Calls    Calls
	Damaged  bool // it is none that a page makes
	Count    string
	Again    []Told
	Clear    []Told
}

// Told is the topic of one question, and the chapter of the guide that explains it.
type Told struct {
	Topic   string
	Chapter *ChapterLink
}

// saidChapters are the chapters that explain what the questions ask, in the order of saidLetters.
var saidChapters = []string{
	"washing", "evening", "evening", "day", "staying", "signs", "signs", "first", "weeks", "weeks", "therapy", "signs", "weeks", "later", "weeks",
}

// NewSaidBack reads the fragment.
func NewSaidBack(v guide.Voice, fragment string) SaidBack {
	view := SaidBack{Voice: v, Fragment: fragment, Calls: NewCalls(v, nil, fragment)}
	home := plan.BaseOf(plan.Home)
	p := plan.Plan{Program: home.Program}
	args := append(v.Fills(&p, 0, 0), arg("number", p.Program.Emergency()))
	letters := strings.TrimPrefix(fragment, SaidWord)
	seen := map[rune]bool{}
	for _, r := range letters {
		again := r >= 'A' && r <= 'Z'
		n := int(r - 'a')
		if again {
			n = int(r - 'A')
		}
		if n < 0 || n >= len(saidLetters) || seen[rune(n)] {
			view.Damaged = true
			break
		}
		seen[rune(n)] = true
		told := Told{Topic: v.Say("say-back."+saidLetters[n]+".topic", args...), Chapter: saidChapter(v, n)}
		if again {
			view.Again = append(view.Again, told)
		} else {
			view.Clear = append(view.Clear, told)
		}
	}
	if view.Damaged || len(seen) != questionsAsked { // cut off, or made up
		view.Damaged, view.Again, view.Clear = true, nil, nil
		return view
	}
	view.Count = v.Count("say-back.clear", len(view.Clear), guide.Number("of", len(view.Clear)+len(view.Again)))
	return view
}

func saidChapter(v guide.Voice, n int) *ChapterLink {
	c := guide.ChapterByID(saidChapters[n])
	if c == nil {
		return nil
	}
	return &ChapterLink{Path: chapterPath(c), Title: chapterEntry(v, c).Title}
}

// SaidBackPage makes the page.
func SaidBackPage(v *SaidBack) string { return saidBackPage(v) }
