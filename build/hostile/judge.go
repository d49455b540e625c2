package hostile

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"golang.org/x/net/html"
)

// Pages is what the templates write: their elements, and the attributes of any of them.
type Pages struct {
	elements, attributes map[string]bool
}

var (
	written   = regexp.MustCompile(`<([a-zA-Z][a-zA-Z0-9]*)([^<]*)`)
	valued    = regexp.MustCompile(`\s([a-zA-Z-]+)="`)
	bare      = regexp.MustCompile(`[\s}](hidden|open|checked|selected|required|multiple|novalidate|disabled|readonly|defer|async|crossorigin|data-[a-z-]+)\b`)
	insertion = regexp.MustCompile(`(?s)\{%-?\s*(?:[sdvfqzju]|dl|dul)=?\s.*?%\}`)
)

// ReadPages reads the templates below root, the top of the repository.
func ReadPages(root string) (*Pages, error) {
	p := &Pages{elements: map[string]bool{"html": true, "head": true, "body": true, "tbody": true}, attributes: map[string]bool{}}
	for _, folder := range []string{"core/page", "core/picture"} {
		files, err := filepath.Glob(filepath.Join(root, folder, "*.qtpl"))
		if err != nil || len(files) == 0 {
			return nil, fmt.Errorf("there are no templates in %s: %w", folder, err)
		}
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				return nil, err
			}
			p.take(insertion.ReplaceAllString(string(text), "x"))
		}
	}
	return p, nil
}

// take reads one template. Some attributes are written by templates of their own, outside of any element.
func (p *Pages) take(text string) {
	for _, m := range written.FindAllStringSubmatch(text, -1) {
		p.elements[strings.ToLower(m[1])] = true
		for _, a := range bare.FindAllStringSubmatch(m[2], -1) {
			p.attributes[a[1]] = true
		}
	}
	for _, a := range valued.FindAllStringSubmatch(text, -1) {
		p.attributes[strings.ToLower(a[1])] = true
	}
}

// never are attributes and elements that run or load something; the templates have none of them in a screen.
var (
	neverAttribute = regexp.MustCompile(`^on|^style$|^srcdoc$|^background$|^ping$|^src|^data$|^poster$|^xlink|^http-equiv$|^nonce$|^integrity$`)
	neverElement   = regexp.MustCompile(`^(script|style|iframe|frame|object|embed|base|img|image|audio|video|source|template|link|meta|applet|math|annotation-xml|foreignobject|set|animate)$`)
)

// Ways that lead anywhere. A fragment of ours is a link's letters, an id, or a word.
var (
	ownWay  = regexp.MustCompile(`^#[A-Za-z0-9_.-]*$`)
	dialled = regexp.MustCompile(`^tel:\+?[0-9]{2,}$`)
	texted  = regexp.MustCompile(`^sms:\?body=[A-Za-z0-9%._~-]*$`)
	path    = regexp.MustCompile(`^/([a-z0-9.-]+(/[a-z0-9.-]+)*/?)?$`)
	plainID = regexp.MustCompile(`^[A-Za-z0-9._-]+$`)
	classes = regexp.MustCompile(`^[a-z0-9 -]*$`)
)

// Judge parses the inside of the page's element "app" as a browser does, and says what stands there that no
// template wrote or that leads elsewhere; "" where all is well.
func (p *Pages) Judge(screen string) string {
	root, err := html.Parse(strings.NewReader(`<!doctype html><html><head></head><body><div id="app">` + screen + `</div></body></html>`))
	if err != nil {
		return err.Error()
	}
	for n := range root.Descendants() {
		switch {
		case n.Type == html.CommentNode:
			return fmt.Sprintf("the comment %q", n.Data)
		case n.Type == html.TextNode:
			if strings.ContainsRune(n.Data, 0) {
				return fmt.Sprintf("a NUL in the text %q", n.Data)
			}
		case n.Type == html.ElementNode:
			if fault := p.element(n); fault != "" {
				return fault
			}
		}
	}
	return ""
}

func (p *Pages) element(n *html.Node) string {
	if name := strings.ToLower(n.Data); !p.elements[name] || neverElement.MatchString(name) {
		return fmt.Sprintf("the element <%s>", n.Data)
	}
	for _, a := range n.Attr {
		name := strings.ToLower(a.Key)
		ok := p.attributes[name] && !neverAttribute.MatchString(name)
		switch name {
		case "href":
			ok = ok && (ownWay.MatchString(a.Val) || n.Data == "a" && (a.Val == "licenses.txt" || dialled.MatchString(a.Val) || texted.MatchString(a.Val)))
		case "action", "formaction", "data-path":
			ok = ok && path.MatchString(a.Val)
		case "id", "for", "list", "name", "form":
			ok = ok && plainID.MatchString(a.Val)
		case "class":
			ok = ok && classes.MatchString(a.Val)
		}
		if !ok {
			return fmt.Sprintf("the attribute %s=%q of <%s>", a.Key, a.Val, n.Data)
		}
	}
	return ""
}

// Skeleton is a page without its texts and values: its elements in their order, each with the names of its
// attributes.
func Skeleton(screen string) (string, error) {
	root, err := html.Parse(strings.NewReader(`<!doctype html><body><div id="app">` + screen + `</div></body>`))
	if err != nil {
		return "", err
	}
	var b strings.Builder
	var walk func(n *html.Node, depth int)
	walk = func(n *html.Node, depth int) {
		if n.Type == html.ElementNode {
			fmt.Fprintf(&b, "%*s%s", depth, "", n.Data)
			for _, a := range n.Attr {
				b.WriteString(" " + a.Key)
			}
			b.WriteByte('\n')
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c, depth+1)
		}
	}
	walk(root, 0)
	return b.String(), nil
}
