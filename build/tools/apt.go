package tools

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
)

// Browsers are the Debian packages the browser tests drive: three engines, a screen for
// the one that cannot run without, and readers of QR codes and of PDF files.
var Browsers = []string{"chromium", "firefox-esr", "webkit2gtk-driver", "xvfb", "xauth", "zbar-tools", "poppler-utils"}

// Peers are the Debian packages of the other people's programs that build/peers
// compares with: Python with its calendar library, libical, and the machine's own
// time zones. libical's package was renamed when Debian widened time_t; a bar
// stands between the names.
var Peers = []string{"python3", "python3-dateutil", "libical3|libical3t64", "tzdata"}

// proofs are commands that succeed where a package's job is covered, for a system
// without dpkg. A word alone is a program on the PATH.
var proofs = map[string][]string{
	"chromium": {"chromium"}, "firefox-esr": {"firefox"}, "webkit2gtk-driver": {"WebKitWebDriver"},
	"xvfb": {"Xvfb"}, "xauth": {"xauth"}, "zbar-tools": {"zbarimg"}, "poppler-utils": {"pdftotext"},
	"python3":              {"/usr/bin/python3", "--version"},
	"python3-dateutil":     {"/usr/bin/python3", "-E", "-s", "-c", "import dateutil"},
	"libical3|libical3t64": {"/usr/bin/python3", "-E", "-s", "-c", "import ctypes; ctypes.CDLL('libical.so.3')"},
	"tzdata":               {"test", "-e", "/usr/share/zoneinfo/tzdata.zi"},
}

// Apt installs those of the Debian packages that are missing. Without the
// rights to do so it returns an error with the exact command to run; who needs
// them, as in "the browser tests", begins its sentence.
func Apt(ctx context.Context, who string, packages []string, log func(string)) error {
	missing := missingPackages(packages, aptInstalled)
	if len(missing) == 0 {
		return nil
	}
	prefix, ok := rights(os.Geteuid(), has("apt-get"), has("sudo"))
	if !ok {
		return fmt.Errorf("%s need %s.\n  what to do: as root, run %s",
			who, strings.Join(missing, ", "), aptLine(chosen(missing, aptKnows)))
	}
	if err := apt(ctx, prefix, missing, "update", "-qq"); err != nil {
		return err
	}
	missing = chosen(missing, aptKnows)
	log("installing with apt-get: " + strings.Join(missing, " "))
	return apt(ctx, prefix, missing, append([]string{"install", "-y", "-qq", "--no-install-recommends"}, missing...)...)
}

func apt(ctx context.Context, prefix, missing []string, args ...string) error {
	// sudo drops the environment, so the setting is passed through env.
	words := append(append([]string{}, prefix...), "env", "DEBIAN_FRONTEND=noninteractive", "apt-get")
	words = append(words, args...)
	_, err := Command{
		Step: "apt-get " + args[0], Name: words[0], Args: words[1:],
		Advice: "as root, run " + aptLine(missing),
	}.Run(ctx)
	return err
}

func aptLine(packages []string) string {
	return "apt-get update && apt-get install -y --no-install-recommends " + strings.Join(packages, " ")
}

// rights gives the words to put before a command that needs root.
func rights(uid int, hasApt, hasSudo bool) (prefix []string, ok bool) {
	switch {
	case !hasApt:
		return nil, false
	case uid == 0:
		return nil, true
	case hasSudo:
		return []string{"sudo"}, true
	}
	return nil, false
}

func missingPackages(packages []string, installed func(string) bool) []string {
	var missing []string
	for _, name := range packages {
		if !installed(name) {
			missing = append(missing, name)
		}
	}
	return missing
}

func aptInstalled(name string) bool {
	if !has("dpkg-query") {
		return proven(proofs[name])
	}
	for _, one := range strings.Split(name, "|") {
		out, err := exec.Command("dpkg-query", "-W", "-f=${db:Status-Status}", one).Output()
		if err == nil && strings.TrimSpace(string(out)) == "installed" {
			return true
		}
	}
	return false
}

func proven(proof []string) bool {
	if len(proof) == 1 {
		return has(proof[0])
	}
	return exec.Command(proof[0], proof[1:]...).Run() == nil
}

// chosen replaces several names of one package by the one that this system knows.
func chosen(packages []string, known func(string) bool) []string {
	var list []string
	for _, name := range packages {
		names := strings.Split(name, "|")
		if i := slices.IndexFunc(names, known); i > 0 {
			names = names[i:]
		}
		list = append(list, names[0])
	}
	return list
}

func aptKnows(name string) bool {
	out, err := exec.Command("apt-cache", "show", "--no-all-versions", name).Output()
	return err == nil && len(out) > 0
}

func has(program string) bool {
	_, err := exec.LookPath(program)
	return err == nil
}
