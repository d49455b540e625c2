package app

import "newel/core/plan"

// degrees reads a temperature in tenths, see plan.ParseDegrees.
func (e *entry) degrees(name, typed string) (tenths int, ok bool) {
	tenths, code := plan.ParseDegrees(typed)
	if code != "" {
		e.wrong(name, code)
	}
	return tenths, code == ""
}
