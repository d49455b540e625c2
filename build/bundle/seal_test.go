package bundle

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The script and its hash are an example of Content Security Policy Level 3 (2.3.1; from memory), and what
// "openssl dgst -sha256 -binary | openssl base64 -A" says.
func TestAPageTakesItsScriptAsItWasBuilt(t *testing.T) {
	html, err := sealed([]byte(`<head><script type="module" src="a.js" data-core="b"></script>`), "a.js", []byte("alert('Hello, world.');"))
	require.NoError(t, err)
	require.Equal(t, `<head><script type="module" src="a.js" integrity="sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng=" data-core="b"></script>`, string(html))
	_, err = sealed([]byte(`<script src="a.js">`), "a.js", nil)
	require.ErrorContains(t, err, "should have")
}
