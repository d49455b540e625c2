package guide

import (
	"slices"
	"sort"
	"strings"
)

// pluralForms are the forms of CLDR's plural rules beside "other", which every language has
// (Unicode Technical Standard 35, part 3, section 5).
var pluralForms = []string{"zero", "one", "two", "few", "many"}

// Missing says, in a sentence each and sorted, where a language differs from English: words
// and entries that it lacks, and those that it has and English has not. A language that
// lacks nothing gives none, and only such a one is fit to be shown.
//
// Of texts that come in plural forms a language has its own forms, those that its plural
// rules name (plural.FORM, and ordinal-rule.FORM for ordinal.FORM).
func Missing(tag string) []string {
	b, base := Open(tag), Open(english)
	if b.Language != tag {
		return []string{tag + " is no language of text/: there is no folder of that name"}
	}
	var found []string
	want, have := base.expected(b), b.compared()
	compare(want, have, func(key string, lacks bool) {
		if lacks {
			found = append(found, tag+": the word "+key+" is missing")
		} else {
			found = append(found, tag+": the word "+key+" is one too many: English has no such word")
		}
	})
	compare(ids(base.entries), ids(b.entries), func(id string, lacks bool) {
		if lacks {
			found = append(found, tag+": the entry ["+id+"] is missing")
		} else {
			found = append(found, tag+": the entry ["+id+"] is one too many: English has no such entry")
		}
	})
	sort.Strings(found)
	return found
}

func compare(want, have map[string]bool, differs func(key string, lacks bool)) {
	for key := range want {
		if !have[key] {
			differs(key, true)
		}
	}
	for key := range have {
		if !want[key] {
			differs(key, false)
		}
	}
}

// expected gives the keys that a language must have to say what b says.
func (b *Book) expected(other *Book) map[string]bool {
	keys := map[string]bool{}
	for key := range b.compared() {
		stem, form := b.form(key)
		if form == "" {
			keys[key] = true
			continue
		}
		for _, own := range append(other.forms(stem), "other") {
			keys[stem+"."+own] = true
		}
	}
	return keys
}

// compared gives the keys that every language has: all but its own plural rules and joints.
func (b *Book) compared() map[string]bool {
	keys := map[string]bool{}
	for key, text := range b.words {
		if text != "" && !strings.HasPrefix(key, "plural.") && !strings.HasPrefix(key, "ordinal-rule.") && !strings.HasPrefix(key, "joint.") {
			keys[key] = true
		}
	}
	return keys
}

// form divides the key of a text in plural forms into its stem and the form; form is "" for
// any other key. English has "one" and "other" of each such text, and its own rule for "one".
func (b *Book) form(key string) (stem, form string) {
	dot := strings.LastIndexByte(key, '.')
	if dot < 0 {
		return key, ""
	}
	stem, form = key[:dot], key[dot+1:]
	counted := b.Has("plural.one") && b.Has(stem+".one") && b.Has(stem+".other")
	if counted && (form == "other" || slices.Contains(pluralForms, form)) {
		return stem, form
	}
	return key, ""
}

// forms gives the forms beside "other" that a language has of the text with that stem.
func (b *Book) forms(stem string) []string {
	rule := "plural."
	if stem == "ordinal" {
		rule = "ordinal-rule."
	}
	var all []string
	for _, f := range pluralForms {
		if b.Has(rule + f) {
			all = append(all, f)
		}
	}
	return all
}

func ids(entries map[string]Entry) map[string]bool {
	all := map[string]bool{}
	for id := range entries {
		all[id] = true
	}
	return all
}
