package calendar

import (
	"strconv"
	"strings"

	"newel/core/plan"
)

func writeMemory(list []kept) string {
	var b strings.Builder
	for i, k := range list {
		if i == mostKept {
			break
		}
		b.WriteString(k.uid + " " + strconv.Itoa(k.sequence) + " " + k.print + " " + k.start)
		if k.gone {
			b.WriteString(" -")
		}
		for _, t := range k.moved {
			b.WriteString(" " + utcText(t))
		}
		if k.words != "" {
			b.WriteString("\t" + k.words)
		}
		b.WriteString("\n")
	}
	return b.String()
}

// firstWords shortens an own line to what is remembered of it.
func firstWords(text string) string {
	if r := []rune(text); len(r) > plan.MaxName {
		return string(r[:plan.MaxName-1]) + "…"
	}
	return text
}

func readMemory(text string) []kept {
	var list []kept
	seen := map[string]bool{}
	for line := range strings.Lines(text) {
		line, words, _ := strings.Cut(strings.TrimSuffix(line, "\n"), "\t")
		f := strings.Fields(line)
		if len(list) == mostKept {
			break
		}
		if len(f) < 4 || !isUID(f[0]) || seen[f[0]] || len(f[2]) > 16 {
			continue
		}
		n, err := strconv.ParseUint(f[1], 10, 32)
		v, ok := readValue(f[3])
		if err != nil || n > maxSequence || !ok || v.form == local {
			continue
		}
		seen[f[0]] = true
		k := kept{uid: f[0], print: f[2], start: f[3], sequence: int(n), words: firstWords(plan.Clean(words))}
		if k.readRest(f[4:]) {
			list = append(list, k)
		}
	}
	return list
}

// readRest reads what stands behind DTSTART.
func (k *kept) readRest(fields []string) (ok bool) {
	if len(fields) > 0 && fields[0] == "-" {
		k.gone, fields = true, fields[1:]
	}
	for _, text := range fields {
		v, ok := readValue(text)
		if !ok || v.form != utc || len(k.moved) == mostMoved || len(k.moved) > 0 && !k.moved[len(k.moved)-1].Before(v.wall) {
			return false
		}
		k.moved = append(k.moved, v.wall)
	}
	return true
}
