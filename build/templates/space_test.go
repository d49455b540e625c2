package templates

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// made compiles the inside of a template and gives the calls that write.
func made(t *testing.T, inside string) string {
	t.Helper()
	code, err := compileText([]byte("{% func f(a, b string, c bool) %}"+inside+"{% endfunc %}"), "core/page/f.qtpl")
	require.NoError(t, err)
	_, body, _ := strings.Cut(string(code), "func streamf(")
	body, _, _ = strings.Cut(body, "\nfunc ")
	return strings.ReplaceAll(body, writerName, "w")
}

// HTML 15.3 says which elements are blocks, and CSS Text 3, 4.1.1 that white space at the sides of a
// block is not shown, and that a line end between two words is a space.
func TestWhiteSpaceThatNobodySeesIsLeftOut(t *testing.T) {
	for name, c := range map[string]struct{ inside, holds string }{
		"between blocks":         {"<p>x</p>\n\n  <ul>\n<li>y</li></ul>", "`<p>x</p><ul><li>y</li></ul>`"},
		"behind a block":         {"</p>\nwords", "`</p>words`"},
		"before a block":         {"words\n<div>", "`words<div>`"},
		"between lines of tags":  {"<p>x</p>{% if c %}<i>y</i>{% endif %}\n{% if c %}z{% endif %}", "}\n\n\tif c {"},
		"a tag in two literals":  {"<li id=\"{%s a %}\">\n{% if c %}z{% endif %}", "w.S(`\">`)"},
		"between shapes":         {"<path d=\"M0 0\"/>\n<circle r=\"1\"/>", "`<path d=\"M0 0\"/><circle r=\"1\"/>`"},
		"a block with a purpose": {"</p>\n<p class=\"x\">", "`</p><p class=\"x\">`"},
	} {
		require.Contains(t, made(t, c.inside), c.holds, name)
	}
}

func TestWhiteSpaceBetweenWordsStays(t *testing.T) {
	for name, c := range map[string]struct{ inside, holds string }{
		"words":                                 {"one\n  two", "`one\ntwo`"},
		"inline elements":                       {"<a>x</a>\n<a>y</a>", "`<a>x</a>\n<a>y</a>`"},
		"a word and a value":                    {"word\n{%s a %}", "w.SE(`word\n`, a)"},
		"two values":                            {"{%s a %}\n{%s b %}", "w.SE(`\n`, b)"},
		"attributes":                            {"<p id=\"{%s a %}\"\n  class=\"x\">", "`\"\nclass=\"x\">`"},
		"attributes of a fork":                  {"<p id=\"x\"{% if c %} hidden{% endif %}\n  class=\"x\">", "`\nclass=\"x\">`"},
		"a text area's first":                   {"<textarea>{% code // as it is %}\n{%s a %}</textarea>", "w.SE(`\n`, a)"},
		"said so":                               {"<a>x</a>{% if c %}{% space %}{% endif %}\n<p>", "w.S(` `)"},
		"no line end":                           {"<p>x</p> <p>y</p>", "`<p>x</p> <p>y</p>`"},
		"a tag that only begins like a block's": {"<a>x</a>\n<progress>", "`<a>x</a>\n<progress>`"},
	} {
		require.Contains(t, made(t, c.inside), c.holds, name)
	}
}

func TestABackquoteIsWritten(t *testing.T) {
	require.Contains(t, made(t, "<i>a`\n<p>"), "\"`\"")
}
