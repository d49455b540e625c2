package check

import (
	"bytes"
	"go/format"
	"os"
	"path/filepath"
	"strings"

	"newel/build/tools"
)

// Format lists the Go files that gofmt would change.
func Format(root string) ([]string, error) {
	files, err := tools.Sources(root)
	if err != nil {
		return nil, err
	}
	var problems []string
	for _, name := range files {
		if !strings.HasSuffix(name, ".go") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(root, name))
		if err != nil {
			return nil, err
		}
		pretty, err := format.Source(text)
		switch {
		case err != nil:
			problems = append(problems, name+" cannot be read as Go: "+err.Error())
		case !bytes.Equal(text, pretty):
			problems = append(problems, name+" is not as gofmt writes it: run gofmt -w "+name)
		}
	}
	return problems, nil
}
