package picture

import "sort"

// bolder is how much wider than Width says a bold text is at the most.
const bolder = 1.1

// label places the words beside the rail: each at the height of its time, or as near as the
// words above and below leave room.
func (l *dayLayout) label(d *Day) {
	right := l.Lane + 2*laneWide + 3
	for _, p := range d.Posts {
		l.Labels = append(l.Labels, dayLabel{FromX: l.Rail, FromY: l.y(p.At), Lines: l.wordsOf(p.Time, p.Title)})
	}
	for i := range d.Spans {
		s := &d.Spans[i]
		from := l.Lane + laneWide
		if s.Second {
			from = right
		}
		at := l.y(s.middle())
		if s.Open {
			at += 6
		}
		l.Labels = append(l.Labels, dayLabel{FromX: from, FromY: at, Lines: l.wordsOf(s.Title, s.When)})
	}
	sort.SliceStable(l.Labels, func(i, j int) bool { return l.Labels[i].FromY < l.Labels[j].FromY })
	want, high := make([]int, len(l.Labels)), make([]int, len(l.Labels))
	for i := range l.Labels {
		want[i] = l.Labels[i].FromY - lineHigh/2
		high[i] = len(l.Labels[i].Lines)*lineHigh + labelGap
	}
	for i, top := range apart(want, high, 2) {
		one := &l.Labels[i]
		one.Top, one.ToY = top, top+lineHigh/2
		for n := range one.Lines {
			one.Lines[n].Y = top + n*lineHigh + lineHigh/2 + capHeight
		}
		l.High = max(l.High, top+high[i])
	}
}

// spacedOut is by how much a text grows where a reader has set letters and words wider apart
// (WCAG 2.2, 1.4.12: by 0.12 and 0.16 of their size), at half an em a letter.
const spacedOut = 1.25

// wordsOf breaks a label into lines: on one line where that has room, else what stands out
// and then what does not.
func (l *dayLayout) wordsOf(strong, plain string) []dayWords {
	room := float64(Wide-l.Text) / spacedOut
	if Width(strong, Letter)*bolder+Width(" "+plain, Letter) <= room {
		return []dayWords{{Strong: strong, Plain: plain}}
	}
	var lines []dayWords
	for _, text := range Wrapped(strong, Letter*bolder, room) {
		lines = append(lines, dayWords{Strong: text})
	}
	for _, text := range Wrapped(plain, Letter, room) {
		lines = append(lines, dayWords{Plain: text})
	}
	return lines
}

// apart moves what overlaps apart, each as little as possible on the whole: what touches each
// other forms a block, which stands where its members wish to be on the average. want are
// the wished tops in order, high the heights, least the smallest top; the answer is in order
// too, and nothing in it overlaps.
func apart(want, high []int, least int) []int {
	type block struct{ first, n, sum, high, top int }
	var blocks []block
	for i := range want {
		b := block{first: i, n: 1, sum: want[i], high: high[i], top: max(least, want[i])}
		for len(blocks) > 0 {
			before := blocks[len(blocks)-1]
			if before.top+before.high <= b.top {
				break
			}
			blocks = blocks[:len(blocks)-1]
			b = block{before.first, before.n + b.n, before.sum + b.sum - b.n*before.high, before.high + b.high, 0}
			b.top = max(least, b.sum/b.n)
		}
		blocks = append(blocks, b)
	}
	tops := make([]int, 0, len(want))
	for _, b := range blocks {
		at := b.top
		for i := b.first; i < b.first+b.n; i++ {
			tops = append(tops, at)
			at += high[i]
		}
	}
	return tops
}
