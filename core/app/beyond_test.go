package app

import (
	"encoding/base64"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
)

// newerOf gives a link as a page of the next version might have written it: with that
// version in its first six bits, and a sound CRC-24 (RFC 9580 6.1, every bit turned over).
func newerOf(t *testing.T, fragment string) string {
	t.Helper()
	b, err := base64.RawURLEncoding.DecodeString(fragment)
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(b), 16, "a shorter link has another checksum")
	b[0] += 1 << 2
	sum := uint32(0xB704CE)
	for _, octet := range b[:len(b)-3] {
		sum ^= uint32(octet) << 16
		for range 8 {
			if sum <<= 1; sum&0x1000000 != 0 {
				sum ^= 0x1864CFB
			}
		}
	}
	sum = ^sum
	b[len(b)-3], b[len(b)-2], b[len(b)-1] = byte(sum>>16), byte(sum>>8), byte(sum)
	newer := base64.RawURLEncoding.EncodeToString(b)
	_, err = link.Decode(newer)
	require.ErrorIs(t, err, link.ErrNewer)
	return newer
}

// A later page has written the plan on this device; then an older one, out of the browser's
// memory, opens the link. It cannot read that copy, and so leaves it alone.
func TestACopyOfALaterPageStays(t *testing.T) {
	p := withTherapy(t)
	plain, key := p.fragment, keyPlan+planKey(p.plan().Number)
	newer := newerOf(t, plain)
	p.kept[key] = newer
	kept := len(p.kept)
	for _, path := range []string{"/", "/tick", "/facts", "/duty/1/drop", "/link/afresh", "/join"} {
		p.fragment = plain
		p.send(path, append(facts(), "code", "11", "n", "0", "done", "1", "sure", "1")...)
		require.Equal(t, "Load the page again to open this link", p.part("title"), path)
		require.Contains(t, p.text(), "as a later version of this page wrote it", path)
		require.Equal(t, newer, p.kept[key], path)
		require.Len(t, p.kept, kept)
	}
	p.open("")
	n := planKey(p.planOf(plain).Number)
	require.Contains(t, p.part("kept-"+n), "A plan that needs a newer page Thursday, December 3")
	require.Contains(t, p.last.HTML, `href="#`+newer+`"`)
	before := p.keys(n)
	p.send("/forget", "number", n)
	require.Empty(t, p.keys(n))
	p.send("/put-back", p.hidden("/put-back")...)
	require.Equal(t, before, p.keys(n))
	require.Equal(t, newer, p.kept[key])
	p.send("/put-back", "number", n, "plan", plain)
	require.Equal(t, newer, p.kept[key])
}

func TestAnExampleOfALaterPageStays(t *testing.T) {
	p := newPhone(t)
	p.open("demo")
	key := keyPlan + planKey(p.plan().Number)
	for _, stands := range []string{newerOf(t, p.fragment), ""} {
		p.kept[key] = stands
		p.open("demo")
		require.Equal(t, stands, p.kept[key])
		require.Contains(t, p.kept, keyDemo+key[len(keyPlan):])
	}
}

// What does not fit into a request comes with its key and no value (web/kept.ts). Nothing is
// stored in its place: it may hold more than the link.
func TestAPlanThatDidNotFitIntoTheRequest(t *testing.T) {
	p := withTherapy(t)
	plain, n := p.fragment, planKey(p.plan().Number)
	other := p.plan()
	other.Number++
	p.kept[keyPlan+n], p.kept[keyRead+n] = "", ""
	kept := len(p.kept)
	for _, path := range []string{"/", "/tick", "/duty/1/drop", "/open", "/put-back", "/join"} {
		p.fragment = plain
		p.send(path, "code", "11", "n", "0", "done", "1", "text", pageAddress+"#"+plain, "number", n, "plan", plain)
		require.Equal(t, []string{"", ""}, []string{p.kept[keyPlan+n], p.kept[keyRead+n]}, path)
		require.Len(t, p.kept, kept, path)
		require.Contains(t, p.kept, keyHand+n, path)
	}
	p.open(plain)
	require.Equal(t, "There are too many plans on this device", p.part("title"))
	require.Equal(t, plain, p.last.Fragment, "with it in hand the plan comes first the next time")
	require.Contains(t, p.part("notice-left-out"), "One more plan is on this device than the page can list")
	p.open(link.Encode(merge.New(other)))
	require.Contains(t, p.text(), "Rosa: knee replacement", "another plan opens as ever")
	p.kept[keyPlan+"1f"] = ""
	p.open("")
	require.Contains(t, p.part("notice-left-out"), "2 more plans are on this device")
}

// What stands beside a plan may not have fitted where the plan did: what was not read, what
// waits, what calendars hold. It is not begun anew.
func TestWhatStandsBesideAPlanDidNotFit(t *testing.T) {
	p := withTherapy(t)
	p.fileOf("all")
	n := planKey(p.plan().Number)
	left := []string{keyRead + n, keyOther + n, keyCalendar + n + ".all"}
	for _, key := range left {
		p.kept[key] = ""
	}
	p.send("/")
	p.send("/tick", "code", "11", "n", "0", "done", "1")
	p.send("/read")
	p.fileOf("all")
	for _, key := range left {
		require.Empty(t, p.kept[key], key)
		require.Contains(t, p.kept, key)
	}
	require.Equal(t, p.fragment, p.kept[keyPlan+n], "the plan itself goes on")
	p.send("/me", "who", "none")
	p.send("/me", "who", "1")
	require.Equal(t, "Dana", p.kept[keyMe+n], "an empty name is one that fitted")
}

// The head of a link of version 1 or 2 is another, in which the shell finds no plan. The
// address gets the same plan as a link of this version.
func TestAnOldLinkWhosePlanDidNotFit(t *testing.T) {
	file, err := os.ReadFile("../../testdata/link/v1/family.txt")
	require.NoError(t, err)
	old := lastWord(string(file))
	d, err := link.Decode(old)
	require.NoError(t, err)
	p := newPhone(t)
	p.kept[keyPlan+planKey(d.Number)] = ""
	out := p.open(old)
	require.Equal(t, "There are too many plans on this device", p.part("title"))
	head, err := link.ReadHead(out.Fragment)
	require.NoError(t, err)
	require.Equal(t, d.Number, head.Number)
}
