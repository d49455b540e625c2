package desk

import (
	"strings"

	"newel/core/guide"
	"newel/core/link"
	"newel/core/merge"
)

// DoneSentence says what came out when the link of a row was opened or made; "" for nothing.
func DoneSentence(v guide.Voice, r *Row, d Done) string {
	var all []string
	for _, code := range strings.Fields(d.Fault) {
		switch code {
		case faultDamaged, faultFull:
			all = append(all, Sentence(v, r, RowFault{Column: ColumnLink, Code: code}))
		case askSettled, askUnsettled, askOther, askHospital, askUnknown:
			if old, err := link.Decode(r.Patient.Link); err == nil {
				all = append(all, askSentences(v, r, old, code)...)
			}
		}
	}
	return strings.Join(all, " ")
}

// askSentences says what is to be looked at in a row's own link.
func askSentences(v guide.Voice, r *Row, old *merge.Doc, code string) []string {
	p := old.Plan()
	f := RowFault{Column: ColumnLink, Code: code, Ask: true}
	switch code {
	case askOther:
		f.Value = answerText(v, ColumnJoint, int(p.Joint)) + ", " + answerText(v, ColumnOperation, int(p.Operation))
	case askHospital:
		f.Value = p.Program.Hospital
	case askSettled, askUnsettled:
		var all []string
		for _, c := range Apart(old) {
			if r.said[c] == (code == askSettled) {
				all = append(all, Sentence(v, r, RowFault{Column: c, Code: code, Ask: true, Value: ApartText(v, old, c)}))
			}
		}
		return all
	}
	return []string{Sentence(v, r, f)}
}
