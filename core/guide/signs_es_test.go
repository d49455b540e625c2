package guide

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// CDC and NHLBI, venous thromboembolism (3.1, 3.2), as in signs_test.go: a clot in the lung is
// for the emergency number and never for the office; one in the leg for the office, and
// there may be no sign.
func TestSignsOfAClotStandWhereTheyBelongInSpanish(t *testing.T) {
	b := Open("es")
	emergency, office := whole(b.Entry("signs-emergency", "")), whole(b.Entry("signs-office", ""))
	for _, lung := range []string{"le cuesta respirar", "dolor en el pecho", "respirar hondo", "tos con sangre", "se desmaya", "el corazón late muy rápido o de forma irregular"} {
		require.Contains(t, emergency, lung)
	}
	require.NotRegexp(t, `respira|pecho|corazón|desmay|\btos`, office)
	require.Contains(t, office, "en la pantorrilla o el muslo: dolor nuevo, hinchazón, calor, piel roja o de otro color")
	require.Contains(t, office, "o ninguna")
	require.Contains(t, emergency, "{number}")
	require.Contains(t, emergency, "no espere")
}

// CDC, Surgical Site Infection Basics (3.3). The number of the fever is the hospital's.
func TestSignsAtTheWoundInSpanish(t *testing.T) {
	office := whole(Open("es").Entry("signs-office", ""))
	require.Regexp(t, `en la herida: piel roja, dolor,.* líquido turbio`, office)
	require.NotRegexp(t, `\d|grados|°`, office)
	for where, text := range sentences(t, "es") {
		if !strings.HasPrefix(where, "words problem.") && where != "words form.fever.hint" {
			require.NotRegexp(t, `(?i)\d+(\.\d)? ?(°|grados|fahrenheit|celsius)`, text, where)
		}
	}
}

// Each group has as many signs as in English, in the same order: the sign of each line is
// known by a word of it.
func TestTheSignsAreThoseOfEnglish(t *testing.T) {
	words := map[string][][2]string{
		"signs-emergency": {
			{"breathing", "respirar"}, {"chest", "pecho"}, {"blood", "sangre"}, {"faint", "desmaya"}, {"heartbeat", "corazón"}, {"wake", "despierte"}, {"bleeding", "no para"},
		},
		"signs-office": {
			{"calf", "pantorrilla"}, {"wound", "herida"}, {"{fever}", "{fever}"}, {"fall", "caída"}, {"medicine", "medicina"}, {"{bowels}", "{bowels}"}, {"urine", "orinar"},
		},
		"signs-clots": {{"leg", "pierna"}, {"lung", "pulmón"}},
	}
	for id, pairs := range words {
		english, spanish := points(Open("en").Entry(id, "")), points(Open("es").Entry(id, ""))
		require.Len(t, english, len(pairs), id)
		require.Len(t, spanish, len(pairs), id)
		for i, pair := range pairs {
			require.Contains(t, english[i], pair[0])
			require.Contains(t, spanish[i], pair[1])
		}
	}
}

func points(e Entry) (all []string) {
	for _, l := range e.How {
		if l.Point {
			all = append(all, l.Text)
		}
	}
	return all
}

// No movement is forbidden by us, in Spanish either. Common practice, no published source.
func TestNoMovementLimitIsAssumedInSpanish(t *testing.T) {
	limit := regexp.MustCompile(`(?i)grados|cruz(ar|e) las piernas|doblar la cadera|girar|torcer|arrodill|de lado|almohada entre|apoyar (todo )?el peso|por ciento del peso|cargar más de`)
	for where, text := range sentences(t, "es") {
		if !strings.HasPrefix(where, "words ") {
			require.NotRegexp(t, limit, text, where)
		}
	}
	require.Contains(t, whole(Open("es").Entry("chapter-weeks", "")), "solo si los da su hospital")
}

// Things are explained in the entry that English explains them in.
func TestThingsAreExplainedInSpanish(t *testing.T) {
	for _, c := range [][3]string{
		{"clear-paths", "andador", "para agarrarse al caminar"}, {"throw-rugs", "tapete suelto", "alfombra chica que se mueve"},
		{"grab-bars", "barra de apoyo", "tubo fuerte para agarrarse"}, {"toilet-frame", "asiento alto", "marco con brazos y asiento más alto"},
		{"hip-kit", "juego de ayudas", "cinco cosas largas"}, {"wash", "jabón quirúrgico", "mata gérmenes"}, {"food-stop", "anestesia", "quita el dolor en la cirugía"},
		{"supper.team", "reflujo", "sube del estómago"}, {"pack-papers", "testamento vital", "qué atención quiere una persona"}, {"pack-papers", "poder legal", "quién decide"},
		{"home-check-vital", "signos vitales", "la presión, el pulso, la respiración y la temperatura"}, {"breathing-exerciser", "espirómetro", "tomar aire"},
		{"bowels", "estriñe", "sale duro"}, {"blood-thinner", "anticoagulante", "no haga coágulos"}, {"coach-drives", "terapia fuera del hospital", "con un terapeuta en una clínica"},
		{"dental-work", "antibióticos", "medicinas contra los gérmenes"}, {"choose-coach", "ayudante principal", "quien más ayuda"},
	} {
		base, variant, _ := strings.Cut(c[0], ".")
		text := whole(Open("es").Entry(base, variant))
		require.Contains(t, text, c[1])
		require.Contains(t, text, c[2])
	}
}
