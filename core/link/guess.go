package link

// Guess reads the plan’s number from the beginning of a damaged fragment. Most links are
// damaged by losing their end, so it is mostly right; nothing vouches for it, and it may
// only be held against the numbers of plans that are known.
func Guess(fragment string) (number uint32, ok bool) {
	const letters = 8 // 48 bits, of which the version and the number are 38
	if len(fragment) < letters {
		return 0, false
	}
	data, ok := bytesOf(fragment[:letters])
	if !ok {
		return 0, false
	}
	b := bitsOf{data: data}
	v := b.take(6)
	return b.take(32), v >= version && v <= lastHeaded
}
