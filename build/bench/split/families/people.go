package families

// names are the helpers', all invented.
var names = []string{"Dana", "Luis", "Ines", "Otto", "Mara", "Bela", "Kofi", "Edda"}

// person is what is known of a helper.
type person struct {
	name   string
	weekly int // hours a week that they offered
	able   [tasks]bool
	likes  [tasks]int8
	jobs   []job
	away   [][2]int // days, both included, on which they are not there
}

// job is a weekly time in which they cannot help.
type job struct{ weekday, from, to int } // minutes of the day; to may be after midnight

// somePeople makes the helpers. In a tight family all work long and drive less.
func somePeople(r *Random, count int, kind Kind, days int) (all []person) {
	for i := range count {
		p := person{name: names[i], weekly: []int{6, 6, 3, 12}[r.Below(4)], jobs: work(r, kind)}
		share := 80
		if kind == Tight {
			share = 55
		}
		for t := range tasks {
			p.able[t] = t >= meals || r.Percent(share)
			p.likes[t] = []int8{1, -1, 0, 0, 0, 0}[r.Below(6)]
		}
		if i == 0 { // somebody drives and can stay
			p.able[ride], p.able[hospital], p.able[night] = true, true, true
		}
		for n := r.Between(0, 2); n > 0; n-- {
			first := r.Below(max(1, days))
			p.away = append(p.away, [2]int{first, first + r.Between(0, 4)})
		}
		all = append(all, p)
	}
	return all
}

// work makes somebody's week.
func work(r *Random, kind Kind) (jobs []job) {
	choice := r.Below(5)
	if kind == Tight {
		choice = r.Below(3)
	}
	begin, end := 8*hour+15*r.Between(0, 4), 16*hour+15*r.Between(0, 6)
	switch choice {
	case 0: // office
		for w := range 5 {
			jobs = append(jobs, job{(w + 6) % 7, begin, end})
		}
	case 1: // late shifts
		for _, w := range []int{0, 1, 3, 4, 5} {
			jobs = append(jobs, job{w, 13 * hour, 22 * hour})
		}
	case 2: // early shifts
		for _, w := range []int{1, 2, 4, 5, 6} {
			jobs = append(jobs, job{w, 5 * hour, 14 * hour})
		}
	case 3: // part time
		for _, w := range []int{0, 2} {
			jobs = append(jobs, job{w, begin, 13 * hour})
		}
	}
	return jobs
}

// can tells whether somebody can do a duty at its time.
func (p *person) can(d *duty) bool {
	if !p.able[d.task] {
		return false
	}
	for _, t := range d.takes {
		for _, j := range p.jobs {
			// A night reaches into the next day.
			for n := t.From/day - 1; n <= t.To/day; n++ {
				if n%7 == j.weekday && t.From < n*day+j.to && n*day+j.from < t.To {
					return false
				}
			}
		}
		for _, a := range p.away {
			if t.From < (a[1]+1)*day && a[0]*day < t.To {
				return false
			}
		}
	}
	return true
}

// rather is 1 where they would rather do such a task, -1 where rather not.
func (p *person) rather(t task) int8 {
	if !p.able[t] {
		return 0
	}
	return p.likes[t]
}
