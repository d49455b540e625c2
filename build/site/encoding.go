package site

import (
	"strconv"
	"strings"
)

// choose picks the form of the file that the browser likes best: the highest
// weight, and among equals the smallest. ok is false when it refuses all of
// them (RFC 9110 section 12.5.3).
func (p *page) choose(header []string) (best form, ok bool) {
	weights := weigh(header)
	top := 0.0
	for _, f := range p.forms {
		q := weights.of(f.coding)
		better := q > top || (q == top && q > 0 && len(f.data) < len(best.data))
		if better {
			best, top, ok = f, q, true
		}
	}
	return best, ok
}

// weights are a browser's q-values by content coding, in lower case.
type weights map[string]float64

// unnamed is the weight of the plain bytes when the browser does not mention
// them: acceptable, and less wanted than any coding it does name.
const unnamed = 0.0001

// of gives the weight of a coding ("" for the plain bytes).
func (w weights) of(coding string) float64 {
	name := coding
	if name == "" {
		name = "identity"
	}
	if q, ok := w[name]; ok {
		return q
	}
	star, hasStar := w["*"]
	switch {
	case coding != "":
		return star // 0 without a star: not named, so not accepted
	case hasStar && star == 0:
		return 0
	}
	return unnamed
}

// weigh reads Accept-Encoding. A member that cannot be read is left out.
func weigh(header []string) weights {
	w := weights{}
	for _, member := range strings.Split(strings.Join(header, ","), ",") {
		coding, parameter, weighted := strings.Cut(member, ";")
		coding = strings.ToLower(strings.TrimSpace(coding))
		if coding == "x-gzip" {
			coding = "gzip" // the same thing, RFC 9110 section 8.4.1.3
		}
		q := 1.0
		if weighted {
			var ok bool
			if q, ok = quality(parameter); !ok {
				continue
			}
		}
		if coding != "" {
			w[coding] = q
		}
	}
	return w
}

// quality reads "q=0.8": 0 to 1 with at most three decimals, RFC 9110 section
// 12.4.2.
func quality(parameter string) (float64, bool) {
	name, value, _ := strings.Cut(strings.TrimSpace(parameter), "=")
	if !strings.EqualFold(name, "q") || value == "" || len(value) > len("0.000") || strings.Trim(value, "0123456789.") != "" {
		return 0, false
	}
	q, err := strconv.ParseFloat(value, 64)
	return q, err == nil && q <= 1
}
