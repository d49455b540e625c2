package link

import "sync"

// forms are those that are done with: the models of one take 100 kB.
var forms = sync.Pool{New: func() any { return new(form) }}

// release gives back what the form and its coder need. Neither is of use afterwards.
func (f *form) release() {
	f.c.Release()
	forms.Put(f)
}
