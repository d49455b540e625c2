package app

import (
	"bytes"
	"encoding/hex"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The vectors were packed by another program from the stated format, so that a
// mistake made alike in both our readers still shows.
// web/test/unit/exchange.test.mjs walks the same files.

// vector is one file: a header, the message in hex, and the pairs it holds.
type vector struct {
	name, expect, message, fault string
	bytes                        []byte
	pairs                        []pair
}

func TestVectors(t *testing.T) {
	for _, v := range readVectors(t) {
		t.Run(v.name, func(t *testing.T) {
			switch v.message + " " + v.expect {
			case "pairs ok", "response ok":
				pairs, err := readPairs(v.bytes)
				require.NoError(t, err)
				require.Equal(t, v.pairs, pairs)
				require.Equal(t, v.bytes, writePairs(v.pairs))
			case "pairs error":
				_, err := readPairs(v.bytes)
				require.ErrorContains(t, err, v.fault)
			case "request ok":
				request, err := ReadRequest(v.bytes)
				require.NoError(t, err)
				require.Equal(t, v.bytes, writeRequest(request))
			case "request error":
				_, err := ReadRequest(v.bytes)
				require.ErrorContains(t, err, v.fault)
			default:
				t.Fatalf("no check for message %q with expect %q", v.message, v.expect)
			}
		})
	}
}

// The values stand in testdata/exchange/request-whole.txt in readable form.
func TestReadRequestFillsEveryPart(t *testing.T) {
	request, err := ReadRequest(vectorNamed(t, "request-whole").bytes)
	require.NoError(t, err)
	require.Equal(t, Request{
		Path: "/facts", Fragment: "AAEC-_", Page: "https://example.org/newel/", Zone: "America/Chicago", Language: "en-US",
		Now: 1790000000, Clock12: true,
		Random: []byte{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15}, Open: []string{"list-home", "far"},
		Fields: []Field{{"date", "2026-10-01"}, {"can", "drive"}, {"can", "cook"}, {"note", ""}},
		Kept:   map[string]string{"language": "en", "plan.1": "x"},
	}, request)
}

func TestWriteResponseEveryPart(t *testing.T) {
	response := Response{
		Title: "Sam’s day", HTML: "<h1 id=\"top\">Leave by 4:10 am</h1>\n", Language: "es", Direction: "ltr", Fragment: "AAEC",
		Path: "/", Push: true, Say: "Saved.", Focus: "top",
		Keep: []Entry{{"me", "2"}, {"plan.1", "AAEC"}}, Drop: []string{"old"},
		Send: &Send{Title: "A plan", Text: "Open this:", Fragment: "AAED", Copy: true, Alone: true},
		Lock: &Lock{"three small words", "AAEC"}, Unlock: &Lock{"drei kleine Wörter", "gAYB"},
		File:  &File{Name: "schedule.ics", Type: "text/calendar", Text: "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n"},
		Again: &Again{Path: "/desk/rows", Fields: []Field{{"made", "AAEC -"}, {"text", "Däy\t\n"}}}, Wipe: true, Refresh: 60,
	}
	require.Equal(t, vectorNamed(t, "response-whole").bytes, WriteResponse(response))
	require.Equal(t, vectorNamed(t, "response-bare").bytes, WriteResponse(Response{Path: "/"}))
	require.Equal(t, vectorNamed(t, "response-elsewhere").bytes, WriteResponse(Response{Elsewhere: true}))
}

func TestReadPairsTakesExactlyTheLimit(t *testing.T) {
	// Eight zero bytes are one pair of empty strings, so the limit full of them is whole.
	pairs, err := readPairs(make([]byte, RequestLimit))
	require.NoError(t, err)
	require.Len(t, pairs, RequestLimit/8)
	_, err = readPairs(make([]byte, RequestLimit+8))
	require.ErrorContains(t, err, "4194312 bytes, more than 4 MiB")
}

func TestErrorsShowOnlyTheStartOfAValue(t *testing.T) {
	request := Request{Path: "/", Random: make([]byte, 16)}
	message := bytes.Replace(writeRequest(request), writePairs([]pair{{"now", "0"}}),
		writePairs([]pair{{"now", strings.Repeat("é", 500)}}), 1)
	_, err := ReadRequest(message)
	require.ErrorContains(t, err, "…")
	require.Less(t, len(err.Error()), 200)
}

// FuzzReadRequest: no message makes the reader panic; one that reads well and is
// in the order the shell uses is written back byte for byte; in any other order
// it still means the same after a second reading.
func FuzzReadRequest(f *testing.F) {
	for _, v := range readVectors(f) {
		if len(v.bytes) < 1<<16 {
			f.Add(v.bytes)
		}
	}
	f.Fuzz(func(t *testing.T, message []byte) {
		if pairs, err := readPairs(message); err == nil {
			require.True(t, bytes.Equal(message, writePairs(pairs)))
		}
		request, err := ReadRequest(message)
		if err != nil {
			return
		}
		again := writeRequest(request)
		require.Equal(t, len(message), len(again))
		second, err := ReadRequest(again)
		require.NoError(t, err)
		require.Equal(t, request, second)
	})
}

// writeRequest is what the shell does (web/request.ts): the single keys in their
// order, then the fields, then the kept entries sorted by key.
func writeRequest(r Request) []byte {
	pairs := []pair{
		{"path", r.Path}, {"fragment", r.Fragment}, {"page", r.Page}, {"zone", r.Zone}, {"language", r.Language},
		{"now", strconv.FormatInt(r.Now, 10)}, {"clock12", flag(r.Clock12)},
		{"random", hex.EncodeToString(r.Random)},
	}
	if r.Open != nil {
		pairs = append(pairs, pair{"folds", strings.Join(r.Open, " ")})
	}
	for _, field := range r.Fields {
		pairs = append(pairs, pair{"field." + field.Name, field.Value})
	}
	keys := make([]string, 0, len(r.Kept))
	for key := range r.Kept {
		keys = append(keys, key)
	}
	sort.Strings(keys)
	for _, key := range keys {
		pairs = append(pairs, pair{"kept." + key, r.Kept[key]})
	}
	return writePairs(pairs)
}

func vectorNamed(t *testing.T, name string) vector {
	for _, v := range readVectors(t) {
		if v.name == name {
			return v
		}
	}
	t.Fatalf("testdata/exchange has no %s.txt", name)
	return vector{}
}

func readVectors(t testing.TB) []vector {
	files, err := filepath.Glob("../../testdata/exchange/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	vectors := make([]vector, 0, len(files))
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		vectors = append(vectors, parseVector(t, strings.TrimSuffix(filepath.Base(file), ".txt"), string(text)))
	}
	return vectors
}

// parseVector takes a header ("key: value" lines), then "hex:" and its lines, then
// perhaps "pairs:" with two quoted strings a line. A header key it does not know
// fails: a misspelt "expect" must not turn a check off.
func parseVector(t testing.TB, name, text string) vector {
	v := vector{name: name, pairs: nil}
	pad, part, digits := 0, "header", ""
	for _, line := range strings.Split(text, "\n") {
		switch {
		case line == "":
		case line == "hex:" || line == "pairs:":
			part = line
		case part == "hex:":
			digits += line
		case part == "pairs:":
			v.pairs = append(v.pairs, parsePair(t, name, line))
		default:
			key, value, _ := strings.Cut(line, ": ")
			switch key {
			case "expect":
				v.expect = value
			case "message":
				v.message = value
			case "error":
				v.fault = value
			case "pad":
				n, err := strconv.Atoi(value)
				require.NoError(t, err, name)
				pad = n
			case "source", "comment":
			default:
				t.Fatalf("%s.txt has the unknown header key %q", name, key)
			}
		}
	}
	require.Equal(t, v.expect == "error", v.fault != "", "%s.txt: an error says which, and only an error", name)
	bytes, err := hex.DecodeString(digits)
	require.NoError(t, err, name)
	v.bytes = append(bytes, make([]byte, max(0, pad-len(bytes)))...)
	return v
}

func parsePair(t testing.TB, name, line string) pair {
	key, err := strconv.QuotedPrefix(line)
	require.NoError(t, err, "%s.txt: %s", name, line)
	value := strings.TrimPrefix(line[len(key):], " ")
	k, err := strconv.Unquote(key)
	require.NoError(t, err, name)
	val, err := strconv.Unquote(value)
	require.NoError(t, err, "%s.txt: %s", name, line)
	return pair{k, val}
}
