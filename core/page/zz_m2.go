package page
func LinesForTest(s *Sheet) []int { return []int{s.packLines(), s.fridgeLines(), s.helperLines()} }
