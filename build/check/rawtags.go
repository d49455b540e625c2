package check

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"newel/build/tools"
)

// quicktemplate escapes what {%s x %} writes and leaves alone what {%s= x %}
// writes. A raw tag is the only way for a name in a link to become markup, so
// each one is listed here, as "file: tag", with the reason why its value
// cannot hold a stranger's text.
var allowedRaw = map[string]string{}

// tag is one {% … %}. The minus signs that trim space may stand at both ends.
var tag = regexp.MustCompile(`(?s)\{%-?\s*(.*?)\s*-?%\}`)

// rawTag is a tag that writes without HTML escaping: any letter tag with an
// equals sign, and the calls {%= F() %}, {%=q F() %}, {%=j F() %}, {%=u F() %}.
var rawTag = regexp.MustCompile(`^(?:[a-z]+=|=[qju]?(?:\s|$))`)

// call is {%= F() %}, whose F must be one of our own template functions: they
// have done their own escaping.
var call = regexp.MustCompile(`(?s)^=\s+(.*)$`)

// declared is the head of a template function or method.
var declared = regexp.MustCompile(`^func\s+(?:\([^)]*\)\s*)?([A-Za-z_][A-Za-z0-9_]*)\(`)

// RawTags lists the raw tags that are not allowed, and the permissions that
// nothing uses any more.
func RawTags(root string) ([]string, error) {
	files, err := templateTags(root)
	if err != nil {
		return nil, err
	}
	return judgeTags(files, allowedRaw), nil
}

// fileTag is one tag of one template.
type fileTag struct {
	file, text string
	line       int // 1-based
}

func templateTags(root string) ([]fileTag, error) {
	names, err := tools.Sources(root)
	if err != nil {
		return nil, err
	}
	var tags []fileTag
	for _, name := range names {
		if !strings.HasSuffix(name, ".qtpl") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(root, name))
		if err != nil {
			return nil, err
		}
		for _, m := range tag.FindAllSubmatchIndex(text, -1) {
			line := 1 + bytes.Count(text[:m[0]], []byte("\n"))
			tags = append(tags, fileTag{name, string(text[m[2]:m[3]]), line})
		}
	}
	return tags, nil
}

func judgeTags(tags []fileTag, allowed map[string]string) []string {
	var own []string
	for _, t := range tags {
		if m := declared.FindStringSubmatch(t.text); m != nil {
			own = append(own, m[1])
		}
	}
	var problems []string
	used := map[string]bool{}
	for _, t := range tags {
		key := t.file + ": " + t.text
		switch {
		case strings.Contains(t.text, ".N()."):
			problems = append(problems, fmt.Sprintf("%s:%d writes past the escaping with .N(): use a tag", t.file, t.line))
		case !rawTag.MatchString(t.text), callsOwn(t.text, own):
		case allowed[key] != "":
			used[key] = true
		default:
			problems = append(problems, fmt.Sprintf("%s:%d writes {%% %s %%} without escaping: drop the equals sign, "+
				"or allow it with a reason in build/check/rawtags.go", t.file, t.line, t.text))
		}
	}
	for key := range allowed {
		if !used[key] {
			problems = append(problems, fmt.Sprintf("build/check/rawtags.go allows %q, which is nowhere any more: take it out", key))
		}
	}
	slices.Sort(problems)
	return problems
}

// callsOwn says whether the tag is a plain call of one of our templates.
func callsOwn(text string, own []string) bool {
	m := call.FindStringSubmatch(text)
	if m == nil {
		return false
	}
	expr, err := parser.ParseExpr(m[1])
	if err != nil {
		return false
	}
	c, ok := expr.(*ast.CallExpr)
	if !ok {
		return false
	}
	switch f := c.Fun.(type) {
	case *ast.Ident:
		return slices.Contains(own, f.Name)
	case *ast.SelectorExpr:
		return slices.Contains(own, f.Sel.Name)
	}
	return false
}
