package desk

import (
	"strconv"

	"newel/core/plan"
	"newel/core/wall"
)

// ReadPrograms reads the settings files of a hospital's own copy of the page, in the order in
// which they came to hold; the last one is that of today. Each needs a number, a zone, the
// hospital's name and its phone. Their lines get the numbers of lines that come with a program.
// faults has a list for each file, in which nothing may stand that stops (Stops).
func ReadPrograms(texts []string, today wall.Date) (programs []plan.Known, faults [][]Fault) {
	taken := map[uint16]bool{}
	for _, text := range texts {
		s, found := ReadFile(text, today)
		p := &s.Program
		switch {
		case p.Number == 0 && !Stops(found):
			found = append(found, Fault{Code: faultNoNumber})
		case taken[p.Number]:
			found = append(found, Fault{Key: keyNumber, Code: faultTaken, Value: strconv.Itoa(int(p.Number))})
		}
		if s.Zone == "" && !Stops(found) {
			found = append(found, Fault{Code: faultNoZone})
		}
		if (p.Hospital == "" || p.Phone == "") && !Stops(found) {
			found = append(found, Fault{Code: faultNoPlace})
		}
		taken[p.Number] = true
		for i := range s.Lines {
			s.Lines[i].ID = plan.FirstKnownLine + uint32(i)
		}
		programs, faults = append(programs, s), append(faults, found)
	}
	return programs, faults
}
