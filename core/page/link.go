package page

import (
	"newel/core/guide"
	"newel/core/message"
)

// mostInCode is how many letters fit into a QR code: ISO/IEC 18004, table 7, version 40
// with error correction L in byte mode.
const mostInCode = 2953

// Ways are the ways of handing over one link.
type Ways struct {
	Voice    guide.Voice
	Action   string   // the path that sending and copying go to
	Fields   []Hidden // what says there which link is meant
	Fragment string   // of the link
	Address  string   // the whole link
	Text     string   // what is said before it in a message
	SMS      string   // the address that opens a text message (RFC 5724)
	Parts    string   // how many text messages that makes
	Code     bool     // it fits into a QR code
}

// Hidden is a field of a form that nobody sees.
type Hidden struct{ Name, Value string }

// NewWays works out what a text message with a link would be. texts are wordings for what
// stands before the link, the best first; the first of those that make the fewest text
// messages is taken. So a name with a letter that messages have no room for (3GPP TS
// 23.038) is left out where that saves one.
func NewWays(v guide.Voice, address, fragment string, texts ...string) Ways {
	w := Ways{Voice: v, Fragment: fragment, Address: address, Code: len(address) <= mostInCode}
	least := 0
	for _, text := range texts {
		whole := text + " " + address
		if parts := message.Parts(whole).Parts; least == 0 || parts < least {
			least, w.Text, w.SMS = parts, text, message.SMS(nil, whole)
		}
	}
	w.Parts = v.Count("link.parts", least)
	return w
}

// LinkView is the page on which a plan's link is handed over.
type LinkView struct {
	Voice    guide.Voice
	Fragment string // of the plan
	Plan     string // which plan it is
	Calls    Calls
	Ways     Ways
	Demo     bool
	Fresh    bool // the plan was just made anew
	Helpers  bool // somebody has a duty
}

// LinkPage makes the page.
func LinkPage(v LinkView) string { return linkPage(&v) }

// HelperLinkView is the page on which a link for one helper is made: whose it is to be is
// asked first, then the ways of handing it over stand there.
type HelperLinkView struct {
	Voice    guide.Voice
	Fragment string // of the plan
	Calls    Calls
	Helpers  []Option // those who have a duty, by their place
	Problem  string   // why none can be made
	Who      string   // whose link it is; empty: nobody was chosen yet
	Ways     Ways
}

// HelperLinkPage makes the page.
func HelperLinkPage(v HelperLinkView) string { return helperLinkPage(&v) }

// The states of locking a link.
const (
	LockAsked  = iota // for a passphrase
	LockWorked        // it is being locked
	LockDone
)

// LockView is the page on which a link is locked with a passphrase.
type LockView struct {
	Voice    guide.Voice
	Fragment string // of the plan
	Calls    Calls
	State    int
	Problem  string
	Typed    string // what stood in the field when something was wrong with it
	Phrase   string // that locks it, to be read out; empty where it is not known any more
	Ways     Ways   // of the locked link
}

// LockPage makes the page.
func LockPage(v LockView) string { return lockPage(&v) }

// AfreshView is the page on which a plan is started afresh.
type AfreshView struct {
	Voice    guide.Voice
	Fragment string
	Calls    Calls
	Problem  string // why it cannot be
	Lost     string // what would not come along
}

// AfreshPage makes the page.
func AfreshPage(v AfreshView) string { return afreshPage(&v) }

// UnlockView is the page that a locked link opens.
type UnlockView struct {
	Voice   guide.Voice
	Problem string
	Typed   string // what stood in the field when it was not the passphrase
	Working bool   // it is being opened
}

// UnlockPage makes the page.
func UnlockPage(v UnlockView) string { return unlockPage(&v) }
