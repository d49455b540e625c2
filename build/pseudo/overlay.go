package pseudo

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
)

// Overlay writes the pseudo-language's files into the folder temp and gives the file there
// that tells the go command to take them as core/guide/text/qps of the repository root: the
// argument of its flag -overlay (see "go help build"). go:embed follows it.
func Overlay(root, temp string) (string, error) {
	text := filepath.Join(root, "core", "guide", "text")
	english, err := readFolder(filepath.Join(text, "en"))
	if err != nil {
		return "", err
	}
	replace := map[string]string{}
	for name, content := range Texts(english) {
		file := filepath.Join(temp, Language, name)
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			return "", err
		}
		if err := os.WriteFile(file, []byte(content), 0o644); err != nil {
			return "", err
		}
		replace[filepath.Join(text, Language, name)] = file
	}
	data, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return "", err
	}
	list := filepath.Join(temp, "overlay.json")
	return list, os.WriteFile(list, data, 0o644)
}

// readFolder reads the files of a language.
func readFolder(dir string) (map[string]string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	files := map[string]string{}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			return nil, err
		}
		files[e.Name()] = string(data)
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("%s holds no texts: a language cannot be made of nothing", dir)
	}
	return files, nil
}
