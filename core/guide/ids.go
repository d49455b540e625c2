package guide

import "sort"

// EntryIDs lists the ids of all entries of a book, those of variants (ID.VARIANT) too,
// sorted. The page asks for entries one by one; this is for those who read the whole guide.
func (b *Book) EntryIDs() []string {
	var ids []string
	for id := range b.entries {
		ids = append(ids, id)
	}
	sort.Strings(ids)
	return ids
}
