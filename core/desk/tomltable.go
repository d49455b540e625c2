package desk

import "strings"

// reach goes down the keys from a table, and makes what is not there. dotted: by the keys of
// a line, which add only to tables that are made so; else by a head.
func (r *tomlReader) reach(t *tomlDoc, keys []string, dotted bool) (*tomlDoc, bool) {
	for _, key := range keys {
		e := t.entry(key)
		switch {
		case e == nil:
			next := &tomlDoc{Line: r.line, said: dotted}
			t.add(tomlEntry{key, r.line, tomlValue{Kind: tomlTable, Table: next}})
			t = next
		case e.Value.Kind == tomlTable && !(dotted && e.Value.Table.closed):
			t = e.Value.Table
			t.said = t.said || dotted
		case e.Value.Kind == tomlTables && !dotted:
			t = e.Value.Tables[len(e.Value.Tables)-1]
		default:
			return nil, false
		}
	}
	return t, true
}

// head reads [table] or [[table]].
func (r *tomlReader) head() bool {
	line, open, end := r.line, 1, "]"
	if r.follows("[[") {
		open, end = 2, "]]"
	}
	r.at += open
	r.close()
	r.table = nil
	r.spaces()
	keys, ok := r.keys()
	if !ok {
		return false
	}
	r.spaces()
	name := strings.Join(keys, ".")
	if !r.follows(end) {
		return r.fault(line, name, tomlHead, r.rest())
	}
	r.at += len(end)
	up, ok := r.reach(r.root, keys[:len(keys)-1], false)
	if ok {
		r.table = up.begin(keys[len(keys)-1], line, open == 2)
	}
	return r.table != nil || r.fault(line, name, tomlTwice, "")
}

// close ends the table that the last head began.
func (r *tomlReader) close() {
	if r.table != nil {
		r.table.seal()
	}
}

// seal closes a table and those that its keys with points made.
func (t *tomlDoc) seal() {
	t.closed = true
	for i := range t.Entries {
		if in := t.Entries[i].Value.Table; in != nil && in.said && !in.closed {
			in.seal()
		}
	}
}

// begin makes the table that a head names; nil where that has been said already.
func (t *tomlDoc) begin(key string, line int, several bool) *tomlDoc {
	e, next := t.entry(key), &tomlDoc{Line: line, said: true}
	switch {
	case e == nil && several:
		t.add(tomlEntry{key, line, tomlValue{Kind: tomlTables, Tables: []*tomlDoc{next}}})
	case e == nil:
		t.add(tomlEntry{key, line, tomlValue{Kind: tomlTable, Table: next}})
	case several && e.Value.Kind == tomlTables:
		e.Value.Tables = append(e.Value.Tables, next)
	case !several && e.Value.Kind == tomlTable && !e.Value.Table.said:
		next = e.Value.Table
		next.said = true
	default:
		return nil
	}
	return next
}
