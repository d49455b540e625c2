package bench

import (
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"text/tabwriter"
)

// writeMachine prints the first line.
func writeMachine(out io.Writer, machine string, asJSON bool) error {
	if asJSON {
		return json.NewEncoder(out).Encode(map[string]string{"machine": machine})
	}
	_, err := fmt.Fprintf(out, "%s\n\n", machine)
	return err
}

// write prints the rows as a table, or as one object of JSON a line.
func write(out io.Writer, rows []Row, asJSON bool) error {
	if asJSON {
		encoder := json.NewEncoder(out)
		encoder.SetEscapeHTML(false)
		for _, r := range rows {
			if err := encoder.Encode(r); err != nil {
				return err
			}
		}
		return nil
	}
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "row\tunit\tours\tfrom–to\tmust\tgoal\tpeer's\tratio\tpeer")
	for _, r := range rows {
		peer := r.Peer
		if r.Why != "" {
			peer += "; " + r.Why
		}
		fmt.Fprintf(table, "%s\t%s\t%.2f\t%s\t%s\t%s\t%.2f\t%.2f\t%s\n",
			r.Row, r.Unit, r.Ours, between(r), limit(r.Must), limit(r.Goal), r.PeerValue, r.Ratio, peer)
	}
	return table.Flush()
}

// between prints the least and the greatest of several runs.
func between(r Row) string {
	if r.Runs == 0 {
		return "–"
	}
	return fmt.Sprintf("%s–%s of %d", short(r.Low), short(r.High), r.Runs)
}

// limit prints a limit, or a dash where there is none.
func limit(value float64) string {
	if value == 0 {
		return "–"
	}
	return strconv.FormatFloat(value, 'f', -1, 64)
}

// writeMarkdown prints the rows that have a limit, for README.
func writeMarkdown(out io.Writer, machine string, rows []Row) error {
	_, err := fmt.Fprintf(out, "%s\n\n| row | ours | of runs | must | goal | peer | ratio | the peer |\n|---|--:|---|--:|--:|--:|--:|---|\n", machine)
	for _, r := range rows {
		if err == nil && (r.Must != 0 || r.Goal != 0) {
			_, err = fmt.Fprintf(out, "| `%s` | %s %s | %s | %s | %s | %s | %.2f | %s |\n",
				r.Row, short(r.Ours), r.Unit, between(r), limit(r.Must), limit(r.Goal), short(r.PeerValue), r.Ratio, r.Peer)
		}
	}
	return err
}

// short prints as many decimals as a figure of that size needs.
func short(x float64) string {
	switch {
	case x >= 100:
		return strconv.FormatFloat(x, 'f', 0, 64)
	case x >= 1:
		return strconv.FormatFloat(x, 'f', 1, 64)
	}
	return strconv.FormatFloat(x, 'f', 3, 64)
}
