package tools

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
)

// Browsers are the Debian packages the browser tests drive: three engines,
// and a screen for the one that cannot run without.
var Browsers = []string{"chromium", "firefox-esr", "webkit2gtk-driver", "xvfb", "xauth"}

// programs name a file on the PATH that shows a package's job is covered on
// a system without dpkg.
var programs = map[string]string{
	"chromium": "chromium", "firefox-esr": "firefox", "webkit2gtk-driver": "WebKitWebDriver",
	"xvfb": "Xvfb", "xauth": "xauth",
}

// Apt installs those of the Debian packages that are missing. Without the
// rights to do so it returns an error with the exact command to run.
func Apt(ctx context.Context, packages []string, log func(string)) error {
	missing := missingPackages(packages, aptInstalled)
	if len(missing) == 0 {
		return nil
	}
	prefix, ok := rights(os.Geteuid(), has("apt-get"), has("sudo"))
	if !ok {
		return fmt.Errorf("the browser tests need %s.\n  what to do: as root, run %s",
			strings.Join(missing, ", "), aptLine(missing))
	}
	log("installing with apt-get: " + strings.Join(missing, " "))
	if err := apt(ctx, prefix, missing, "update", "-qq"); err != nil {
		return err
	}
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
		return has(programs[name])
	}
	out, err := exec.Command("dpkg-query", "-W", "-f=${db:Status-Status}", name).Output()
	return err == nil && strings.TrimSpace(string(out)) == "installed"
}

func has(program string) bool {
	_, err := exec.LookPath(program)
	return err == nil
}
