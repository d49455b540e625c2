package guide

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// testdata/guide/lists_es.txt is what Intl.ListFormat writes. What is done otherwise here, on
// purpose: a name whose first letter has an accent sounds the same (Real Academia Española,
// Diccionario panhispánico de dudas, y and o, from memory), and 11 after "o" is left out.
func TestSpanishListsAreJoinedAsCLDRDoes(t *testing.T) {
	data, err := os.ReadFile("../../testdata/guide/lists_es.txt")
	require.NoError(t, err)
	otherwise := map[string]string{
		"y Dana|Íñigo": "Dana e Íñigo", "o Dana|Óscar": "Dana u Óscar", "o 10|11": "10 o 11",
	}
	v, tried := Voice{Book: Open("es")}, 0
	or := Voice{Book: &Book{words: map[string]string{"join.two": "{list} o {item}", "join.middle": "{list}, {item}", "join.end": "{list} o {item}"}, joints: v.joints}}
	for line := range strings.SplitSeq(strings.TrimSpace(string(data)), "\n") {
		if line[0] == '#' {
			continue
		}
		col := strings.Split(line, "\t")
		want, ok := otherwise[col[0]+" "+col[1]]
		if !ok {
			want = col[2]
		}
		joined := map[string]Voice{"y": v, "o": or}[col[0]]
		require.Equal(t, want, joined.List(strings.Split(col[1], "|")), line)
		tried++
	}
	require.Equal(t, 42, tried)
}

// Spanish words before what is filled in. Real Academia Española, Nueva gramática básica, on
// al and del, and on the article of the hours; from memory.
func TestSpanishWordsMeetWhatFollows(t *testing.T) {
	b := Open("es")
	for _, c := range [][3]string{
		{"Salga a las {x}.", "5:30", "Salga a las 5:30."},
		{"Salga a las {x}.", "1:05 p.m.", "Salga a la 1:05 p.m."},
		{"Salga a las {x}.", "01:05", "Salga a la 01:05."},
		{"Salga a las {x}.", "11:05", "Salga a las 11:05."},
		{"Salga a las {x}.", "12 del mediodía", "Salga a las 12 del mediodía."},
		{"hasta las {x}", "1:00", "hasta la 1:00"},
		{"hasta las {x}", "mar, 9 de mar, 1:00", "hasta el mar, 9 de mar, 1:00"},
		{"a las {x}", "miércoles, 10 de marzo, 1:00", "el miércoles, 10 de marzo, 1:00"},
		{"desde las {x}", "sáb, 9 de ene, 1:00", "desde el sáb, 9 de ene, 1:00"},
		{"antes de las {x}", "dom, 9 de ene, 1:00", "antes del dom, 9 de ene, 1:00"},
		{"Llame a {x}.", "el hospital", "Llame al hospital."},
		{"Llame a {x}.", "El Paso Hospital", "Llame a El Paso Hospital."},
		{"Llame a {x}.", "Elena", "Llame a Elena."},
		{"la parte de {x}", "el paciente", "la parte del paciente"},
		{"De {x}", "el paciente", "Del paciente"},
		{"A {x}", "el paciente", "Al paciente"},
		{"casa {x}", "el paciente", "casa el paciente"},
		{"Dana y {x}", "IRENE", "Dana e IRENE"},
		{"hay {x}", "Inés", "hay Inés"},
		{"ley {x}", "Inés", "ley Inés"},
		{"y{x}", "Inés", "yInés"},
		{"{a} y {x}", "Inés", "{a} e Inés"},
		{"y {x}", "", "y "},
		{"y {x}", "í", "e í"},
		{"y {x}", "\xff", "y \xff"},
	} {
		require.Equal(t, c[2], fill(c[0], []Arg{{"x", c[1]}}, b.joints))
	}
	require.Equal(t, "Dana y Inés", fill("Dana y {x}", []Arg{{"x", "Inés"}}, Open("en").joints), "only in its own language")
}

// "5:30 a.m." ends a sentence with the point that it has.
func TestAPointIsNotDoubled(t *testing.T) {
	for _, c := range [][3]string{
		{"Cita: {x}.", "5:30 a.m.", "Cita: 5:30 a.m."}, {"Cita: {x}. Otra.", "5:30 a.m.", "Cita: 5:30 a.m. Otra."},
		{"Cita: {x}...", "5:30 a.m.", "Cita: 5:30 a.m...."}, {"Cita: {x}.", "5:30", "Cita: 5:30."}, {"{x}.{x}", "a.", "a.a."},
	} {
		require.Equal(t, c[2], fill(c[0], []Arg{{"x", c[1]}}, nil))
	}
}

func TestAJointThatIsNotWholeIsAMistake(t *testing.T) {
	b := &Book{Language: "xx", words: map[string]string{"joint.1": "y | i"}}
	require.Panics(t, func() { b.readJoints() })
}
