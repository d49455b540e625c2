package bundle

import (
	"bytes"
	"fmt"
	"slices"

	"newel/build/site"
)

// What a static page needs before anything of it can be drawn stands in the page itself: a request
// for it would take longer, on a phone's line, than its bytes do. The policy of build/site allows exactly
// these bytes, by their hash, and stands in the page too. What the page needs later has a file and an
// address of its own, which browsers keep.

// inlined puts the style and the first script of the page into a static page, in place of the tags
// that name them.
func inlined(html []byte, n Names, style, begin []byte) ([]byte, error) {
	html, err := inPlace(html, `<link rel="stylesheet" href="`+n.Style+`">`, "style", style)
	if err != nil {
		return nil, err
	}
	html, err = inPlace(html, `<script src="`+n.Begin+`"></script>`, "script", begin)
	if err != nil {
		return nil, err
	}
	return guarded(html)
}

// guarded puts the page's policy first in its head, for hosts that send none: a policy in a meta element
// holds for what comes after it only.
func guarded(html []byte) ([]byte, error) {
	before, after, found := bytes.Cut(html, []byte(head))
	if !found || bytes.Contains(after, []byte(head)) {
		return nil, fmt.Errorf("a static page should have %s once: see core/page/frame.qtpl", head)
	}
	return slices.Concat(before, []byte(head+site.Meta(site.Policy(html))), after), nil
}

const head = "<head>"

func inPlace(html []byte, tag, element string, content []byte) ([]byte, error) {
	if bytes.Count(html, []byte(tag)) != 1 {
		return nil, fmt.Errorf("a static page should have %s once: see core/page/frame.qtpl", tag)
	}
	// HTML, 13.2.5.4 and following: what ends such an element, or what changes how its end is found.
	for _, end := range []string{"</", "<!--"} {
		if bytes.Contains(content, []byte(end)) {
			return nil, fmt.Errorf("what goes into <%s> has %q in it, which ends it in the middle: write that text in another way", element, end)
		}
	}
	content = bytes.TrimRight(content, "\n")
	return bytes.Replace(html, []byte(tag), fmt.Appendf(nil, "<%s>%s</%s>", element, content, element), 1), nil
}
