package app

import (
	"maps"
	"testing"

	"github.com/stretchr/testify/require"
)

// A phone was copied, and both changed the plan equally often since: each would take what the
// other wrote for removed. What has to hold is our own rule, with no published source.
func TestACopiedPhoneWithEquallyManyChanges(t *testing.T) {
	p := withTherapy(t).opened().is("Luis")
	copied := newPhone(t)
	copied.kept, copied.fragment, copied.path = maps.Clone(p.kept), p.fragment, p.path
	p.send("/arrival", "arrival", "05:15")
	copied.send("/who/stay-with", "who", "Luis")
	fromPhone, fromCopy := p.fragment, copied.fragment
	p.open(fromCopy)
	copied.open(fromPhone)
	for _, q := range []*phone{p, copied} {
		require.Equal(t, "05:15", q.plan().Arrival.String())
		plan := q.plan()
		require.Equal(t, "Luis", plan.Helper(plan.Cover[4]))
	}
	require.NotEqual(t, p.key(keyHand), copied.key(keyHand), "each has a number of its own now")
	exchange(p, copied)
	require.Equal(t, p.plan(), copied.plan())
}
