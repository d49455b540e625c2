package catalogue

import (
	"newel/core/app"
	"newel/core/link"
	"newel/core/merge"
)

// newer is a link with something that this page gives no meaning.
func newer() string {
	d := merge.New(family())
	d.Set(merge.Key{Field: merge.FirstUnknown}, []merge.Version{{Stamp: d.Seen()[0], Value: "1"}})
	return link.Encode(d)
}

// linkStates are links that are handed over, and links that are no plan.
func linkStates(v Vectors) []State {
	return append(handStates(v), openStates(v)...)
}

func handStates(v Vectors) []State {
	const group = "Handing the link over"
	on := func(path string, fields ...app.Field) func(*phone) {
		return func(p *phone) { p.of(family()).send(path, fields...) }
	}
	return []State{
		{Group: group, Name: "link", What: "The ways in which the whole plan's link is handed over.", reach: on("/link")},
		{Group: group, Name: "link-of-a-helper", What: "One helper's part, to be handed over.", reach: on("/link/part")},
		{Group: group, Name: "link-of-a-helper-chosen", What: "Luis's part.", reach: func(p *phone) { p.of(family()).send("/link/part").press("/link/part", field("part", "2")) }},
		{Group: group, Name: "lock", What: "Where a link is locked with a phrase.", reach: on("/link/lock")},
		{Group: group, Name: "lock-short", What: "The phrase is too short.", reach: func(p *phone) { p.of(family()).send("/link/lock").press("/link/lock", field("phrase", "short")) }},
		{Group: group, Name: "lock-working", What: "The link is being locked.", reach: func(p *phone) {
			p.of(family()).send("/link/lock").press("/link/lock", field("phrase", "the porch lamp is green"))
		}},
		{Group: group, Name: "locked", What: "It is locked, with its phrase to be read out.", reach: on("/link", field("locked", v.Locked), field("phrase", "the porch lamp is green"))},
		{Group: group, Name: "lock-unable", What: "The browser cannot lock it.", reach: on("/link", field("unable", "1"))},
		{Group: group, Name: "afresh", What: "Before starting a plan afresh.", reach: on("/link/afresh")},
		{Group: group, Name: "afresh-newer", What: "The plan holds something that only a newer page shows: it would not come along.", reach: func(p *phone) {
			p.open(newer()).send("/link/afresh")
		}},
		{Group: group, Name: "afresh-done", What: "It was started afresh.", reach: func(p *phone) { p.of(family()).send("/link/afresh").press("/link/afresh", field("sure", "1")) }},
		{Group: group, Name: "not-sent-yet", What: "Something was changed here that the others do not have.", reach: func(p *phone) {
			p.of(family()).send("/duty/4").press("/duty/4/drop").send("/")
		}},
		{Group: group, Name: "send", What: "It was handed to the phone's own sharing: nothing is left to send.", reach: func(p *phone) {
			p.of(family()).send("/duty/4").press("/duty/4/drop").send("/").press("/send").send("/", field("sent", "shared"))
		}},
	}
}

func openStates(v Vectors) []State {
	const group = "Opening a link"
	parts := func(who uint8) string { p := family(); return link.EncodePart(p, p.Helper(who)) }
	long := fragmentOf(family())
	return []State{
		{Group: group, Name: "damaged-link", What: "A link of which the end is missing.", reach: func(p *phone) { p.open(long[:len(long)-7]) }},
		{Group: group, Name: "damaged-link-plan-here", What: "The same, and the plan is on the device.", reach: func(p *phone) { p.of(family()).open(long[:len(long)-7]) }},
		{Group: group, Name: "newer-link", What: "A link that a newer page wrote.", reach: func(p *phone) { p.open(v.Newer) }},
		{Group: group, Name: "pasted", What: "A message was pasted that holds no link.", reach: func(p *phone) { p.open("").press("/open", field("text", "see you on Tuesday")) }},
		{Group: group, Name: "pasted-link", What: "A message with a link was pasted.", reach: func(p *phone) { p.open("").press("/open", field("text", "Rosa: "+address+"#"+long)) }},
		{Group: group, Name: "locked-link", What: "A locked link asks for its phrase.", reach: func(p *phone) { p.open(v.Locked) }},
		{Group: group, Name: "locked-link-working", What: "It is being opened.", reach: func(p *phone) { p.open(v.Locked).press("/unlock", field("phrase", "the porch lamp is green")) }},
		{Group: group, Name: "locked-link-wrong", What: "The phrase was wrong.", reach: func(p *phone) {
			p.open(v.Locked).send("/unlock", field("wrong", "1"), field("phrase", "the porch lamp is gray"))
		}},
		{Group: group, Name: "locked-link-unable", What: "The browser cannot open it.", reach: func(p *phone) { p.open(v.Locked).send("/unlock", field("unable", "1")) }},
		{Group: group, Name: "part", What: "One helper's part, to read only.", reach: func(p *phone) { p.open(parts(1)) }},
		{Group: group, Name: "part-day-of-surgery", What: "The same on the day of surgery.", reach: func(p *phone) { p.at(0, 3, 30).open(parts(1)) }},
		{Group: group, Name: "part-over", What: "The same when it is over.", reach: func(p *phone) { p.at(300, 9, 0).open(parts(1)) }},
		{Group: group, Name: "part-calendar", What: "A calendar file from one helper's part.", reach: func(p *phone) { p.open(parts(2)).send("/calendar") }},
		{Group: group, Name: "part-guide", What: "The guide beside one helper's part.", reach: func(p *phone) { p.open(parts(2)).send("/guide") }},
		{Group: group, Name: "does-not-fit", What: "Two links of one plan that cannot be joined.", reach: func(p *phone) { unfit(p) }},
		{Group: group, Name: "does-not-fit-joined", What: "They were joined again.", reach: func(p *phone) { unfit(p).send("/join") }},
	}
}

// unfit is a phone that holds a link beside the plan that once did not fit into it.
func unfit(p *phone) *phone {
	other := family()
	other.Arrival += 45
	p.in.Kept[key("other")] = fragmentOf(other)
	return p.of(family())
}
