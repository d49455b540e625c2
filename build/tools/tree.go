package tools

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Outputs are the folders that builds and installs write, and that are
// therefore no part of the sources.
var Outputs = []string{".git", ".cache", "dist", "node_modules"}

// Root finds the top of the repository from any folder inside it.
func Root(from string) (string, error) {
	for dir := from; ; dir = filepath.Dir(dir) {
		text, err := os.ReadFile(filepath.Join(dir, "go.mod"))
		if err == nil && strings.HasPrefix(string(text), "module newel\n") {
			return dir, nil
		}
		if dir == filepath.Dir(dir) {
			return "", errors.New("this is not inside Newel's folder: change into it (where go.mod is) and run the command again")
		}
	}
}

// Sources lists the files of the repository, sorted, as slash paths relative
// to root, without the output folders. It reads the disk rather than ask git,
// so that it works on an unpacked archive and sees new files too.
func Sources(root string) ([]string, error) {
	var files []string
	err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(root, path)
		switch top := !strings.Contains(filepath.ToSlash(rel), "/"); {
		case entry.IsDir() && top && slices.Contains(Outputs, rel):
			return filepath.SkipDir
		case entry.Type().IsRegular():
			files = append(files, filepath.ToSlash(rel))
		}
		return nil
	})
	slices.Sort(files)
	return files, err
}

// CopySources copies the repository's files into the folder to.
func CopySources(root, to string) error {
	files, err := Sources(root)
	if err != nil {
		return err
	}
	for _, name := range files {
		data, err := os.ReadFile(filepath.Join(root, name))
		if err != nil {
			return err
		}
		target := filepath.Join(to, name)
		if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(target, data, 0o644); err != nil {
			return err
		}
	}
	return nil
}
