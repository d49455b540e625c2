package bundle

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/tools"
	"newel/core/page"
)

// The page's list of what it ships is what the linker and esbuild put in, with the licenses that lie beside it.
func TestThePageNamesWhatItShips(t *testing.T) {
	ctx, root := context.Background(), filepath.Join("..", "..")
	require.NoError(t, tools.NodeModules(ctx, root, func(string) {}))
	support, err := tools.WasmSupport(ctx, root)
	require.NoError(t, err)
	root, err = filepath.Abs(root)
	require.NoError(t, err)
	all, err := works(ctx, root, filepath.Join(support, "wasm_exec.js"))
	require.NoError(t, err)
	shipped := map[string][2]string{}
	for _, s := range page.Shipped() {
		shipped[s.Name] = [2]string{s.Version, s.License}
	}
	found := map[string][2]string{}
	for _, w := range all {
		if w.name == "Go" {
			w.version = "" // that of the machine
		}
		found[w.name] = [2]string{w.version, w.license}
		require.Contains(t, string(licenseFile(all)), w.text)
	}
	require.Equal(t, found, shipped, "core/page/shipped.txt should say what is shipped")
}

// Words of the licenses as the SPDX License List has them (from memory).
func TestLicensesAreKnownByTheirWords(t *testing.T) {
	for words, name := range map[string]string{
		"This Font Software is licensed under the SIL Open Font License, Version 1.1.":                                      "OFL-1.1",
		"Redistributions in binary form must reproduce the above\ncopyright notice … Neither the name of Google Inc. nor …": "BSD-3-Clause",
		"Redistributions in binary form must reproduce the above copyright":                                                 "BSD-2-Clause",
		"Permission is hereby granted, free of charge,\nto any person obtaining a copy of this software":                    "MIT",
		"for any purpose with or without fee is hereby granted, provided that the above":                                    "ISC",
		"for any purpose with or\nwithout fee is hereby granted.\n":                                                         "0BSD",
		"GNU GENERAL PUBLIC LICENSE": "",
	} {
		require.Equal(t, name, spdx(words), words)
	}
}
