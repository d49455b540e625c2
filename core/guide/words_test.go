package guide

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/schedule"
)

// sources gives the Go files and templates of core, without tests and without what
// is generated from the templates.
func sources(t *testing.T) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		if strings.HasSuffix(path, "_test.go") || strings.HasSuffix(path, ".qtpl.go") {
			return nil
		}
		if ext := filepath.Ext(path); ext == ".go" || ext == ".qtpl" {
			data, err := os.ReadFile(path)
			name, _ := filepath.Rel("..", path)
			all[filepath.ToSlash(name)] = string(data)
			return err
		}
		return nil
	})
	require.NoError(t, err)
	require.Contains(t, all, "page/plan.qtpl")
	return all
}

// built lists the keys that are put together from parts, with the place where.
func built(t *testing.T) map[string]string {
	keys := map[string]string{}
	add := func(where, prefix string, ends ...string) {
		for _, end := range ends {
			keys[prefix+end] = where
		}
	}
	for n := range 12 {
		add("guide/when.go name", "month.", strconv.Itoa(n+1), "short."+strconv.Itoa(n+1))
	}
	for n := range 7 {
		add("guide/when.go name", "weekday.", strconv.Itoa(n), "short."+strconv.Itoa(n))
	}
	add("guide/plural.go readRules", "plural.", "one")
	add("guide/plural.go readRules", "ordinal-rule.", "one", "two", "few")
	add("guide/amount.go ordinal", "ordinal.", "one", "two", "few", "other")
	add("guide/problem.go Problem", "problem.", append(problemCodes(t), "date-unreadable", "clock-unreadable")...)
	add("guide/problem.go Concern", "concern.", plan.Rules[plan.FoodStop].Key, plan.Rules[plan.LiquidsBefore].Key)
	for i := range schedule.Kinds {
		k := &schedule.Kinds[i]
		add("page/lists.go", "list.", k.List)
		if k.Part != "" {
			add("page/lists.go partTitle", "part.", k.Part)
		}
		if k.Due.Open && Open("en").Has("until."+k.ID) {
			add("guide/general.go Until", "until.", k.ID)
		}
		if k.Due.How == schedule.Computed {
			add("guide/general.go computed", "due.", k.ID)
		}
	}
	add("page/page.go Title", "title.", "knee", "hip", "revision.knee", "revision.hip", "both.knee", "both.hip")
	add("page/rows.go stageRows", "stage.", "ready", "surgery.begins", "surgery.ends", "recovery.ends")
	add("page/dayrail.go stageSpans", "dayrail.", "ready", "surgery", "recovery")
	for _, f := range plan.FactKeys {
		add("page/form.go given, home", "fact.", f.Key)
	}
	for _, r := range plan.Rules {
		add("page/form.go rules", "rule.", r.Key)
	}
	add("page/form.go choice", "form.joint.", "knee", "hip")
	add("page/form.go choice", "form.operation.", "first", "revision", "both")
	add("page/form.go choice", "form.stay.", "one-night", "same-day", "undecided")
	add("page/form.go home", "home-", "none")
	add("page/days.go listRow", "do.", "home", "equipment", "pack", "going")
	add("page/hospitalform.go saying", "form.", plan.ProgramTextKeys[:]...)
	add("page/linenews.go listOf", "list.", plan.ListKeys[plan.CallNow], plan.ListKeys[plan.CallOffice])
	add("page/form.go boxes", "form.group.", "given", "patient", "home")
	add("page/dutyform.go dutyOften", "duty-form.", "weeks", "times", "last")
	add("page/dutyform.go dutyOften", "duty-form.often.", "once", "daily", "weekly", "monthly", "text")
	add("page/dutyform.go dutyOften", "duty-form.month.", "day", "end", "nth", "last")
	add("page/dutyform.go dutyOften", "duty-form.ends.", "weeks", "times", "day", "never")
	add("page/dutyform.go rideWay", "duty-form.leaves.", "wait", "back")
	for kind := range plan.DutyKindEnd {
		add("guide/rule.go Things", Things(kind), ".one", ".other")
	}
	for n := range 7 {
		add("guide/pattern.go weekly", "repeat.weekday.", strconv.Itoa(n))
	}
	for n := range 6 {
		add("guide/pattern.go nth", "repeat.nth.", strconv.Itoa(n))
		if n > 0 {
			add("guide/pattern.go nth", "repeat.nth.last.", strconv.Itoa(n))
		}
	}
	add("guide/rule.go RuleFault", "rule-fault.", append(faultCodes(t), "not-a-rule.blank", "not-that-part.blank")...)
	for _, id := range []string{
		"wash.morning", "wash.evening", "food.time", "food.team", "food.unknown", "drink.time", "drink.team", "drink.unknown",
		"leave.time", "leave.there", "leave.unknown", "home.morning", "home.same-day", "home.unknown", "emergency", "office.phone", "office.no-phone",
		"stay.hours", "stay.until", "walk", "pain", "ride.somebody", "ride.nobody", "clots", "pumps", "driving", "hands",
	} {
		topic, _, _ := strings.Cut(id, ".")
		add("page/sayquestions.go question", "say-back."+id, ".ask", ".answer")
		add("page/sayquestions.go question", "say-back."+topic, ".topic")
	}
	for _, source := range Sources() {
		for _, use := range source.For {
			if use != "steps" {
				add("page/sources.go usesOf", "sources.for.", use)
			}
		}
	}
	shipped, err := os.ReadFile("../page/shipped.txt")
	require.NoError(t, err)
	for line := range strings.Lines(string(shipped)) {
		add("page/about.qtpl aboutPage", "about.for.", strings.TrimSpace(line[strings.LastIndexByte(line, '|')+1:]))
	}
	add("page/calls.go reviewed", "review.", "none", "by", "on")
	add("page/calls.go reviewed", "translation.", "none", "by", "on")
	add("plan/aboutcheck.go CheckAbout", "problem.", "away-long", "times-many", "likes-twice")
	add("guide/general.go Duty", "stay.", "morning", "afternoon", "night")
	add("guide/general.go Slot", "slot.", "morning", "afternoon", "night")
	add("page/dutyform.go dutyNeed", "duty-form.need.", "kind", "must", "should", "nice")
	add("page/helperform.go abilities", "helper.can.", "drive", "night", "steady", "pets")
	add("page/helperform.go howMuch", "helper.offer.", "light", "usual", "lot")
	add("page/helperform.go when", "helper.when.", "any", "work", "only")
	add("page/helperform.go likings", "task.", "ride", "hospital", "pets", "meals", "night", "company", "other")
	add("page/helperform.go likings", "helper.rather.", "none", "yes", "no")
	add("page/reason.go backKey", "why.back.", "therapy", "visit", "ride")
	add("page/reason.go during", "why.work.", "until", "from", "span", "then")
	add("page/reason.go during", "why.away.", "until", "from", "span", "then")
	add("page/split.go count", "split.", "open.one", "open.other", "clash.one", "clash.other")
	add("page/suggest.go NewSuggestView", "split.stays-open.", "one", "other")
	add("app/helperform.go", "problem.", "helper-missing", "helper-taken", "days-missing", "times-missing", "times-same", "gone-turned", "gone-long")
	add("page/paper.go NewPaperChoice", "paper.", "fridge", "cover", "cover.what", "card", "card-large", "pack", "guide", "fridge.what", "card.what", "card-large.what", "pack.what", "guide.what")
	add("app/deskrows.go pasteRows", "desk-rows.what.", "label", "date", "arrival", "joint", "operation", "stay", "soap", "drink", "pass", "no-soap", "team", "language", "link")
	add("app/deskrowview.go madeRow", "desk-rows.state.", "none", "made", "same", "moved")
	add("page/desksettings.go NewSettingsView", "settings.group.", "before", "day", "going", "after", "calls")
	add("app/desksettingsform.go", "problem.", "settings-missing", "settings-dayless", "settings-days")
	add("desk/sentence.go ColumnName", "desk.column.", "label", "date", "arrival", "joint", "operation", "stay", "soap", "drink", "pass", "no-soap", "team", "language", "link", "message", "note")
	for _, tag := range Languages {
		add("desk/answers.go newReader", "desk.language.", tag)
	}
	add("desk/sentence.go Sentence", "desk.row.", "table-big", "table-empty", "table-head", "column-missing", "column-twice", "columns-many", "rows-many", "rows-none",
		"columns-unread", "column-second", "joint-none", "joint-unread", "arrival-unread", "time-open", "joint-missing", "joint-twice", "given-unknown", "dates-day-first", "column-aside", "soap-apart",
		"cells-many", "quote-open", "row-twice", "label-twice", "link-twice", "link-damaged", "link-locked", "link-part", "link-newer", "link-full",
		"link-settled", "link-unsettled", "link-other", "link-hospital", "link-unknown",
		"date-missing", "date-unreal", "date-outside", "date-month", "date-day-only", "date-day-first", "date-month-first", "date-mixed", "date-weekday", "date-year", "date-past", "date-far", "date-clock", "date-serial", "date-serial-clock",
		"date-phantom", "date-number", "time-unreal", "time-half", "time-serial", "time-odd", "time-skipped", "time-old", "answer-unknown", "operation-apart")
	add("desk/fault.go FaultText", "settings.fault.", settingsFaults(t)...)
	add("desk/guidance.go LaxText", "settings.lax.", "food-stop", "food-stop.ready", "liquids-before", "liquids-before.ready", "no-shave-hours",
		"stay-with-hours", "clot-days", "clot-days.least")
	add("calendar/why.go Why, WhyNot", "import.", importCodes(t)...)
	return keys
}

// importCodes reads the codes of what a calendar file has and a plan has not.
func importCodes(t *testing.T) []string {
	all := sources(t)
	var codes []string
	for _, m := range regexp.MustCompile(`(?m)^\t(?:Left|Too|Not)\w+ += "([a-z-]+)"`).FindAllStringSubmatch(all["calendar/read.go"]+all["calendar/lines.go"], -1) {
		codes = append(codes, m[1])
	}
	require.GreaterOrEqual(t, len(codes), 26)
	return codes
}

// settingsFaults reads the codes of what can be wrong in a settings file.
func settingsFaults(t *testing.T) []string {
	var codes []string
	for _, m := range regexp.MustCompile(`(?m)^\t(?:toml|fault|Fault)\w+ += "([a-z-]+)"`).FindAllStringSubmatch(sources(t)["desk/fault.go"], -1) {
		codes = append(codes, m[1])
	}
	require.GreaterOrEqual(t, len(codes), 28)
	return codes
}

// problemCodes reads the codes of problems from the place where they are declared.
func problemCodes(t *testing.T) []string {
	_, block, ok := strings.Cut(sources(t)["plan/check.go"], "// The codes of problems.\nconst (")
	require.True(t, ok)
	block, _, _ = strings.Cut(block, "\n)")
	var codes []string
	for _, m := range regexp.MustCompile(`= "([a-z-]+)"`).FindAllStringSubmatch(block, -1) {
		codes = append(codes, m[1])
	}
	require.GreaterOrEqual(t, len(codes), 15)
	_, block, ok = strings.Cut(sources(t)["plan/dutycheck.go"], "const (")
	require.True(t, ok)
	block, _, _ = strings.Cut(block, "\n)")
	for _, m := range regexp.MustCompile(`= "([a-z-]+)"`).FindAllStringSubmatch(block, -1) {
		codes = append(codes, m[1])
	}
	_, block, ok = strings.Cut(sources(t)["plan/linecheck.go"], "const (")
	require.True(t, ok)
	block, _, _ = strings.Cut(block, "\n)")
	for _, m := range regexp.MustCompile(`= "([a-z-]+)"`).FindAllStringSubmatch(block, -1) {
		codes = append(codes, m[1])
	}
	return codes
}

// faultCodes reads the codes of faults of a rule from the place where they are declared.
func faultCodes(t *testing.T) []string {
	var codes []string
	for _, m := range regexp.MustCompile(`(?m)^\t[A-Z]\w+ += "([a-z-]+)"`).FindAllStringSubmatch(sources(t)["repeat/fault.go"], -1) {
		codes = append(codes, m[1])
	}
	require.GreaterOrEqual(t, len(codes), 14)
	return codes
}

var (
	literal = regexp.MustCompile(`"([a-z0-9-]+(?:\.[a-z0-9-]+)*)"`)
	said    = regexp.MustCompile(`\bSay\("([^"]+)"[,)]`)
	counted = regexp.MustCompile(`\bCount\("([^"]+)"[,)]`)
)

// named gives the keys that stand in the sources as they are: those said, and the
// dotted literals, which go through variables.
func named(t *testing.T) (keys, literals map[string]bool) {
	keys, literals = map[string]bool{}, map[string]bool{}
	for name, text := range sources(t) {
		if name == "app/exchange.go" {
			continue // its dotted keys are those of the border between Go and TypeScript
		}
		for _, m := range said.FindAllStringSubmatch(text, -1) {
			keys[m[1]] = true
		}
		for _, m := range counted.FindAllStringSubmatch(text, -1) {
			keys[m[1]+".one"], keys[m[1]+".other"] = true, true
		}
		for _, m := range literal.FindAllStringSubmatch(text, -1) {
			if strings.Contains(m[1], ".") && !strings.HasSuffix(m[1], ".txt") {
				literals[m[1]] = true
			}
		}
	}
	return keys, literals
}

func TestEveryWordIsUsed(t *testing.T) {
	made := built(t)
	keys, literals := named(t)
	for _, key := range sorted(Open("en").words) {
		_, ok := made[key]
		require.True(t, ok || keys[key] || literals[key], "nothing says %s", key)
	}
}

func TestEveryKeyInTheSourcesHasAWord(t *testing.T) {
	words := Open("en").words
	spaces := map[string]bool{} // what the keys begin with
	for key := range words {
		first, _, _ := strings.Cut(key, ".")
		spaces[first] = true
	}
	keys, literals := named(t)
	for _, key := range sorted(keys) {
		require.NotEmpty(t, words[key], "%s is said but has no word", key)
	}
	made := built(t)
	for key, where := range made {
		require.NotEmpty(t, words[key], "%s, built in %s, has no word", key, where)
	}
	for _, key := range sorted(literals) {
		if first, _, _ := strings.Cut(key, "."); spaces[first] && !keys[key+".one"] && made[key+".one"] == "" {
			require.NotEmpty(t, words[key], "%s looks like a key, but has no word", key)
		}
	}
}

// A number with {n} needs both forms.
func TestFormsComeInPairs(t *testing.T) {
	words := Open("en").words
	for _, key := range sorted(words) {
		if base, ok := strings.CutSuffix(key, ".one"); ok && base != "plural" && base != "ordinal-rule" {
			require.NotEmpty(t, words[base+".other"], base)
		}
	}
}
