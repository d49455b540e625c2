package page_test

import (
	"maps"
	"math/rand"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/app"
)

// Same request, same bytes out: nothing in the core looks anything up, and no
// order of a map shows. The request itself is not changed.
func TestTheSameRequestGivesTheSameBytes(t *testing.T) {
	r := rand.New(rand.NewSource(9))
	var pool []app.Request
	for _, x := range []texts{harmless, same("")} {
		all := requests(t, x)
		for _, name := range slices.Sorted(maps.Keys(all)) {
			pool = append(pool, all[name])
		}
	}
	for range 400 {
		request := mixed(t, r, pool)
		before := clone(request)
		first := app.WriteResponse(app.Handle(clone(request)))
		second := app.WriteResponse(app.Handle(request))
		require.Equal(t, before, request)
		require.True(t, string(first) == string(second), "two answers to %+v", request)
	}
}

// mixed takes the parts of a request from several.
func mixed(t *testing.T, r *rand.Rand, pool []app.Request) app.Request {
	pick := func() app.Request { return pool[r.Intn(len(pool))] }
	request := clone(pick())
	request.Path, request.Fields = pick().Path, slices.Clone(pick().Fields)
	if r.Intn(2) == 0 {
		paths := []string{"/", "/facts", "/tick", "/arrival", "/way", "/read", "/join", "/settle", "/me", "/send", "/start", "/forget", "/put-back", "/clock"}
		request.Path = paths[r.Intn(len(paths))]
	}
	request.Now, request.Zone, request.Clock12 = pick().Now, pick().Zone, r.Intn(2) == 0
	for range r.Intn(3) {
		maps.Copy(request.Kept, pick().Kept)
	}
	for range r.Intn(4) {
		p := harmless.plan(t)
		p.Number, p.Arrival = uint32(r.Intn(4)), p.Arrival+60
		request.Kept[[]string{"plan.", "read.", "before.", "other."}[r.Intn(4)]+string("0123"[p.Number])] = fragment(p)
	}
	return request
}

func clone(r app.Request) app.Request {
	r.Random, r.Fields, r.Kept = slices.Clone(r.Random), slices.Clone(r.Fields), maps.Clone(r.Kept)
	return r
}

// What is stored under another plan's name is no reason for a page with two of one
// id, or for one that differs from time to time.
func TestAPlanKeptUnderAnotherNameIsShownOnce(t *testing.T) {
	p, q := harmless.plan(t), harmless.plan(t)
	q.Patient = "Ana"
	r := at(p, -9)
	r.Fragment = ""
	for _, key := range []string{"abc", "0abc", "ABC", "abd", "x"} {
		r.Kept["plan."+key] = fragment(q)
	}
	r.Kept["plan.abc"] = fragment(p)
	first := app.Handle(clone(r)).HTML
	for range 30 {
		require.True(t, first == app.Handle(clone(r)).HTML)
	}
	ids := 0
	for _, n := range elements(parsed(t, "front", first)) {
		if id, _ := attribute(n, "id"); id == "kept-abc" {
			ids++
		}
	}
	require.Equal(t, 1, ids)
}
