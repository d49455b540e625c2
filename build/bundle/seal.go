package bundle

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
)

// integrity is what a file must hash to, as Subresource Integrity (3.5) writes it.
func integrity(data []byte) string {
	sum := sha256.Sum256(data)
	return "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
}

// sealed has a static page take its script only as it was built. No worker can be held to a hash, and a core
// that is would be compiled only when it has come whole (Fetch, 4.1: the body is read to its end
// first); both are held to theirs by the service worker, from the second visit on.
func sealed(html []byte, name string, script []byte) ([]byte, error) {
	tag := fmt.Appendf(nil, `<script type="module" src="%s"`, name)
	if bytes.Count(html, tag) != 1 {
		return nil, fmt.Errorf("a static page should have %s once: see core/page/frame.qtpl", tag)
	}
	return bytes.Replace(html, tag, fmt.Appendf(tag, ` integrity="%s"`, integrity(script)), 1), nil
}
