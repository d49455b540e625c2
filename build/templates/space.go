package templates

import (
	"fmt"
	"go/ast"
	"regexp"
	"strconv"
	"strings"
)

// Lines and indents of a template are there for whoever reads it. In the page each would be a
// node of its own, which is sent to the parser, styled around and compared with each answer; a
// plan's page had more of them than elements. So white space with a line end in it is left out
// where no browser shows it: beside the tag of a block, and where a template does nothing but go
// on to the next line between two of its own tags. Everything else of it becomes one line end,
// which the browser shows as a space; so does what stands in a tag, between attributes. A space
// that the words need and that would go with that is written as {% space %}.

// tightener goes through the literals of one template function, in their order.
type tightener struct {
	literals map[ast.Stmt]string // by the statement that writes it: as Go writes it, without that space
	tag      string              // the name in the last tag so far, which the literals before may have begun
	inTag    bool                // it is still open
}

var (
	gap = regexp.MustCompile(`[ \t\r]*\n[ \t\r\n]*`)
	// blocks are those elements around which browsers show no space (HTML 15.3), and what holds no
	// text of its own in a table, a choice or a drawing.
	blocks = set(`address article aside blockquote body br dd details dialog div dl dt fieldset figcaption figure footer form
		h1 h2 h3 h4 h5 h6 head header hr html legend li link main meta nav ol p script section style summary template title ul
		caption col colgroup table tbody td tfoot th thead tr optgroup option
		circle defs desc ellipse g line marker mask path pattern polygon polyline rect stop symbol use`)
	opened = regexp.MustCompile(`^</?([a-z][a-z0-9]*)`)
)

func set(words string) map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields(words) {
		all[w] = true
	}
	return all
}

// tighten notes what every literal in the body of a template function becomes.
func (e *edits) tighten(body *ast.BlockStmt) {
	e.space = tightener{literals: map[ast.Stmt]string{}}
	type sides struct{ before, after bool } // whether a value is printed there
	beside := map[ast.Stmt]sides{}
	ast.Inspect(body, func(n ast.Node) bool { // a list comes before what is in it, and that in its order
		list := listOf(n)
		for i, s := range list {
			beside[s] = sides{i > 0 && e.printsValue(list[i-1]), i+1 < len(list) && e.printsValue(list[i+1])}
		}
		s, ok := n.(*ast.ExprStmt)
		if !ok {
			return true
		}
		if kind, value := e.written(s); kind == "S" {
			text, err := strconv.Unquote(value)
			if err != nil {
				e.fault = fmt.Errorf("the template holds a backquote (%s): print it as a value", value)
				return false
			}
			e.space.literals[s] = quoted(e.space.tight(text, beside[s].before, beside[s].after))
		}
		return true
	})
}

func (e *edits) printsValue(s ast.Stmt) bool {
	kind, _ := e.written(s)
	return kind != "" && kind != "S"
}

func quoted(text string) string {
	if text == "" || !strconv.CanBackquote(strings.ReplaceAll(text, "\n", "")) {
		return strconv.Quote(text)
	}
	return "`" + text + "`"
}

// tight gives the literal without the white space that nobody sees. before and after tell whether a
// value is printed right before and behind it.
func (t *tightener) tight(text string, before, after bool) string {
	var out strings.Builder
	at := 0
	for _, found := range gap.FindAllStringIndex(text, -1) {
		t.pass(text[at:found[0]])
		out.WriteString(text[at:found[0]])
		if t.keeps(text[:found[0]], text[found[1]:], before, after) {
			out.WriteByte('\n')
		}
		at = found[1]
	}
	t.pass(text[at:])
	return out.String() + text[at:]
}

// pass notes the last tag of a piece of markup, and whether it is open behind it.
func (t *tightener) pass(markup string) {
	if at := strings.LastIndexByte(markup, '<'); at >= 0 {
		t.tag, t.inTag = "", true
		if m := opened.FindStringSubmatch(markup[at:]); m != nil {
			t.tag = m[1]
		}
	}
	if strings.LastIndexByte(markup, '>') > strings.LastIndexByte(markup, '<') {
		t.inTag = false
	}
}

// keeps tells whether the white space between left and right, within one literal, is seen.
func (t *tightener) keeps(left, right string, before, after bool) bool {
	if t.inTag {
		return true
	}
	if strings.HasSuffix(left, ">") && blocks[t.tag] {
		return false
	}
	if m := opened.FindStringSubmatch(right); m != nil && blocks[m[1]] {
		return false
	}
	return left != "" || right != "" || before || after
}
