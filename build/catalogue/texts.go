package catalogue

import "strings"

// textStates are screens with texts that test a layout: as long as a link lets them be, without a
// place to break, with marks of HTML, with signs on signs, and in scripts from right to left.
func textStates(Vectors) []State {
	const group = "Names and texts"
	kinds := []struct {
		name, what string
		texts      sayings
	}{
		{"very-long", "every text as long as it can be, in words that cannot be broken", sayings{strings.Repeat("Wolkenburg", 12), strings.Repeat("Wolkenburgerinnen", 40)}},
		{"hostile", "texts that look like HTML, with signs on signs", sayings{`<b>"'&>` + strings.Repeat("a\u0301\u0323\u0330", 6), `<script>alert("'&")</script><img src=x>` + strings.Repeat("Z\u0351\u036b\u0343", 9)}},
		{"turned-round", "texts with signs that turn the direction round, as far as a link holds them", sayings{"\u202eanaD\u202c \u2066Rosa\u2069", "\u202e" + "teertS yauQ 3 \u2067abc\u2069 \u05d0\u05d1 12"}},
		{"arabic", "names and texts in Arabic", sayings{"نور الهدى", "شارع الميناء ٣، الطابق الثاني"}},
		{"hebrew", "names and texts in Hebrew", sayings{"נועה בן־דוד", "רחוב הרציף 3, קומה ב׳"}},
	}
	screens := []struct{ name, what, path string }{
		{"", "The plan with ", "/"}, {"-split", "Who does what with ", "/split"}, {"-duty", "A duty with ", "/duty/1"},
		{"-helper", "A helper's form with ", "/helper/1"}, {"-link", "The link of a plan with ", "/link/part"}, {"-guide", "A chapter with ", "/guide/pack"},
		{"-print", "The refrigerator's sheet with ", "/print/fridge"}, {"-card", "The card with ", "/print/card"}, {"-print-helper", "A helper's sheet with ", "/print/helper.1"},
		{"-facts", "The facts with ", "/facts"},
	}
	var all []State
	for _, k := range kinds {
		for i, s := range screens {
			if i > 1 && k.name != "very-long" && k.name != "hostile" && k.name != "arabic" {
				continue // of the others, the two screens with the most texts
			}
			all = append(all, State{Group: group, Name: k.name + s.name, What: s.what + k.what + ".",
				reach: func(p *phone) { p.of(saying(k.texts)).send(s.path) }})
		}
	}
	return append(all,
		State{Group: group, Name: "very-long-surgery-today", What: "The day of surgery with very long texts.", reach: func(p *phone) { p.at(0, 3, 30).of(saying(kinds[0].texts)) }},
		State{Group: group, Name: "other-language", What: "The language was chosen on the page.", reach: func(p *phone) {
			other := "es"
			if p.in.Language == "es-US" {
				other = "en"
			}
			p.of(family()).send("/language", field("language", other), field("path", "/"))
		}},
	)
}
