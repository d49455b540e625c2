package tools

import (
	"context"
	"errors"
	"os"
	"path/filepath"
)

// NodeModules installs the npm packages that package-lock.json lists, unless
// they are there already and no older than the list. log hears what is done.
func NodeModules(ctx context.Context, root string, log func(string)) error {
	if modulesCurrent(root) {
		return nil
	}
	folder := filepath.Join(root, "node_modules")
	if info, err := os.Lstat(folder); err == nil && info.Mode()&os.ModeSymlink != 0 {
		return errors.New(folder + " is a link, and npm ci would empty the folder that it leads to: remove the link, or run npm ci in that folder")
	}
	log("installing the npm packages (npm ci)")
	_, err := Command{
		Step: "npm ci: installing the npm packages", Dir: root, Name: "npm",
		// No package of ours needs an install script; refusing them keeps
		// downloads to what the lock file's checksums cover.
		Args:   []string{"ci", "--ignore-scripts"},
		Advice: "check the network and that package.json and package-lock.json belong together (npm install brings them in line)",
	}.Run(ctx)
	return err
}

// modulesCurrent compares npm's own note of what it installed with the list.
func modulesCurrent(root string) bool {
	note, err := os.Stat(filepath.Join(root, "node_modules", ".package-lock.json"))
	if err != nil {
		return false
	}
	list, err := os.Stat(filepath.Join(root, "package-lock.json"))
	return err == nil && !note.ModTime().Before(list.ModTime())
}
