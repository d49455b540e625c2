package pack

// weights is how much each opinion is believed in one situation, in 1/65536. They
// learn which opinions were right (Mahoney, "Data Compression Explained", 4.3.2:
// online gradient descent on coding cost).
type weights [opinions]int32

// Opinions: one of each context, one of each match, and a constant.
const (
	opinions    = contexts + 2 + 1
	firstWeight = 6000 // so that about a tenth of each is believed at first
)

func (w *weights) mix(in *[opinions]int) int {
	var sum int64
	for i := range w {
		sum += int64(in[i]) * int64(w[i])
	}
	return int(min(max(sum>>16, -farthest), farthest))
}

func (w *weights) learn(in *[opinions]int, miss int) {
	miss >>= 3
	for i := range w {
		w[i] += int32((in[i]*miss + 1<<13) >> 14)
	}
}

// missed is how far an opinion was from what happened, in 1/65536.
func missed(opinion int, v bool) int {
	if v {
		return certain - squash(opinion)
	}
	return -squash(opinion)
}

// link is one step of the chain: it corrects the opinion before it by what the counts
// in its own context say (an indirect secondary symbol estimator, as in Mahoney's
// ZPAQ specification, 2009: two weights for each state of the counts).
type link struct {
	keep, add int32 // of the opinion before, and of one unit; in 1/65536
	used      int32
}

const (
	linkRate  = 4
	linkSlow  = 60 // after so many uses it learns as slowly as it ever will
	linkEarly = 7
)

// newLink begins with what the counts alone say: the more there are, the less is kept
// of the opinion before.
func newLink(c counts) link {
	sum := 2 * c.sum()
	return link{
		keep: int32(certain / (sum + 1)),
		add:  int32(stretch(min(c.p16(), certain-1)) * unit * sum / (sum + 1)),
	}
}

func (l *link) opinion(before int) int {
	return min(max(int((int64(l.keep)*int64(before)+int64(l.add)*unit)>>16), -farthest), farthest)
}

func (l *link) learn(before, opinion int, v bool) {
	l.used = min(l.used+1, linkSlow)
	miss := int64(missed(opinion, v) * linkRate * linkSlow / int(min(l.used+linkEarly, linkSlow)))
	l.keep += int32((int64(before)*miss + 1<<16) >> 17)
	l.add += int32((unit*miss + 1<<16) >> 17)
}
