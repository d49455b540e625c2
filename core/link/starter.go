package link

import (
	"strconv"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// A desk makes hundreds of links that differ in what the head says. The body of a link without
// stamps does not depend on the head (ofHead codes nothing then), so it is coded once.

// Starters writes first links of plans, each as Encode(merge.New(plan)) does. The zero value
// is ready.
type Starters struct {
	bodies []starterBody
}

// starterBody is what was coded of plans that say this beside the head.
type starterBody struct {
	plan plan.Plan
	body []byte
}

// mostBodies bounds what is kept; the first ones go.
const mostBodies = 64

// Encode writes the first link of a plan, "" as Encode does.
func (s *Starters) Encode(p *plan.Plan) string {
	alike := headless(*p)
	for i := range s.bodies {
		if b := &s.bodies[i]; b.plan.SameFacts(alike) && b.plan.SameTicks(&alike) {
			h := headFor(p)
			return lettersOf(seal(append(h.bytes(), b.body...)))
		}
	}
	fragment := Encode(merge.New(*p))
	if body, ok := bodyOf(fragment); ok {
		if len(s.bodies) == mostBodies {
			s.bodies = s.bodies[1:]
		}
		s.bodies = append(s.bodies, starterBody{alike, body})
	}
	return fragment
}

// headless is a plan without what a head says.
func headless(p plan.Plan) plan.Plan {
	p.Number, p.Surgery, p.Arrival, p.Stay, p.Joint, p.Operation = 0, wall.FirstDate, wall.NoClock, 0, 0, 0
	return p
}

func headFor(p *plan.Plan) Head {
	return Head{Version: version, Number: p.Number, Surgery: p.Surgery, Arrival: p.Arrival, Stay: p.Stay, Joint: p.Joint, Operation: p.Operation}
}

// bodyOf is the body of a link without stamps.
func bodyOf(fragment string) (body []byte, ok bool) {
	whole, ok := bytesOf(fragment)
	if !ok {
		return nil, false
	}
	h, body, err := open(whole)
	return body, err == nil && h.Version == version && !h.Part && !h.stamped
}

// Reader reads links as Decode does, and what stands in many of them once. The zero value is
// ready.
type Reader struct {
	bodies map[string]*merge.Doc
}

// Decode reads a fragment, with the errors of Decode.
func (r *Reader) Decode(fragment string) (*merge.Doc, error) {
	body, ok := bodyOf(fragment)
	if !ok {
		return Decode(fragment)
	}
	if d := r.bodies[string(body)]; d != nil {
		whole, _ := bytesOf(fragment)
		h, _, _ := open(whole)
		return withHead(d, h), nil
	}
	d, err := Decode(fragment)
	if err != nil {
		return nil, err
	}
	if r.bodies == nil || len(r.bodies) >= mostBodies {
		r.bodies = map[string]*merge.Doc{}
	}
	r.bodies[string(body)] = d
	return d, nil
}

// withHead is a document that differs from one in what the head says.
func withHead(d *merge.Doc, h Head) *merge.Doc {
	first := merge.Stamp{Actor: merge.Maker, N: 1}
	like := merge.NewDoc(h.Number)
	like.SetSeen(first)
	for _, k := range d.Keys() {
		like.Set(k, d.Get(k))
	}
	for _, r := range h.registers() {
		var versions []merge.Version
		if r.present {
			versions = []merge.Version{{Stamp: first, Value: strconv.Itoa(r.value)}}
		}
		like.Set(merge.Key{Field: r.field}, versions)
	}
	return like
}
