package budget

// Reasons say why a part earns its bytes. Each of the ten largest has one (a test asks for it).
var Reasons = map[string]string{
	"core/page":             "the templates: every screen and every picture's frame is HTML that is written here, compiled instead of parsed on the phone",
	"runtime":               "Go's own: memory, its collector, maps, the scheduler; an empty program has nearly all of it",
	"core/app":              "each thing that a person can do: reading forms, changing the plan, saying what came of it",
	"core/guide":            "every word in two languages, with plurals, dates and times; two thirds of it are the texts themselves",
	"core/split":            "who can do what and why not, in a family's terms",
	"core/merge":            "copies that were changed apart are joined without a server: each register's rules",
	"core/schedule":         "from facts to dated duties and steps, with the table of all steps",
	"core/link":             "a whole plan in a link that a text message holds, written and read canonically",
	"core/pack":             "the models that make the link short",
	"core/plan":             "what a plan may say and what is wrong with one",
	"core/repeat":           "repeating rules on the wall's clock (RFC 5545 3.3.10)",
	"core/picture":          "the drawings, made of numbers on the phone",
	"core/zone":             "the time zones that are shipped, since no phone tells Go its own",
	"time":                  "Go's: zones, calendars; core/zone and the calendar files stand on it",
	"slices":                "Go's generic sorts and searches, compiled once for each type",
	"strings":               "Go's: building and cutting texts",
	"internal/strconv":      "Go's: numbers as texts and back",
	"internal/runtime/maps": "Go's hash tables",
	"syscall/js":            "the bridge to the page",
}
