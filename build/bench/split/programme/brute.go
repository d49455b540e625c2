package programme

import "newel/core/assign"

// Brute tries every answer of a problem and gives the best values of all levels, each
// among the answers that are best in the levels before, and how many answers reach all of
// them. Peak is T*. It takes (helpers+1)^items steps at most.
func Brute(p *assign.Problem) (best Values, ties int) {
	answers := coverBest(p)
	best = answers[0].values
	for _, a := range answers {
		if Less(a.values[assign.Peak], best[assign.Peak]) {
			best[assign.Peak] = a.values[assign.Peak]
		}
	}
	within := answers[:0]
	for _, a := range answers {
		if Over(p, a.to, best[assign.Peak]) == "" {
			within = append(within, a)
		}
	}
	for level := assign.Pairs; level < assign.LevelEnd; level++ {
		within = keepBest(within, level)
		best[level] = within[0].values[level]
	}
	return best, len(within)
}

// answer is one way to share the items out.
type answer struct {
	to     []int
	values Values
}

// keepBest keeps the answers that are best in a level.
func keepBest(answers []answer, level assign.Level) (kept []answer) {
	for _, a := range answers {
		if len(kept) > 0 && Better(level, a.values[level], kept[0].values[level]) {
			kept = nil
		}
		if len(kept) == 0 || a.values[level] == kept[0].values[level] {
			kept = append(kept, a)
		}
	}
	return kept
}

// coverBest are all answers that are best in the three levels of cover.
func coverBest(p *assign.Problem) (answers []answer) {
	s := &search{p: p, apart: clashes(p), to: make([]int, len(p.Items))}
	s.place(0, [3]int64{})
	judge := NewJudge(p)
	for _, to := range s.best {
		answers = append(answers, answer{to, judge.Values(to)})
	}
	return answers
}

// search places one item after the other.
type search struct {
	p     *assign.Problem
	apart [][]bool // by items: one helper cannot have both
	to    []int
	cover [3]int64 // the best so far: must, should, nice
	best  [][]int  // all answers with it
}

func (s *search) place(j int, cover [3]int64) {
	if j == len(s.p.Items) {
		s.keep(cover)
		return
	}
	it := &s.p.Items[j]
	s.to[j] = assign.Nobody
	if !it.Held {
		s.place(j+1, cover)
	}
	cover[tierLevel[it.Tier]] += int64(it.Weight)
	for i := range s.p.Helpers {
		if it.Able[i] && (!it.Held || i == it.Now) && s.free(j, i) {
			s.to[j] = i
			s.place(j+1, cover)
		}
	}
}

// free tells whether none of the items before j that helper i has clashes with it.
func (s *search) free(j, i int) bool {
	for k := range j {
		if s.to[k] == i && s.apart[j][k] {
			return false
		}
	}
	return true
}

func (s *search) keep(cover [3]int64) {
	for n := range cover {
		if cover[n] != s.cover[n] {
			if cover[n] < s.cover[n] {
				return
			}
			s.cover, s.best = cover, nil
			break
		}
	}
	s.best = append(s.best, append([]int(nil), s.to...))
}

// clashes tells of each two items whether they take a use in the same minute.
func clashes(p *assign.Problem) [][]bool {
	apart := make([][]bool, len(p.Items))
	for j := range apart {
		apart[j] = make([]bool, len(p.Items))
		for k := range apart[j] {
			for _, s := range p.Items[j].Takes {
				for _, t := range p.Items[k].Takes {
					apart[j][k] = apart[j][k] || s.Uses&t.Uses != 0 && max(s.From, t.From) < min(s.To, t.To)
				}
			}
		}
	}
	return apart
}
