package pack

// A refinement maps a chance to what really happens after it was given, in steps of
// half a unit (secondary symbol estimation, Mahoney, "Data Compression Explained",
// 4.3.3). There is one for each node and one for each kind of text.
type refinement [33]chance

const (
	refinements = mostSymbols + int(kinds)
	refineStep  = unit / 2
)

func (r *refinement) expect() {
	for i := range r {
		r[i] = even(squash((i - len(r)/2) * refineStep))
	}
}

// refineBy gives the final chance in 1/65536.
func (m *texts) refineBy(opinion, node int) int {
	step := (opinion + farthest + 1 + refineStep/2) / refineStep
	m.refine[0] = &m.refined[node][step]
	m.refine[1] = &m.refined[mostSymbols+int(m.reading.kind)][step]
	p := (2*squash(opinion) + m.refine[0].p16() + m.refine[1].p16()) / 4
	return min(max(p, edge), certain-edge)
}
