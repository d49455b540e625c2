package desk

import (
	"strings"
)

// Tables are read as RFC 4180 describes them, with what programs make of it in practice: the
// separator may be a tab or a semicolon, a line may end with a line feed alone, rows may be of
// different lengths. A quotation mark counts at a cell's start only, and only if one closes it
// right before a separator or a line's end; else it is a letter like any other. So a mark that
// was left open takes no other row with it.
//
// encoding/csv would give the values too, but it turns CRLF within quotes into LF, leaves out
// empty lines and does not tell how a cell was quoted. What is copied back into a spreadsheet
// has to stand where it stood, unchanged.

// cell is one cell: what it says, and how it stood in the text.
type cell struct {
	value, raw string
	loose      bool // it begins with a quotation mark that nothing closes
}

// line is one record, with the end that it had.
type line struct {
	cells []cell
	end   string // "\r\n", "\n", "\r", or "" for the last
}

// empty tells whether no cell of a line says anything.
func (l *line) empty() bool {
	for _, c := range l.cells {
		if strings.TrimSpace(c.value) != "" {
			return false
		}
	}
	return true
}

// readLines reads a text into records.
func readLines(text string, comma byte) []line {
	var all []line
	for len(text) > 0 {
		var l line
		l, text = readLine(text, comma)
		all = append(all, l)
	}
	return all
}

// readLine takes one record off a text.
func readLine(text string, comma byte) (l line, rest string) {
	for {
		c := readCell(text, comma)
		l.cells = append(l.cells, c)
		text = text[len(c.raw):]
		if text == "" {
			return l, ""
		}
		if text[0] != comma {
			l.end = lineEnd(text)
			return l, text[len(l.end):]
		}
		text = text[1:]
	}
}

// lineEnd is the line's end that a text begins with, or "".
func lineEnd(text string) string {
	switch {
	case strings.HasPrefix(text, "\r\n"):
		return text[:2]
	case text != "" && (text[0] == '\n' || text[0] == '\r'):
		return text[:1]
	}
	return ""
}

// readCell reads the cell that a text begins with.
func readCell(text string, comma byte) cell {
	if strings.HasPrefix(text, `"`) {
		if c, ok := quoted(text, comma); ok {
			return c
		}
	}
	end := 0
	for end < len(text) && text[end] != comma && text[end] != '\n' && text[end] != '\r' {
		end++
	}
	return cell{value: text[:end], raw: text[:end], loose: strings.HasPrefix(text, `"`)}
}

// quoted reads a cell in quotation marks (RFC 4180 2.5 to 2.7); ok is false where none closes.
func quoted(text string, comma byte) (c cell, ok bool) {
	doubled := false
	for i := 1; i < len(text); i++ {
		if text[i] != '"' {
			continue
		}
		if i+1 < len(text) && text[i+1] == '"' {
			doubled = true
			i++
			continue
		}
		if after := text[i+1:]; after != "" && after[0] != comma && lineEnd(after) == "" {
			return c, false
		}
		c = cell{value: text[1:i], raw: text[:i+1]}
		if doubled {
			c.value = strings.ReplaceAll(c.value, `""`, `"`)
		}
		return c, true
	}
	return c, false
}

// written is a cell of ours as it stands in a text: in quotation marks where it would be read
// as something else without them (RFC 4180 2.6, 2.7).
func written(value string, comma byte) string {
	if strings.IndexByte(value, comma) < 0 && !strings.ContainsAny(value, "\"\r\n") {
		return value
	}
	return `"` + strings.ReplaceAll(value, `"`, `""`) + `"`
}

// separatorOf finds what stands between the cells of a text by its first line: a tab where
// there is one, since that is what a spreadsheet copies; else the more frequent of semicolon
// and comma.
func separatorOf(text string) byte {
	text = strings.TrimLeft(text, "\r\n")
	count := func(comma byte) int {
		l, _ := readLine(text, comma)
		for _, c := range l.cells {
			if c.loose { // another separator stood behind the mark that closes it
				return 1
			}
		}
		return len(l.cells)
	}
	switch {
	case count('\t') > 1:
		return '\t'
	case count(';') > count(','):
		return ';'
	case count(',') > 1:
		return ','
	}
	return '\t' // one column; a comma in it is part of a cell
}
