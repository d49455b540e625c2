//go:build !near

package guide

import "embed"

// texts are all that the page says. The near core has those of near.go.
//
//go:embed text/*/*.txt
var texts embed.FS

// partly tells that this program comes without some of the texts.
const partly = false
