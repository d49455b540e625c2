package markup

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/valyala/quicktemplate"
)

// What the template language's own runtime writes is the measure: the templates are its language.
func reference(write func(w *quicktemplate.Writer)) string {
	b := quicktemplate.AcquireByteBuffer()
	defer quicktemplate.ReleaseByteBuffer(b)
	w := quicktemplate.AcquireWriter(b)
	defer quicktemplate.ReleaseWriter(w)
	write(w)
	return string(b.B)
}

func written(write func(w *Writer)) string {
	var w Writer
	write(&w)
	return w.String()
}

func TestTextsAreEscapedAsTheLibraryDoes(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	letters := []rune("<>\"'&ab é\u2028\x00;=`/�𝄞")
	for range 20_000 {
		text := make([]rune, r.IntN(12))
		for i := range text {
			text[i] = letters[r.IntN(len(letters))]
		}
		s := string(text)
		if r.IntN(4) == 0 { // also what is no UTF-8
			s = s[:len(s)/2] + string([]byte{byte(r.Uint32())}) + s[len(s)/2:]
		}
		want := reference(func(w *quicktemplate.Writer) { w.N().S("<b>"); w.E().S(s); w.N().S(s) })
		require.Equal(t, want, written(func(w *Writer) { w.SE("<b>", s); w.S(s) }), "%q", s)
	}
}

func TestNumbersAreWrittenAsTheLibraryDoes(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 20_000 {
		n, f := int(r.Int64())>>r.IntN(64), (r.Float64()-0.5)*math.Pow(10, float64(r.IntN(14)))
		if r.IntN(2) == 0 {
			f = math.Round(f*20) / 20 // halves of a tenth, which are the hard ones
		}
		want := reference(func(w *quicktemplate.Writer) { w.N().S("x"); w.N().D(n); w.N().FPrec(f, 1) })
		require.Equal(t, want, written(func(w *Writer) { w.SD("x", n); w.F1(f) }), "%d %s", n, strconv.FormatFloat(f, 'g', -1, 64))
	}
	for _, f := range []float64{0, math.Copysign(0, -1), 0.05, 0.15, 0.25, 0.35, 0.95, 99.95, 0.049999999999999996, 1e-320, 1 << 48} {
		want := reference(func(w *quicktemplate.Writer) { w.N().FPrec(f, 1) })
		require.Equal(t, want, written(func(w *Writer) { w.F1(f) }))
	}
}

// Writers share the room that they give back: none may see or change what another wrote.
func TestWritersKeepApart(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 300 {
		var outer, inner Writer
		var want, wantInner string
		var texts, wants []string
		for range 40 {
			word := strconv.Itoa(r.IntN(1 << 20))
			switch r.IntN(4) {
			case 0:
				outer.S(word)
				want += word
			case 1:
				inner.E(word + "<")
				wantInner += word + "&lt;"
			case 2:
				texts, wants = append(texts, inner.String()), append(wants, wantInner)
				wantInner = ""
			default:
				texts, wants = append(texts, outer.String()), append(wants, want)
				want = ""
			}
		}
		require.Equal(t, wants, texts)
	}
	require.LessOrEqual(t, rooms.n, mostRooms)
}

// A page as large as the ones before needs room for its text only.
func TestRoomIsUsedAgain(t *testing.T) {
	page := func() {
		var w Writer
		for range 1000 {
			w.S("<li>a line of a page</li>")
		}
		_ = w.String()
	}
	page()
	require.LessOrEqual(t, testing.AllocsPerRun(20, page), 1.0)
}
