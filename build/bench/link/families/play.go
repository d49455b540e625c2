package families

import (
	"newel/core/merge"
	"newel/core/plan"
)

// device is somebody's phone or computer.
type device int

const (
	office device = iota // the navigator's, on which the plan was made
	maureens
	teos
	priyas
	joaquins
	devicesEnd
)

// Numbers as devices take them by chance, and all acts on the one that made the plan.
var (
	devices   = [devicesEnd]merge.Actor{merge.Maker, 2750338, 911204, 3604951, 1480077}
	oneDevice [devicesEnd]merge.Actor
)

// Step is one thing that happened: an act that led to a document, or that one device
// opened the link of another.
type Step struct {
	By   merge.Actor
	From *merge.Actor // the device whose link was opened; nil of an act
	Doc  *merge.Doc   // what By has afterwards
}

// play is a plan that grows on several devices.
type play struct {
	numbers [devicesEnd]merge.Actor
	docs    map[merge.Actor]*merge.Doc
	steps   []Step
}

// act changes the plan on a device.
func (y *play) act(by device, change func(p plan.Plan) plan.Plan) {
	a := y.numbers[by]
	y.has(a, y.docs[a].Change(a, change(y.docs[a].Plan())))
}

// has notes what a device has after an act.
func (y *play) has(a merge.Actor, doc *merge.Doc) {
	if doc == y.docs[a] {
		panic("families: an act changes nothing")
	}
	y.docs[a] = doc
	y.steps = append(y.steps, Step{By: a, Doc: doc})
}

// hand says whose a device is. Where there is one device for all it is nobody's.
func (y *play) hand(by device, name string) {
	if a := y.numbers[by]; y.numbers != oneDevice {
		y.has(a, y.docs[a].WithHand(a, name))
	}
}

// send lets others open a device's link.
func (y *play) send(from device, to ...device) {
	for _, t := range to {
		a, b := y.numbers[from], y.numbers[t]
		if a == b {
			continue
		}
		doc := y.docs[a]
		if have := y.docs[b]; have != nil {
			var err error
			if doc, err = merge.Join(have, doc); err != nil {
				panic("families: " + err.Error())
			}
		}
		y.docs[b] = doc
		y.steps = append(y.steps, Step{By: b, From: &a, Doc: doc})
	}
}

// duty adds a duty on a device, with a fresh number.
func (y *play) duty(by device, d plan.Duty) (id uint32) {
	y.act(by, func(p plan.Plan) plan.Plan {
		d.ID = p.FreshDuty(uint32(y.numbers[by]))
		id = d.ID
		d.Rule = d.Rule.Canonical()
		return p.WithDuty(d)
	})
	return id
}

// change changes a duty on a device.
func (y *play) change(by device, id uint32, change func(d *plan.Duty)) {
	y.act(by, func(p plan.Plan) plan.Plan {
		old := *p.Duty(id)
		d := old
		change(&d)
		d.Rule = d.Rule.Canonical()
		return p.WithDuty(d.After(old))
	})
}

// tick ticks steps on a device, one act each.
func (y *play) tick(by device, ticks ...plan.Tick) {
	for _, t := range ticks {
		y.act(by, func(p plan.Plan) plan.Plan { return p.WithTick(t, true) })
	}
}
