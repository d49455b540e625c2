package merge

// AnyRegisters is for the tests in package merge_test.
func AnyRegisters(intn func(n int) int) *Doc { return anyRegisters(intn) }
