package page

// PaperLight and PaperDark are the page's ground by day and by night, as web/style/tokens.css has
// them (--paper): browsers colour their own bars with it.
const (
	PaperLight = "#faf7f1"
	PaperDark  = "#15181b"
)

// ManifestName is the file name of the web application manifest in a language, beside the page.
func ManifestName(language string) string { return "app-" + language + ".webmanifest" }
