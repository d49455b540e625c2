// Command zonepack writes core/zone/zones.bin, the time-zone data that Newel ships.
//
//	go run ./build/zonepack              writes core/zone/zones.bin
//	go run ./build/zonepack some/file    writes some/file instead
//
// Run it again after a new Go release has brought newer zone data, and commit the result.
//
// It reads two things and nothing else, so the same input gives the same bytes:
//   - lib/time/zoneinfo.zip of the Go installation: the IANA time zone database, compiled,
//     with every old name (see lib/time/README there; public domain);
//   - zone.tab, beside this file: the IANA table of one name for each place (public domain,
//     release 2025b). It decides only which names a form offers; a place that is missing in it
//     can still be loaded.
//
// What is left out: every change of the clocks before 2020 and, for the few zones that list
// them that far, after 2045 (see tzif.go); and the name "Factory", which means "this device has
// not been told its zone".
package main

import (
	"archive/zip"
	"fmt"
	"go/build"
	"io"
	"os"
	"path/filepath"
	"regexp"
)

func main() {
	target := filepath.Join("core", "zone", "zones.bin")
	if len(os.Args) > 1 {
		target = os.Args[1]
	}
	if err := run(build.Default.GOROOT, target); err != nil {
		fmt.Fprintln(os.Stderr, "zonepack:", err)
		os.Exit(1)
	}
}

// run packs the zones of the Go installation at goroot into the file target.
func run(goroot, target string) error {
	zones, err := readZones(filepath.Join(goroot, "lib", "time", "zoneinfo.zip"))
	if err != nil {
		return err
	}
	packed, err := pack(dataVersion(goroot), zones)
	if err != nil {
		return err
	}
	if err := os.WriteFile(target, packed, 0o644); err != nil {
		return err
	}
	fmt.Printf("%s: %d names, %d bytes, zone data %s\n", target, len(zones), len(packed), dataVersion(goroot))
	return nil
}

// readZones returns the TZif file of every name in the archive, except "Factory".
func readZones(archive string) (map[string][]byte, error) {
	files, err := zip.OpenReader(archive)
	if err != nil {
		return nil, fmt.Errorf("reading the zones that come with Go: %w", err)
	}
	defer files.Close()
	zones := map[string][]byte{}
	for _, file := range files.File {
		if file.FileInfo().IsDir() || file.Name == "Factory" {
			continue
		}
		content, err := readAll(file)
		if err != nil {
			return nil, fmt.Errorf("reading %s in %s: %w", file.Name, archive, err)
		}
		zones[file.Name] = content
	}
	return zones, nil
}

func readAll(file *zip.File) ([]byte, error) {
	content, err := file.Open()
	if err != nil {
		return nil, err
	}
	defer content.Close()
	return io.ReadAll(content)
}

// dataVersion returns the release of the zone data, such as "2025c", or "unknown". The archive
// does not say; the script beside it that made the archive does.
func dataVersion(goroot string) string {
	script, err := os.ReadFile(filepath.Join(goroot, "lib", "time", "update.bash"))
	if err != nil {
		return "unknown"
	}
	found := regexp.MustCompile(`(?m)^DATA=(\d{4}[a-z]+)$`).FindSubmatch(script)
	if found == nil {
		return "unknown"
	}
	return string(found[1])
}
