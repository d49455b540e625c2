package families

import (
	"strconv"
	"strings"
	"time"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
)

// Natural is a plan as a web developer would write it as JSON: readable keys, words for
// choices, dates in ISO 8601, helpers by name, and nothing for what is not known.
type Natural struct {
	Version   int                `json:"version"`
	Number    uint32             `json:"number"`
	Patient   string             `json:"patient,omitempty"`
	Surgery   string             `json:"surgery"`
	Arrival   string             `json:"arrival,omitempty"`
	Joint     string             `json:"joint"`
	Operation string             `json:"operation"`
	Stay      string             `json:"stay"`
	Drive     *int               `json:"drive,omitempty"`
	Parking   *int               `json:"parking,omitempty"`
	Facts     []string           `json:"facts,omitempty"`
	Program   uint16             `json:"program,omitempty"`
	Zone      string             `json:"zone,omitempty"` // and the next four where the program does not say so
	Hospital  string             `json:"hospital,omitempty"`
	Address   string             `json:"address,omitempty"`
	Phone     string             `json:"phone,omitempty"`
	Rules     map[string]int     `json:"rules,omitempty"`
	Helpers   []string           `json:"helpers,omitempty"`
	Cover     map[string]string  `json:"cover,omitempty"`
	Ticked    []string           `json:"ticked,omitempty"`
	Duties    []NaturalDuty      `json:"duties,omitempty"`
	Devices   map[string]Device  `json:"devices,omitempty"` // by number, and the next only with stamps
	Stamps    map[string]Changes `json:"stamps,omitempty"`  // by what was changed
}

// Device is one that changed a plan: how often, and whose it is.
type Device struct {
	Changes uint32 `json:"changes,omitempty"`
	Helper  string `json:"helper,omitempty"`
}

// Changes are the acts that wrote a value, each as device.count; nearly always one.
type Changes []string

// MarshalJSON writes a single one without brackets.
func (c Changes) MarshalJSON() ([]byte, error) {
	return []byte(strconv.Quote(strings.Join(c, " "))), nil
}

// NaturalDuty is a duty.
type NaturalDuty struct {
	ID       uint32            `json:"id"`
	Kind     string            `json:"kind"`
	Title    string            `json:"title,omitempty"`
	Place    string            `json:"place,omitempty"`
	Note     string            `json:"note,omitempty"`
	Who      string            `json:"who,omitempty"`
	On       map[string]string `json:"on,omitempty"`    // by weekday
	Takes    map[string]string `json:"takes,omitempty"` // by date; "" for nobody
	First    string            `json:"first"`
	Repeats  string            `json:"repeats,omitempty"`
	Days     []string          `json:"days,omitempty"`
	Count    int               `json:"count,omitempty"`
	Until    string            `json:"until,omitempty"`
	Skipped  []string          `json:"skipped,omitempty"`
	Moved    map[string]string `json:"moved,omitempty"`
	Extra    []string          `json:"extra,omitempty"`
	Length   int               `json:"length"`
	Own      int               `json:"own,omitempty"`
	Drive    *int              `json:"drive,omitempty"`
	Parking  *int              `json:"parking,omitempty"`
	Early    int               `json:"early,omitempty"`
	Leaves   bool              `json:"leaves,omitempty"`
	Dropped  bool              `json:"dropped,omitempty"`
	Revision uint16            `json:"revision,omitempty"`
}

// ToNatural writes a plan, without stamps.
func ToNatural(p plan.Plan) Natural {
	base := plan.BaseOf(p.Program.Number)
	n := Natural{
		Version: 1, Number: p.Number, Patient: p.Patient, Surgery: p.Surgery.String(), Arrival: p.Arrival.String(),
		Joint:     [...]string{"knee", "hip"}[p.Joint],
		Operation: [...]string{"first", "revision", "both"}[p.Operation],
		Stay:      [...]string{"one-night", "same-day", "undecided"}[p.Stay],
		Drive:     known(p.Drive), Parking: known(p.Parking), Program: p.Program.Number, Zone: unless(p.Zone, base.Zone),
		Hospital: unless(p.Program.Hospital, base.Program.Hospital), Address: unless(p.Program.Address, base.Program.Address),
		Phone: unless(p.Program.Phone, base.Program.Phone), Helpers: p.Helpers,
	}
	for _, f := range plan.FactKeys {
		if p.Facts.Has(f.Fact) {
			n.Facts = append(n.Facts, f.Key)
		}
	}
	for r, info := range plan.Rules {
		if p.Program.Own(plan.Rule(r)) {
			put(&n.Rules, info.Key, p.Program.Get(plan.Rule(r)))
		}
	}
	for i, who := range p.Cover {
		if who != 0 {
			put(&n.Cover, plan.BuiltIn[i], p.Helper(who))
		}
	}
	for _, t := range p.Ticked {
		n.Ticked = append(n.Ticked, tickName(t))
	}
	for i := range p.Duties {
		n.Duties = append(n.Duties, toNaturalDuty(&p, &p.Duties[i]))
	}
	return n
}

func toNaturalDuty(p *plan.Plan, d *plan.Duty) NaturalDuty {
	r := &d.Rule
	n := NaturalDuty{
		ID: d.ID, Kind: plan.DutyKeys[d.Kind], Title: d.Title, Place: d.Place, Note: d.Note, Who: p.Helper(d.Who),
		First: moment(repeat.Moment{Day: r.First, At: r.At}), Repeats: [...]string{"", "daily", "weekly", "monthly"}[r.Freq], Count: r.Count,
		Length: d.Length, Own: d.Ride.Own, Drive: known(d.Ride.Drive), Parking: known(d.Ride.Parking), Early: d.Ride.Early,
		Leaves: d.Ride.Leaves, Dropped: d.Dropped, Revision: d.Revision,
	}
	if r.Last != 0 {
		n.Until = r.Last.String()
	}
	for day := range time.Weekday(7) {
		if r.Days.Has(day) {
			n.Days = append(n.Days, weekday(day))
		}
		if who := d.On[day]; who != 0 {
			put(&n.On, weekday(day), p.Helper(who))
		}
	}
	for _, t := range d.Takes {
		put(&n.Takes, t.Day.String(), p.Helper(t.Who))
	}
	for _, day := range r.Skipped {
		n.Skipped = append(n.Skipped, day.String())
	}
	for _, m := range r.Moved {
		put(&n.Moved, m.From.String(), moment(m.To))
	}
	for _, m := range r.Extra {
		n.Extra = append(n.Extra, moment(m))
	}
	return n
}

// Unstamped writes a document without stamps: what a library that keeps its own is given.
func Unstamped(d *merge.Doc) Natural {
	n := ToNatural(d.Plan())
	for _, s := range d.Seen() {
		if name := d.HandOf(s.Actor); name != "" {
			put(&n.Devices, number(uint32(s.Actor)), Device{Helper: name})
		}
	}
	return n
}

// Stamped writes a document, with the stamps of all its registers.
func Stamped(d *merge.Doc) Natural {
	n := ToNatural(d.Plan())
	for _, s := range d.Seen() {
		put(&n.Devices, number(uint32(s.Actor)), Device{s.N, d.HandOf(s.Actor)})
	}
	for _, k := range d.Keys() {
		var acts Changes
		for _, v := range d.Get(k) {
			acts = append(acts, number(uint32(v.Actor))+"."+number(v.N))
		}
		put(&n.Stamps, registerName(k), acts)
	}
	return n
}

func known(n int) *int {
	if n == plan.Unknown {
		return nil
	}
	return &n
}

func unless(s, base string) string {
	if s == base {
		return ""
	}
	return s
}

func put[V any](m *map[string]V, key string, value V) {
	if *m == nil {
		*m = map[string]V{}
	}
	(*m)[key] = value
}

func number(n uint32) string { return strconv.FormatUint(uint64(n), 10) }

func weekday(day time.Weekday) string { return strings.ToLower(day.String()) }

func moment(m repeat.Moment) string { return m.Day.String() + "T" + m.At.String() }

// tickName is the step's id, with the number of a step that comes several times.
func tickName(t plan.Tick) string {
	for i := range schedule.Kinds {
		if schedule.Kinds[i].Code == t.Code {
			if t.N == 0 {
				return schedule.Kinds[i].ID
			}
			return schedule.Kinds[i].ID + "." + number(uint32(t.N))
		}
	}
	panic("families: no step has the code " + number(uint32(t.Code)))
}
