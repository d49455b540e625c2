package pack

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"
)

// The model is the same in however many steps it has read the corpus.
func TestPrimingInSteps(t *testing.T) {
	atOnce := ready()
	primed.model, primed.lines, primed.next = nil, nil, 0
	calls := 1
	for !Prime(7) {
		calls++
	}
	require.Equal(t, (len(readCorpus())+6)/7, calls)
	require.NotSame(t, atOnce, primed.model)
	require.True(t, reflect.DeepEqual(atOnce, primed.model))
	require.True(t, Prime(1))
	require.Same(t, primed.model, ready())
}
