// Package ages is small enough to know all its faults by heart: the tests of
// build/mutate try them and hold what came of each against what is written there.
package ages

var grown = 18

// Adult is tested on both sides of the bound, and just on it.
func Adult(age int) bool {
	return age >= grown
}

// Fare has a test for children only: that babies ride free is never tried at the bound.
func Fare(age int) int {
	if age < 3 {
		return 0
	}
	return 2 * age
}

// Count runs forever when its step is left out.
func Count(to int) int {
	n := 0
	for n < to {
		n++
	}
	return n
}

// First panics when its condition is never true.
func First(words []string) string {
	if len(words) == 0 {
		return ""
	}
	return words[0]
}

// Odd has a loop whose break matters, and conditions that are joined.
func Odd(numbers []int) int {
	found := -1
	for i, n := range numbers {
		if n%2 == 1 && i > 0 || n == 7 {
			found = i
			break
		}
	}
	return found
}

// Never is called by no test.
func Never(a int) int {
	return a << 1
}
