package app

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
)

// asked asks for what the phone shows with the insides of some folds; nil is all of them.
func (p *phone) asked(open []string) string {
	p.t.Helper()
	out := Handle(Request{
		Path: "/", Fragment: p.fragment, Page: pageAddress, Zone: p.zone, Language: p.language, Now: p.now.Unix(), Clock12: p.clock12,
		Random: make([]byte, 16), Kept: p.kept, Open: open,
	})
	require.Equal(p.t, "/", out.Path)
	return out.HTML
}

var (
	foldsIn   = regexp.MustCompile(`<details[^>]* id="([^"]+)"[^>]* data-fold="in"`)
	foldsLeft = regexp.MustCompile(`<details[^>]* id="([^"]+)" data-fold="left"[^>]*>`)
	foldMarks = regexp.MustCompile(` data-fold="(in|left)"`)
)

// inside gives what stands behind the summary of a fold, and the rest of the page before and after it.
func inside(t *testing.T, html, id string) (before, in, after string) {
	t.Helper()
	at := strings.Index(html, ` id="`+id+`"`)
	require.Positive(t, at, id)
	start := at + strings.Index(html[at:], "</summary>") + len("</summary>")
	depth, end := 1, start
	for depth > 0 {
		open, closed := strings.Index(html[end:], "<details"), strings.Index(html[end:], "</details>")
		require.GreaterOrEqual(t, closed, 0)
		if open >= 0 && open < closed {
			depth, end = depth+1, end+open+len("<details")
		} else {
			depth, end = depth-1, end+closed+len("</details>")
		}
	}
	end -= len("</details>")
	return html[:start], html[start:end], html[end:]
}

// What is left out of a page is the insides of folds that are closed, and nothing else: with them it is the whole page,
// at every time of a plan, and one fold at a time.
func TestFoldsLeaveOutTheirInsidesAlone(t *testing.T) {
	seen := map[string]bool{}
	for _, day := range []string{"2026-11-24", "2026-12-01", "2026-12-02", "2026-12-03", "2026-12-04", "2026-12-12", "2026-12-30", "2027-02-20"} {
		for _, language := range []string{"en-US", "es-US"} {
			p := newPhone(t)
			p.language = language
			p.open("demo")
			now, err := time.Parse(time.DateOnly, day)
			require.NoError(t, err)
			p.now = now.Add(15 * time.Hour)
			whole := p.asked(nil)
			require.NotContains(t, whole, "data-fold")

			bare := p.asked([]string{})
			left := foldsLeft.FindAllStringSubmatch(bare, -1)
			require.NotEmpty(t, left, day)
			want := whole
			var ids []string
			for _, fold := range left {
				id := fold[1]
				ids = append(ids, id)
				seen[id] = true
				require.NotContains(t, fold[0], " open", "a fold that stands open is whole")
				before, in, after := inside(t, want, id)
				require.NotEmpty(t, in)
				want = before + "<p class=\"hint\">" + guide.Open(language[:2]).Say("fold.wait") + "</p>" + after
			}
			require.Equal(t, want, foldMarks.ReplaceAllString(bare, ""), day)

			all := p.asked(ids)
			require.Equal(t, whole, foldMarks.ReplaceAllString(all, ""), day)
			for _, fold := range foldsIn.FindAllStringSubmatch(bare, -1) {
				require.Regexp(t, `<details[^>]* id="`+fold[1]+`"[^>]* open`, bare)
			}
			one := p.asked(ids[:1])
			require.Len(t, foldsLeft.FindAllString(one, -1), len(ids)-1)
			_, in, _ := inside(t, one, ids[0])
			_, all1, _ := inside(t, whole, ids[0])
			require.Equal(t, all1, in)
		}
	}
	for _, id := range []string{"past", "far", "daily", "list-home", "list-pack"} {
		require.True(t, seen[id], "%s was never left out", id)
	}
}

// What gets the focus is on the page, in whatever fold it is.
func TestFoldsHoldNoFocusBack(t *testing.T) {
	p := started(t)
	r := Request{
		Path: "/line/add", Fragment: p.fragment, Page: pageAddress, Zone: p.zone, Language: p.language, Now: p.now.Unix(),
		Random: make([]byte, 16), Kept: p.kept, Open: []string{},
		Fields: []Field{{"list", "pack"}, {"from", ""}, {"text", "Bring the lamp"}, {"day", ""}},
	}
	out := Handle(r)
	require.NotEmpty(t, out.Focus)
	require.Contains(t, out.HTML, ` id="`+out.Focus+`"`)
	r.Open = nil
	require.Equal(t, Handle(r), out)
}

// A device on another clock than the hospital's is told so, in an element that the shell knows
// (web/stood.ts): it keeps no page of such a device, whose day ends at another hour.
func TestAnotherClockIsToldWhereTheShellLooksForIt(t *testing.T) {
	for zone, told := range map[string]bool{"America/Chicago": false, "America/New_York": true, "Pacific/Honolulu": true} {
		p := newPhone(t)
		p.zone = zone
		out := p.open("demo")
		require.Equal(t, told, strings.Contains(out.HTML, ` id="notice-zone"`), zone)
	}
}
