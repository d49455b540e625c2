package bundle

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestInlined(t *testing.T) {
	n := Names{Style: "a.css", Begin: "b.js"}
	page := []byte(`<head><link rel="stylesheet" href="a.css"><script src="b.js"></script></head>`)
	html, err := inlined(page, n, []byte("p{content:\"$1\"}\n"), []byte("f(1<2);\n"))
	require.NoError(t, err)
	require.Equal(t, `<head><style>p{content:"$1"}</style><script>f(1<2);</script></head>`, string(html))

	_, err = inlined([]byte("<head></head>"), n, nil, nil)
	require.ErrorContains(t, err, `should have <link rel="stylesheet" href="a.css"> once`)
	_, err = inlined(page, n, []byte("p{}"), []byte(`g("</script>")`))
	require.ErrorContains(t, err, `"</" in it`)
	_, err = inlined(page, n, []byte("p{}"), []byte(`g("<!--")`))
	require.ErrorContains(t, err, `"<!--" in it`)
}
