package link

import (
	"slices"

	"newel/core/merge"
)

// While a document is written, its registers are found by their order: those of one field, and of
// one duty, stand together.

// keys are the registers of a field, in order; none on the way in.
func (f *form) keys(field merge.Field, of uint32) []merge.Key {
	return f.from(merge.Key{Field: field, Of: of}, func(k merge.Key) bool { return k.Field == field && k.Of == of })
}

// ofAll are the registers of a field of all duties, in order; none on the way in.
func (f *form) ofAll(field merge.Field) []merge.Key {
	return f.from(merge.Key{Field: field}, func(k merge.Key) bool { return k.Field == field })
}

// from are the registers from a key on as long as they belong together.
func (f *form) from(first merge.Key, belongs func(merge.Key) bool) []merge.Key {
	at, _ := f.find(first)
	end := at
	for end < len(f.order) && belongs(f.order[end]) {
		end++
	}
	return f.order[at:end:end]
}

// name notes that a register has its place in the form.
func (f *form) name(k merge.Key) {
	if at, there := f.find(k); there {
		f.named[at] = true
	}
}

// find gives a register's place in the order, while a document is written.
func (f *form) find(k merge.Key) (at int, there bool) {
	return slices.BinarySearchFunc(f.order, k, merge.Key.Compare)
}

func (f *form) isNamed(k merge.Key) bool {
	at, there := f.find(k)
	return there && f.named[at]
}
