// Command sample writes the near core pressed, and as build/press makes a module of it again, for
// web/test/unit/unpress.test.mjs: the page's half must give the same bytes.
//
//	go run ./build/press/sample FOLDER
//
// FOLDER then holds core.press and core.wasm.
package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"newel/build/bundle"
	"newel/build/press"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "sample needs one folder to write to")
		os.Exit(2)
	}
	if err := write(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func write(folder string) error {
	wasm, err := bundle.Wasm(context.Background(), ".", "./wasm/near")
	if err != nil {
		return err
	}
	if wasm, err = press.Trim(wasm); err != nil {
		return err
	}
	pressed, err := press.Press(wasm)
	if err != nil {
		return err
	}
	back, err := press.Unpress(pressed)
	if err != nil {
		return err
	}
	for name, data := range map[string][]byte{"core.press": pressed, "core.wasm": back} {
		if err := os.WriteFile(filepath.Join(folder, name), data, 0o644); err != nil {
			return err
		}
	}
	return nil
}
