// Package peers asks other people's programs the questions that Newel answers for
// itself: which dates a repeating rule has, where a time on the wall stands in a zone,
// what a calendar file means, which split of the duties is the best, how many syllables a word
// has, what the cells of a table are. Its tests compare the answers; build/bench compares how
// long they took.
//
// The peers are ical.js, rrule.js, syllable and HiGHS (npm, under Node), python-dateutil with Python's
// own zoneinfo, and libical through ctypes (Debian, under /usr/bin/python3). Start
// starts one as a process of its own, which answers a question a line in JSON;
// Peer.Ask puts one. `go run ./build test` installs what they need (tools.Peers).
package peers

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"path/filepath"

	"newel/build/tools"
)

// Python is Debian's own interpreter: only it finds Debian's modules, and another
// python3 may stand before it on the PATH.
const Python = "/usr/bin/python3"

// The peers, by the names of their scripts.
const (
	IcalJS   = "icaljs.mjs"
	RruleJS  = "rrulejs.mjs"
	Dateutil = "dateutil_zoneinfo.py"
	Libical  = "libical_peer.py"
	HiGHS    = "highs.mjs"
	Syllable = "syllable.mjs"
	CSV      = "csv_peer.py"
)

// All are the peers that know repeating rules.
var All = []string{IcalJS, RruleJS, Dateutil, Libical}

// Peer is a running peer.
type Peer struct {
	Name    string
	Version string // of the library
	Zones   string // the release of the machine's zone data; of the Python peers only
	command *exec.Cmd
	to      io.WriteCloser
	from    *bufio.Reader
}

// Start starts a peer. root is the repository's folder. The error is a sentence that
// says how to get what is missing.
func Start(root, name string) (*Peer, error) {
	words := []string{"node", name}
	if filepath.Ext(name) == ".py" {
		// -E and -s: no settings or packages of the user's; -B: no compiled files beside ours.
		words = []string{Python, "-E", "-s", "-B", name}
	}
	p := &Peer{Name: name, command: exec.Command(words[0], words[1:]...)}
	p.command.Dir = filepath.Join(root, "build", "peers")
	p.command.Env = tools.CleanEnv()
	var said bytes.Buffer
	p.command.Stderr = &said
	if err := p.start(); err != nil {
		p.Close()
		return nil, fmt.Errorf("the peer %s does not answer: go run ./build test installs what it needs.\n%w\n%s",
			name, err, tools.Tail(said.String(), 3))
	}
	return p, nil
}

func (p *Peer) start() (err error) {
	if p.to, err = p.command.StdinPipe(); err != nil {
		return err
	}
	out, err := p.command.StdoutPipe()
	if err != nil {
		return err
	}
	p.from = bufio.NewReaderSize(out, 1<<16)
	if err := p.command.Start(); err != nil {
		return err
	}
	var about struct{ Version, Zones string }
	if err := p.Ask("about", map[string]any{}, &about); err != nil {
		return err
	}
	p.Version, p.Zones = about.Version, about.Zones
	return nil
}

// Ask puts a question and reads the answer into a value. An error is what the library
// said against the question, or that the peer is gone.
func (p *Peer) Ask(op string, question map[string]any, answer any) error {
	question["op"] = op
	line, err := json.Marshal(question)
	if err != nil {
		return err
	}
	if _, err := p.to.Write(append(line, '\n')); err != nil {
		return fmt.Errorf("%s is gone: %w", p.Name, err)
	}
	line, err = p.from.ReadBytes('\n')
	if err != nil {
		return fmt.Errorf("%s is gone: %w", p.Name, err)
	}
	var fault struct{ Fault string }
	if err := json.Unmarshal(line, &fault); err != nil {
		return fmt.Errorf("%s said what is no JSON: %w", p.Name, err)
	}
	if fault.Fault != "" {
		return errors.New(p.Name + ": " + fault.Fault)
	}
	return json.Unmarshal(line, answer)
}

// Close ends the peer.
func (p *Peer) Close() {
	if p.command.Process == nil {
		return
	}
	p.to.Close()
	p.command.Wait() // a peer ends with its input
}
