package app

// The exchange is the one border between Go and TypeScript: bytes in, bytes out.
// web/exchange.ts is the same thing on the other side, and both are checked by
// the vectors in testdata/exchange.
//
// A message is a list of pairs: key, value, key, value … to its end. Each string
// is a 32-bit little-endian length in bytes followed by that many bytes of UTF-8.
// Order is kept and keys may repeat. The same format goes both ways.
//
// It is not JSON because encoding/json would add over 100 kB (brotli) to the
// page, and not url-encoding because plain lengths need no escaping and can be
// checked before anything is copied.
//
// Request keys: path, fragment, page, zone, language, now (decimal), clock12 ("1"
// or ""), random (32 hex digits), each exactly once; folds (ids with a space between them, or ""),
// once or not at all; field.NAME, repeatable, in the order of the form; kept.KEY, each KEY once. Response keys: title, html,
// language, direction, fragment, path, push ("1" or ""), say, focus; keep.KEY; drop.KEY (value "");
// send.title, send.text, send.fragment, send.copy and send.alone ("1" or ""); lock.phrase and
// lock.fragment; unlock.phrase and unlock.fragment; file.name, file.type and file.text
// (of each of these all, or none); again.path and, repeatable, again.field.NAME; wipe ("1", or not there); refresh (decimal).
// Or one key alone: elsewhere ("1"), where this core has no answer (Near).

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// RequestLimit is the greatest length of a request, in bytes. A browser tab on a
// phone is killed when the core's memory grows without bound, so the length is
// looked at before anything is read. It holds a table of 1,000 patients with the links and
// messages that were made (desk.MostBytes), where a hospital's settings travel in each link.
const RequestLimit = 4 << 20

// pair is one key with its value.
type pair struct {
	key, value string
}

// ReadRequest reads a request written by the shell. A wrong request can only come
// from a mistake in the shell or a page mixed from two releases; so every oddity
// is an error that says what and where, and nothing is guessed or left out.
func ReadRequest(message []byte) (Request, error) {
	pairs, err := readPairs(message)
	if err != nil {
		return Request{}, err
	}
	request := Request{Kept: map[string]string{}}
	seen := map[string]bool{}
	for _, p := range pairs {
		if err := request.set(p, seen); err != nil {
			return Request{}, err
		}
	}
	for _, key := range []string{"path", "fragment", "page", "zone", "language", "now", "clock12", "random"} {
		if !seen[key] {
			return Request{}, errors.New("exchange: the request lacks the key " + key)
		}
	}
	return request, nil
}

// set puts one pair where it belongs. Only field.NAME may come twice: a second
// "now" or a second kept copy would make the answer depend on which one won.
func (r *Request) set(p pair, seen map[string]bool) error {
	if name, ok := strings.CutPrefix(p.key, "field."); ok {
		r.Fields = append(r.Fields, Field{name, p.value})
		return nil
	}
	if seen[p.key] {
		return errors.New("exchange: the key " + strconv.Quote(p.key) + " comes twice")
	}
	seen[p.key] = true
	if key, ok := strings.CutPrefix(p.key, "kept."); ok {
		r.Kept[key] = p.value
		return nil
	}
	return r.setSingle(p)
}

// setSingle sets one of the keys that come once.
func (r *Request) setSingle(p pair) (err error) {
	switch p.key {
	case "path":
		r.Path = p.value
		if p.value == "" {
			err = badValue(p)
		}
	case "fragment":
		r.Fragment = p.value
	case "page":
		r.Page = p.value
	case "zone":
		r.Zone = p.value
	case "language":
		r.Language = p.value
	case "now":
		r.Now, err = readNow(p)
	case "clock12":
		r.Clock12 = p.value == "1"
		if p.value != "" && !r.Clock12 {
			err = badValue(p)
		}
	case "random":
		r.Random, err = readRandom(p)
	case "folds":
		r.Open, err = readFolds(p)
	default:
		err = errors.New("exchange: the key " + strconv.Quote(p.key) + " is not known")
	}
	return err
}

// readNow takes only the plain spelling of a number ("7", never "+7" or "07"), so
// that a request has one spelling.
func readNow(p pair) (int64, error) {
	now, err := strconv.ParseInt(p.value, 10, 64)
	if err != nil || strconv.FormatInt(now, 10) != p.value {
		return 0, badValue(p)
	}
	return now, nil
}

func readRandom(p pair) ([]byte, error) {
	if len(p.value) != 32 {
		return nil, badValue(p)
	}
	random := make([]byte, 16)
	for i := range p.value {
		digit := strings.IndexByte("0123456789abcdef", p.value[i])
		if digit < 0 {
			return nil, badValue(p)
		}
		random[i/2] = random[i/2]<<4 | byte(digit)
	}
	return random, nil
}

// readFolds reads ids with one space between them.
func readFolds(p pair) ([]string, error) {
	if p.value == "" {
		return []string{}, nil
	}
	ids := strings.Split(p.value, " ")
	if slices.Contains(ids, "") {
		return nil, badValue(p)
	}
	return ids, nil
}

// badValue names the key and shows the start of the value: enough to find the
// mistake, not so much that a whole plan lands in a console.
func badValue(p pair) error {
	shown := p.value
	if len(shown) > 40 {
		shown = strings.ToValidUTF8(shown[:40], "") + "…"
	}
	return errors.New("exchange: the value of " + p.key + " is wrong: " + strconv.Quote(shown))
}

// WriteResponse writes a response for the shell. What is empty and would do
// nothing (keep, drop, send, lock, unlock, file, again, wipe) is left out; the rest is always there.
func WriteResponse(r Response) []byte {
	if r.Elsewhere {
		return writePairs([]pair{{"elsewhere", flag(true)}})
	}
	pairs := []pair{
		{"title", r.Title},
		{"html", r.HTML},
		{"language", r.Language},
		{"direction", r.Direction},
		{"fragment", r.Fragment},
		{"path", r.Path},
		{"push", flag(r.Push)},
		{"say", r.Say},
		{"focus", r.Focus},
	}
	for _, entry := range r.Keep {
		pairs = append(pairs, pair{"keep." + entry.Key, entry.Value})
	}
	for _, key := range r.Drop {
		pairs = append(pairs, pair{"drop." + key, ""})
	}
	if r.Send != nil {
		pairs = append(pairs, pair{"send.title", r.Send.Title}, pair{"send.text", r.Send.Text},
			pair{"send.fragment", r.Send.Fragment}, pair{"send.copy", flag(r.Send.Copy)}, pair{"send.alone", flag(r.Send.Alone)})
	}
	if r.Lock != nil {
		pairs = append(pairs, pair{"lock.phrase", r.Lock.Phrase}, pair{"lock.fragment", r.Lock.Fragment})
	}
	if r.Unlock != nil {
		pairs = append(pairs, pair{"unlock.phrase", r.Unlock.Phrase}, pair{"unlock.fragment", r.Unlock.Fragment})
	}
	if r.File != nil {
		pairs = append(pairs, pair{"file.name", r.File.Name}, pair{"file.type", r.File.Type}, pair{"file.text", r.File.Text})
	}
	if r.Again != nil {
		pairs = append(pairs, pair{"again.path", r.Again.Path})
		for _, f := range r.Again.Fields {
			pairs = append(pairs, pair{"again.field." + f.Name, f.Value})
		}
	}
	if r.Wipe {
		pairs = append(pairs, pair{"wipe", flag(true)})
	}
	pairs = append(pairs, pair{"refresh", strconv.Itoa(r.Refresh)})
	return writePairs(pairs)
}

func flag(on bool) string {
	if on {
		return "1"
	}
	return ""
}

// readPairs reads a message of at most RequestLimit bytes.
func readPairs(message []byte) ([]pair, error) {
	if len(message) > RequestLimit {
		return nil, errors.New("exchange: the message has " + strconv.Itoa(len(message)) +
			" bytes, more than " + strconv.Itoa(RequestLimit>>20) + " MiB")
	}
	var pairs []pair
	for at := 0; at < len(message); {
		key, next, err := readString(message, at)
		if err != nil {
			return nil, err
		}
		if next == len(message) {
			return nil, errors.New("exchange: the key " + strconv.Quote(key) + " has no value")
		}
		value, end, err := readString(message, next)
		if err != nil {
			return nil, err
		}
		pairs = append(pairs, pair{key, value})
		at = end
	}
	return pairs, nil
}

// readString reads one string that starts at byte at, and says where it ends.
func readString(message []byte, at int) (text string, end int, err error) {
	rest := message[at:]
	if len(rest) < 4 {
		return "", 0, errors.New("exchange: the message ends inside a length" + atByte(at))
	}
	// Compared as uint64: int has 32 bits in no browser today, yet a length of
	// 4 GiB must never turn negative and pass.
	length := uint64(rest[0]) | uint64(rest[1])<<8 | uint64(rest[2])<<16 | uint64(rest[3])<<24
	if length > uint64(len(rest)-4) {
		return "", 0, errors.New("exchange: a string goes past the end of the message" + atByte(at))
	}
	bytes := rest[4 : 4+length]
	if !utf8.Valid(bytes) {
		return "", 0, errors.New("exchange: a string is not UTF-8" + atByte(at))
	}
	return string(bytes), at + 4 + len(bytes), nil
}

func atByte(at int) string {
	return ", at byte " + strconv.Itoa(at)
}

func writePairs(pairs []pair) []byte {
	size := 0
	for _, p := range pairs {
		size += 8 + len(p.key) + len(p.value)
	}
	message := make([]byte, 0, size)
	for _, p := range pairs {
		message = appendString(message, p.key)
		message = appendString(message, p.value)
	}
	return message
}

func appendString(message []byte, text string) []byte {
	n := len(text)
	message = append(message, byte(n), byte(n>>8), byte(n>>16), byte(n>>24))
	return append(message, text...)
}
