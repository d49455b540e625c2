package desk

import (
	"strings"
	"unicode/utf8"
)

// harmless puts an apostrophe before what a spreadsheet would take for a formula, as OWASP advises ("CSV
// Injection"): then it is a text. Who copies a cell of a spreadsheet gets its value, so a pasted cell that
// begins like a formula is a text that looks like one, and somebody else may have written it. OWASP names the
// signs, the full-width ones too; white space before one is looked past, since some programs drop it.
//
// Numbers and telephone numbers stay as they are: what has neither letters nor signs of a call is no command.
func harmless(value string) string {
	rest := strings.TrimLeft(value, " \t\r\n\v\f\u00a0\ufeff\x00")
	sign, size := utf8.DecodeRuneInString(rest)
	switch sign {
	case '=', '@', '\uff1d', '\uff20':
		return "'" + value
	case '+', '-', '\uff0b', '\uff0d':
		if strings.Trim(rest[size:], "0123456789 .,:/()-") != "" {
			return "'" + value
		}
	}
	return value
}
