// Package reading measures how hard a text is to read: it counts sentences, words and
// syllables, and puts the published formulas over them. It reads the guide's own texts, section
// by section, for the tests that hold them to a level. Nothing of it is in the page.
//
// A formula sees the length of words and sentences and nothing else. CMS, Toolkit for Making
// Written Material Clear and Effective, part 7, warns not to lean on one alone and to give a
// range; so the tests also hold the longest sentence, the forms of sentences, and the
// hardest entry of each section.
package reading

// Counts is what the formulas are put over.
type Counts struct {
	Sentences, Words, Syllables int
}

// Plus adds the counts of another text.
func (c Counts) Plus(d Counts) Counts {
	return Counts{c.Sentences + d.Sentences, c.Words + d.Words, c.Syllables + d.Syllables}
}

// Count counts a text in a language, "en" or "es". A line is read like a paragraph: its end
// ends a sentence, so a title or a point of a list is one.
func Count(text, language string) Counts {
	syllables := englishSyllables
	if language == "es" {
		syllables = spanishSyllables
	}
	var c Counts
	for _, sentence := range Sentences(text) {
		c.Sentences++
		for _, word := range Words(sentence) {
			c.Words++
			c.Syllables += syllables(word)
		}
	}
	return c
}

// perSentence and perWord are 0 for a text without words.
func (c Counts) perSentence() float64 { return ratio(c.Words, c.Sentences) }
func (c Counts) perWord() float64     { return ratio(c.Syllables, c.Words) }

func ratio(a, b int) float64 {
	if b == 0 {
		return 0
	}
	return float64(a) / float64(b)
}

// FleschReadingEase is higher for easier English texts; 121.22 is the most. Flesch R. A new
// readability yardstick. J Appl Psychol 1948;32(3):221-233.
func FleschReadingEase(c Counts) float64 {
	return 206.835 - 1.015*c.perSentence() - 84.6*c.perWord()
}

// FleschKincaid is a school grade of the United States; -3.40 is the least. Kincaid JP,
// Fishburne RP, Rogers RL, Chissom BS. Research Branch Report 8-75, Naval Technical Training
// Command, 1975.
func FleschKincaid(c Counts) float64 {
	return 0.39*c.perSentence() + 11.8*c.perWord() - 15.59
}

// Szigriszt is higher for easier Spanish texts: Szigriszt Pazos F. Sistemas predictivos de
// legibilidad del mensaje escrito: fórmula de perspicuidad. Universidad Complutense de Madrid,
// 1993. INFLESZ (Barrio-Cantalejo IM and others, An Sist Sanit Navar 2008;31(2):135-152) is the
// same score with other bands: from 65 on "bastante fácil", from 80 on "muy fácil".
func Szigriszt(c Counts) float64 {
	return 206.835 - 62.3*c.perWord() - c.perSentence()
}
