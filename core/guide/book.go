// Package guide holds every word that a person reads, in every language, and the
// ways a language writes dates, times and numbers.
//
// The words are text files under text/LANGUAGE/, which a nurse can read and
// correct: steps.txt and duties.txt say what to do and why, signs.txt when to
// call, chapters.txt what each chapter of the guide is about; every other file has
// the words of a part of the page, one line each. What is the same in every language
// stands once: for whom, when and due in core/schedule/steps.txt, what a chapter holds
// in chapters.txt beside this file. A language is one folder; English is the one that
// all others are measured against. Open gives the Book of a language. A word that is
// missing is a mistake in the files: the tests find it, and on the page its key is
// shown rather than nothing.
package guide

import (
	"slices"
	"strconv"
	"strings"
)

// Languages lists the languages that the page speaks, by BCP 47 tag: the folders under
// text, with English first.
var Languages = languages()

const english = "en"

func languages() []string {
	all := []string{english}
	folders, err := texts.ReadDir("text")
	if err != nil {
		panic("guide: " + err.Error())
	}
	for _, f := range folders {
		if f.Name() != english {
			all = append(all, f.Name())
		}
	}
	return all
}

// entryFiles are the files with entries; all others of a language have words.
var entryFiles = []string{"steps.txt", "duties.txt", "signs.txt", "chapters.txt"}

// Book is the words of one language. It is safe to share; nothing changes it.
type Book struct {
	Language string
	words    map[string]string
	entries  map[string]Entry
	plurals  []pluralRule // of counting
	ordinals []pluralRule // of 1st, 2nd, 3rd
	joints   []joint
}

// Entry is the words of a step, a duty, a chapter or a group of signs.
type Entry struct {
	Title   string
	How     []Line
	Coach   string // what the helper does about it, where How says what the patient does
	Patient string // what the patient does about it, where How says what the helper does
	Why     string
}

// Line is one line of an entry: a sentence or, with Point, an item of a list.
type Line struct {
	Text  string
	Point bool
	Typed bool // in the words of a hospital, which may run the other way (HTML 4.5.24, bdi)
}

var shelf = map[string]*Book{}

// Open gives the book for a language tag such as "en-US", by its first part. A
// language without a book gets the English one.
func Open(tag string) *Book {
	language, _, _ := strings.Cut(strings.ToLower(tag), "-")
	if !slices.Contains(Languages, language) {
		language = english
	}
	if shelf[language] == nil {
		shelf[language] = read(language)
	}
	return shelf[language]
}

func read(language string) *Book {
	b := &Book{Language: language, words: map[string]string{}, entries: map[string]Entry{}}
	files, err := texts.ReadDir("text/" + language)
	if err != nil {
		panic("guide: " + err.Error()) // a text of the program itself
	}
	for _, f := range files {
		data, err := texts.ReadFile("text/" + language + "/" + f.Name())
		switch {
		case err != nil:
			panic("guide: " + err.Error())
		case slices.Contains(entryFiles, f.Name()):
			b.readEntries(string(data))
		default:
			b.readWords(string(data))
		}
	}
	b.plurals, b.ordinals, b.joints = b.readRules("plural."), b.readRules("ordinal-rule."), b.readJoints()
	return b
}

// readWords reads lines of the form key = text.
func (b *Book) readWords(text string) {
	for _, line := range strings.Split(text, "\n") {
		if key, value, ok := strings.Cut(line, " = "); ok && line[0] != '#' {
			b.words[key] = value
		}
	}
}

// readEntries reads the form that steps.txt describes at its top.
func (b *Book) readEntries(text string) {
	id, entry := "", Entry{}
	keep := func() {
		if id != "" {
			b.entries[id] = entry
		}
	}
	for _, line := range strings.Split(text, "\n") {
		why, isWhy := strings.CutPrefix(line, "why: ")
		coach, isCoach := strings.CutPrefix(line, "coach: ")
		patient, isPatient := strings.CutPrefix(line, "patient: ")
		point, isPoint := strings.CutPrefix(line, "- ")
		switch {
		case line == "" || line[0] == '#':
		case line[0] == '[':
			keep()
			id, entry = strings.Trim(line, "[]"), Entry{}
		case entry.Title == "":
			entry.Title = line
		case isWhy:
			entry.Why = why
		case isCoach:
			entry.Coach = coach
		case isPatient:
			entry.Patient = patient
		default:
			entry.How = append(entry.How, Line{Text: point, Point: isPoint})
			if !isPoint {
				entry.How[len(entry.How)-1].Text = line
			}
		}
	}
	keep()
}

// Arg fills one {name} of a text.
type Arg struct{ Name, Value string }

// Number is an Arg with a whole number.
func Number(name string, n int) Arg { return Arg{name, strconv.Itoa(n)} }

// Say gives the text under a key with its {names} filled in.
func (b *Book) Say(key string, args ...Arg) string {
	text, ok := b.words[key]
	if !ok {
		lacked = true
		return key
	}
	return fill(text, args, b.joints)
}

// lacked is set when a text was asked for that is not here.
var lacked bool

// Lacked tells whether, since it was last called, a text was asked for that this program comes
// without: then the page it made must not be shown. Never so where all texts are here.
func Lacked() bool {
	was := lacked && partly
	lacked = false
	return was
}

// Has tells whether there is a text under a key.
func (b *Book) Has(key string) bool {
	_, ok := b.words[key]
	return ok
}

// Count gives the text for a number of things, key.FORM, in the form that the plural rules
// of the language give the number: key.one for 1 in English, else key.other. {n} is filled.
func (b *Book) Count(key string, n int, args ...Arg) string {
	return b.Say(key+"."+formOf(b.plurals, n), append(args, Number("n", n))...)
}

// Entry gives the words of a step or a duty. What a variant does not say is taken
// from the entry that it is a variant of.
func (b *Book) Entry(id, variant string, args ...Arg) Entry {
	e := b.entries[id]
	if variant != "" {
		v := b.entries[id+"."+variant]
		if v.Title != "" {
			e.Title = v.Title
		}
		if v.How != nil {
			e.How = v.How
		}
		for _, part := range []struct {
			to   *string
			from string
		}{{&e.Coach, v.Coach}, {&e.Patient, v.Patient}, {&e.Why, v.Why}} {
			if part.from != "" {
				*part.to = part.from
			}
		}
	}
	if e.Title == "" {
		e.Title = id
	}
	return e.filled(args, b.joints)
}

func (e Entry) filled(args []Arg, j []joint) Entry {
	out := Entry{Title: fill(e.Title, args, j), Coach: fill(e.Coach, args, j), Patient: fill(e.Patient, args, j), Why: fill(e.Why, args, j)}
	for _, l := range e.How {
		out.How = append(out.How, Line{Text: fill(l.Text, args, j), Point: l.Point})
	}
	return out
}
