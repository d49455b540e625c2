//go:build near

package guide

import "embed"

// texts are those that the near core needs: what a helper reads with a link on a phone.
//
//go:embed text/*/chapters.txt text/*/covergrid.txt text/*/dayrail.txt text/*/due.txt text/*/duties.txt
//go:embed text/*/guide.txt text/*/homepicture.txt text/*/language.txt text/*/lines.txt text/*/offline.txt
//go:embed text/*/signs.txt text/*/steps.txt text/*/type.txt text/*/undo.txt text/*/words.txt
var texts embed.FS

// partly tells that this program comes without some of the texts.
const partly = true
