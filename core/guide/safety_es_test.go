package guide

import (
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"newel/core/message"
	"newel/core/wall"
)

// What the Spanish texts may and may not say: the tests of safety_test.go, content_test.go
// and signs_test.go in Spanish words. The numbers in brackets are those of the published
// check values that each leans on.

// No dose, no unit of one, no medicine by name, no mark of a brand.
func TestNoDosesNoBrandsNoMedicinesInSpanish(t *testing.T) {
	never := regexp.MustCompile(`(?i)\b(\d+ ?(mg|mcg|ml|cc|g|ui)|mg|mcg|ml|miligramos?|microgramos?|mililitros?|gramos?|onzas?|` +
		`dosis de|aspirina|ibuprofeno|naproxeno|acetaminofén|paracetamol|oxicodona|hidrocodona|tramadol|morfina|warfarina|heparina|` +
		`enoxaparina|rivaroxabán|apixabán|celecoxib|gabapentina|sen|docusato|clorhexidina|mupirocina)\b|[®™]`)
	for where, text := range sentences(t, "es") {
		require.NotRegexp(t, never, text, where)
	}
}

// Every word with a capital in the middle of a sentence is one of these.
func TestEveryNameInTheSpanishTextsIsKnown(t *testing.T) {
	known := map[string]bool{}
	for name := range strings.FieldsSeq("Newel ASA Mamá America/Chicago QR F C INFLESZ AHRQ Health Literacy Universal Precautions Toolkit Estados Unidos " +
		"Canadá México Reino Unido Nueva Zelanda Flesch-Kincaid") {
		known[name] = true
	}
	for where, text := range sentences(t, "es") {
		if strings.HasPrefix(where, "words joint.") {
			continue
		}
		start := true
		for _, word := range strings.Fields(text) {
			bare := strings.TrimFunc(word, func(r rune) bool { return !unicode.IsLetter(r) })
			opens := strings.HasPrefix(word, "¿") || strings.HasPrefix(word, `"`) || strings.HasPrefix(word, "{")
			if bare != "" && unicode.IsUpper([]rune(bare)[0]) && !start && !opens {
				require.True(t, known[bare], "%s: %q in %q", where, bare, text)
			}
			start = word[0] == '{' || strings.ContainsAny(word[len(word)-1:], ".?:") || strings.HasSuffix(word, `."`) || strings.HasSuffix(word, `?"`)
		}
	}
}

// A question has both of its marks, quotes are straight, and nobody is called tú.
func TestSpanishIsWrittenAsItIsWritten(t *testing.T) {
	familiar := regexp.MustCompile(`(?i)(^|[^a-záéíóúñ])(tú|tu|tus|te|ti|vosotros|os|vuestro|vuestra|puedes|debes|tienes|quieres)([^a-záéíóúñ]|$)`)
	english := regexp.MustCompile(`(?i)\b(the|and|with|you|your|is|are|of|from|until|by)\b`)
	names := regexp.MustCompile(`\{[a-z-]+\}`)
	for where, text := range sentences(t, "es") {
		text = names.ReplaceAllString(text, "{}")
		require.Equal(t, strings.Count(text, "?"), strings.Count(text, "¿"), "%s: %s", where, text)
		require.NotRegexp(t, `[«»“”‘’]|  |(^| )(el|de|a) el `, text, where)
		require.NotRegexp(t, familiar, text, where)
		require.NotRegexp(t, english, text, where)
	}
}

// Words that go with a person of whom nobody knows whether it is a man or a woman. "El
// paciente" has its own.
func TestSpanishDependsOnNobodysGender(t *testing.T) {
	before := regexp.MustCompile(`(?i)\b(esté|está|sea|es|queda|vaya) (usted )?(seguro|listo|atento|sentado|despierto|cansado|preparado|preocupado|enfermo)\b`)
	after := regexp.MustCompile(`\{(name|who)\} (está|es|queda|ha sido|fue) \p{L}+[oa]s?\b`)
	fine := regexp.MustCompile(`\{who\} está fuera`)
	for where, text := range sentences(t, "es") {
		require.NotRegexp(t, before, strings.ReplaceAll(text, "Lo que está listo", ""), where)
		require.NotRegexp(t, after, fine.ReplaceAllString(text, ""), where)
	}
}

// What is the same as in English is a pattern, or one of these; everything else was forgotten.
func TestNothingIsLeftInEnglish(t *testing.T) {
	same := map[string]bool{
		"words app.name": true, "words no": true, "words language.direction": true, "words paper.phone.hospital": true, "words form.emergency.000": true,
	}
	letters := regexp.MustCompile(`\p{L}`)
	english, spanish := sentences(t, "en"), sentences(t, "es")
	for where, text := range english {
		bare := regexp.MustCompile(`\{[^}]*\}`).ReplaceAllString(text, "")
		if other, ok := spanish[where]; ok && !same[where] && letters.MatchString(bare) && where[0] == 'w' {
			if bare = strings.Trim(bare, " .,;:°()−"); bare == "min" || bare == "C" || bare == "F" {
				continue // signs for units
			}
			require.NotEqual(t, text, other, where)
		}
	}
	for id, e := range Open("en").entries {
		o := Open("es").entries[id]
		for _, pair := range [][2]string{{e.Title, o.Title}, {e.Coach, o.Coach}, {e.Patient, o.Patient}, {e.Why, o.Why}} {
			require.False(t, pair[0] != "" && pair[0] == pair[1], "[%s] %s", id, pair[0])
		}
		require.Len(t, o.How, len(e.How), id)
		for i, l := range e.How {
			require.Equal(t, l.Point, o.How[i].Point, id)
			require.False(t, l.Text == o.How[i].Text && l.Text[0] != '{', "[%s] %s", id, l.Text)
		}
	}
}

// Every text has the {names} of its English one, so nothing is lost in translation; a form
// of a number may leave out {n}, and dates put an ordinal as a number.
func TestSpanishHasTheNamesOfEnglish(t *testing.T) {
	name := regexp.MustCompile(`\{[a-z-]+\}`)
	english, spanish := Open("en"), Open("es")
	numbered := map[string]bool{"repeat.monthly.other": true, "repeat.month-day": true, "repeat.month-day.end": true, "repeat.lacking.day": true}
	for _, key := range sorted(spanish.words) {
		if text, ok := english.words[key]; ok && !numbered[key] {
			require.Equal(t, unique(name.FindAllString(text, -1)), unique(name.FindAllString(spanish.words[key], -1)), key)
		}
	}
	for _, id := range sorted(english.entries) {
		e, o := english.entries[id], spanish.entries[id]
		require.Equal(t, unique(name.FindAllString(whole(e), -1)), unique(name.FindAllString(whole(o), -1)), id)
	}
}

// 3GPP TS 23.038 6.2.1: of the letters of Spanish the alphabet of text messages lacks á, í, ó
// and ú. One of them would make the message with the link cost twice as much.
func TestWhatGoesOutBeforeALinkIsCheap(t *testing.T) {
	for _, language := range Languages {
		b, tried := Open(language), 0
		for _, key := range sorted(b.words) {
			if strings.HasPrefix(key, "text.") {
				require.Empty(t, message.NotGSM(b.words[key]), "%s %s", language, key)
				tried++
			}
		}
		require.Equal(t, 5, tried)
		v := Voice{Book: b}
		for d := range wall.Date(400) { // every weekday and every month
			require.Empty(t, message.NotGSM(message.Plain(v.Day(20_800+d))))
		}
	}
}

// WHO 2016/2018, recommendation 8 (2.4), and CDC (2.5): no shaving.
func TestNothingTellsAnybodyToShaveInSpanish(t *testing.T) {
	shave, instead := regexp.MustCompile(`(?i)rasur|afeit`), regexp.MustCompile(`(?i)\b(cera|depil|recort\w* el pelo)`)
	no := regexp.MustCompile(`(?i)(^|[^a-záéíóú])(no|nunca|sin)\b`)
	for where, text := range sentences(t, "es") {
		require.NotRegexp(t, instead, text, where)
		for _, sentence := range strings.Split(text, ". ") {
			if shave.MatchString(sentence) {
				require.Regexp(t, no, sentence, where)
			}
		}
	}
	require.Contains(t, whole(Open("es").Entry("no-shaving", "")), "nunca cerca del lugar de la cirugía")
}

// ASA 2017 (1.4): clear liquids.
func TestTheClearLiquidsAreClearInSpanish(t *testing.T) {
	for _, variant := range []string{"", "ask"} {
		var allowed, forbidden string
		for _, l := range Open("es").Entry("liquid-stop", variant).How {
			text := strings.ToLower(l.Text)
			if _, not, ok := strings.Cut(text, "no se permite:"); ok {
				forbidden += not
				continue
			}
			allowed += regexp.MustCompile(`sin \p{L}+`).ReplaceAllString(text, "") + "\n"
		}
		for _, drink := range []string{"agua", "jugo de manzana", "café negro o té"} {
			require.Contains(t, allowed, drink)
		}
		require.NotRegexp(t, `leche|crema|naranja|pulpa|caldo|sopa|alcohol|cerveza|vino|batido|yogur|cacao|chocolate|tomate|toronja|gelatina|hielo`, allowed, variant)
		for _, not := range []string{"leche", "jugo con pulpa", "caldo", "alcohol"} {
			require.Contains(t, forbidden, not, variant)
		}
	}
}

// ASA 2017 (1.3; 1.7 from memory): heavy food takes 8 hours or more, and the guideline does not
// fit everybody, so with the team's own times no hours are given.
func TestEatingInSpanish(t *testing.T) {
	require.Contains(t, whole(Open("es").Entry("supper", "")), "8 horas o más")
	for _, id := range []string{"supper", "food-stop", "drink", "liquid-stop"} {
		e := Open("es").Entry(id, "team")
		e.Why = ""
		require.Contains(t, whole(e), "equipo", id)
		require.NotRegexp(t, `\d|\{`, whole(e), id)
	}
}

// ASA (3.8 to 3.10), CDC (2.5), AGA 2019 (3.13), as in English.
func TestAfterSurgeryInSpanish(t *testing.T) {
	e := whole(Open("es").Entry("no-driving-day", ""))
	for _, not := range []string{"24 horas", "tampoco manejar", "sin alcohol", "sin decisiones importantes", "sin máquinas"} {
		require.Contains(t, e, not)
	}
	for _, id := range []string{"drive-home", "drive-home-morning"} {
		require.Contains(t, whole(Open("es").Entry(id, "")), "un adulto responsable")
	}
	require.Contains(t, whole(Open("es").Entry("clean-hands", "")), "no toque la herida")
	require.Contains(t, whole(Open("es").Entry("bowels", "")), "si no nombraron nada, pregunte")
	for where, text := range sentences(t, "es") {
		require.NotRegexp(t, `\b(CDC|OMS|NICE)\b`, text, where)
	}
}
