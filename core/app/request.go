package app

// Request is what the shell brings across: what an HTML form would send, and
// beside it everything the core may not look up for itself (clock, zone,
// language, chance, the device's saved copy). The same Request always gives
// the same Response.
type Request struct {
	// Path names the screen or the action, as written in a form's action
	// attribute: "/" is the plan, "/facts" the short form. Never empty.
	Path string
	// Fragment is the address's part after "#", without the "#", as the browser
	// gives it (percent-encoding untouched). It holds the whole plan.
	Fragment string
	// Page is the page's own address without fragment and query, such as
	// https://example.org/newel/: what a link to a plan begins with.
	Page string
	// Zone is the device's IANA zone name ("America/Chicago"), not the hospital's.
	Zone string
	// Language is the device's BCP 47 tag ("en-US"). What somebody chose on this device
	// (the kept "language") goes before it.
	Language string
	// Now is the device's clock in whole seconds since 1970-01-01 UTC.
	Now int64
	// Clock12 says that the device's language writes 1:30 pm, not 13:30.
	Clock12 bool
	// Random is 16 bytes from the browser's secure source, new with each request.
	Random []byte
	// Fields are the form's entries in the order of the page; names may repeat.
	// Empty when a screen is only asked for.
	Fields []Field
	// Open are the ids of the folds whose inside is wanted (core/page/folds.go): those that the
	// person has opened, or is opening now. Every other fold that may be left out has its title
	// alone. nil: all of them are wanted.
	Open []string
	// Kept is what earlier responses stored on this device. What there was no room for in
	// the request has its key and an empty value (web/kept.ts).
	Kept map[string]string
}

// Field is one entry of a form: the control's name and what it held.
type Field struct {
	Name, Value string
}

// Response is what the shell is to show and do. The zero value of a part means
// "nothing to do" for that part, except Title, HTML, Language, Direction, Fragment and Path, which
// always state what now holds.
type Response struct {
	// Elsewhere says that this core cannot answer the request, see Near. Every other part is
	// empty then, and the request has changed nothing.
	Elsewhere bool
	// Title goes into the browser's tab. Plain text.
	Title string
	// HTML is the whole inside of the element with id "app".
	HTML string
	// Language is the BCP 47 tag of what HTML says, and Direction how that is written:
	// "ltr" or "rtl", as the attributes lang and dir have them. Always stated.
	Language, Direction string
	// Fragment is the address's new part after "#", without the "#".
	Fragment string
	// Path is the screen now shown; it is kept in the history entry, so that
	// "back" asks for it again.
	Path string
	// Push makes a new history entry ("back" returns to the old screen);
	// otherwise the entry is replaced.
	Push bool
	// Say is one sentence for screen readers, read politely. Plain text.
	Say string
	// Focus is the id of the element that gets the focus, "" to leave it.
	Focus string
	// Keep is stored on the device, Drop is removed from it, in this order.
	Keep []Entry
	Drop []string
	// Send hands a text to the person's own sharing sheet, or to the clipboard.
	// The shell puts the link beside it.
	Send *Send
	// Lock asks for a fragment to be locked with a passphrase (web/lock.ts). The shell
	// then asks for "/link" with the field "locked", or "unable" where it cannot.
	Lock *Lock
	// Unlock asks for a locked fragment to be opened. The shell then asks for "/" with
	// the plan's fragment, or for "/unlock" with the field "wrong", "damaged" or "unable".
	Unlock *Lock
	// File is handed over to be saved or opened on the device.
	File *File
	// Again asks the shell for the next step of something long, once this one is drawn; it
	// asks no more when the person does something else meanwhile.
	Again *Again
	// Wipe has the shell remove everything of this page from the device. It then asks for "/device"
	// with the field "gone", or "left" where the browser did not let it.
	Wipe bool
	// Refresh asks the shell to ask for the same path again after so many
	// seconds; 0 means never. It also asks when the page comes back into view.
	Refresh int
}

// File is a file made here: its name, its media type, its text.
type File struct {
	Name, Type, Text string
}

// Entry is one thing to store on the device: key and text.
type Entry struct {
	Key, Value string
}

// Send is a message a person may pass on: a title (for mail) and a text.
type Send struct {
	Title, Text string
	Fragment    string // of the link that goes with it; "": that of the page
	Copy        bool   // to the clipboard only
	Alone       bool   // the text goes as it is, without a link beside it
}

// Again is what is asked for next: a path, with fields as of a form.
type Again struct {
	Path   string
	Fields []Field
}

// Lock is a fragment and the passphrase that locks or unlocks it.
type Lock struct {
	Phrase, Fragment string
}
