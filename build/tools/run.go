// Package tools runs the programs the build leans on (Go, Node, npm, apt) and
// says in plain words what is missing and what to do about it.
//
// Two entry points: Command.Run runs one program, and Check looks whether the
// programs are there and new enough. A failed step always tells three things:
// which step, what the program last said, and what to do next.
package tools

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"time"
)

// tailLines is how much of a failed program's output an error repeats. The
// cause is nearly always in the last lines; more would push it off the screen.
const tailLines = 20

// Command is one program to run as one named step.
type Command struct {
	Step   string   // what is being done, as in "npm ci: installing the packages"
	Dir    string   // working folder
	Env    []string // the whole environment, or nil for ours
	Name   string   // program
	Args   []string
	Advice string // a sentence on what to do when it fails
}

// StepError is a step that failed.
type StepError struct {
	Step   string
	Output string // everything the program said
	Advice string
	Cause  error
}

// Error gives the step, the program's last lines and what to do.
func (e *StepError) Error() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s did not work (%v).", e.Step, e.Cause)
	if tail := Tail(e.Output, tailLines); tail != "" {
		fmt.Fprintf(&b, "\n  its last lines:\n%s", Indent(tail, "    "))
	}
	if e.Advice != "" {
		fmt.Fprintf(&b, "\n  what to do: %s", e.Advice)
	}
	return b.String()
}

// Unwrap gives the reason the program could not run or finish.
func (e *StepError) Unwrap() error { return e.Cause }

// Run runs the command to its end and returns what it said on both channels.
// The error, if any, is a *StepError.
func (c Command) Run(ctx context.Context) (string, error) {
	out, _, err := c.run(ctx, true)
	return out, err
}

// Stdout is Run for a program whose answer is on its standard output; what it
// says on the other channel appears only in the error.
func (c Command) Stdout(ctx context.Context) (string, error) {
	_, out, err := c.run(ctx, false)
	return out, err
}

func (c Command) run(ctx context.Context, join bool) (all, stdout string, err error) {
	var both, out bytes.Buffer
	cmd := exec.CommandContext(ctx, c.Name, c.Args...)
	cmd.Dir, cmd.Env = c.Dir, c.Env
	// Ask before killing, so that a test runner can stop its own browsers.
	cmd.Cancel = func() error { return cmd.Process.Signal(os.Interrupt) }
	cmd.WaitDelay = 10 * time.Second
	cmd.Stderr = &both
	if join {
		cmd.Stdout = &both
	} else {
		cmd.Stdout = &out
	}
	if err = cmd.Run(); err != nil {
		err = c.fail(ctx, err, both.String())
	}
	return both.String(), out.String(), err
}

func (c Command) fail(ctx context.Context, err error, output string) error {
	switch {
	case errors.Is(ctx.Err(), context.DeadlineExceeded):
		err = errors.New("it took too long and was stopped")
	case ctx.Err() != nil:
		err = ctx.Err()
	}
	return &StepError{Step: c.Step, Output: output, Advice: c.Advice, Cause: err}
}

// Tail gives the last n lines that hold anything.
func Tail(text string, n int) string {
	lines := strings.Split(strings.TrimRight(text, "\n \t"), "\n")
	if len(lines) > n {
		lines = lines[len(lines)-n:]
	}
	return strings.Join(lines, "\n")
}

// Indent puts prefix in front of every line.
func Indent(text, prefix string) string {
	return prefix + strings.ReplaceAll(strings.TrimRight(text, "\n"), "\n", "\n"+prefix)
}
