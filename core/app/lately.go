package app

import (
	"sync"

	"newel/core/merge"
)

// lately are the links that were read last, the latest first: one request mostly comes with
// the link that the one before gave, and with this device's copy of the same plan. Reading a
// family's link takes longer than laying out its plan. Nobody changes a document, so what is
// in here changes no answer.
var lately struct {
	sync.Mutex
	links [6]struct {
		fragment string
		doc      *merge.Doc
	}
}

// recall gives the document of a link that was read lately, nil where it was not.
func recall(fragment string) *merge.Doc {
	lately.Lock()
	defer lately.Unlock()
	for i, l := range lately.links {
		if l.doc != nil && l.fragment == fragment {
			copy(lately.links[1:i+1], lately.links[:i])
			lately.links[0] = l
			return l.doc
		}
	}
	return nil
}

func remember(fragment string, doc *merge.Doc) {
	lately.Lock()
	defer lately.Unlock()
	copy(lately.links[1:], lately.links[:])
	lately.links[0].fragment, lately.links[0].doc = fragment, doc
}
