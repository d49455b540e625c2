package message

import (
	"net/url"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"newel/build/hostile"
)

// Each hostile text as a number and as a message: the address is of the scheme sms, goes to nobody but the digits,
// and has one field, the message itself, as net/url reads it. Nothing in it can end an attribute or a line.
func TestHostileTextsInAnAddress(t *testing.T) {
	texts, names, err := hostile.Texts("../..")
	require.NoError(t, err)
	for _, name := range names {
		text := texts[name]
		address := SMS([]string{text, "555-0142"}, text)
		require.Regexp(t, `^sms:[0-9+().,-]*555-0142(\?body=[A-Za-z0-9._~%-]+)?$`, address, name)
		u, err := url.Parse(address)
		require.NoError(t, err, name)
		require.Equal(t, "sms", u.Scheme)
		require.Empty(t, u.Fragment)
		fields, err := url.ParseQuery(u.RawQuery)
		require.NoError(t, err, name)
		require.LessOrEqual(t, len(fields), 1, name)
		if utf8.ValidString(text) {
			require.Equal(t, text, fields.Get("body"), name)
		}
		require.NotPanics(t, func() { Parts(text); Plain(text) }, name)
		require.False(t, strings.ContainsAny(Plain(text), "\x1b") && !strings.Contains(text, "\x1b"), "no escape is made, %s", name)
	}
}
