package plan

import (
	"fmt"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"
)

// A schedule that was laid out is shown again for a plan that says the same (core/app, layOut). So
// whatever a plan can hold has to be compared: a field that is left out would show another plan's day.
func TestNoFieldOfAPlanIsLeftOutOfTheComparison(t *testing.T) {
	full := func() Plan {
		var p Plan
		fillUp(reflect.ValueOf(&p).Elem())
		return p
	}
	same, other := full(), full()
	require.True(t, same.SameFacts(other) && same.SameTicks(&other))
	changed := 0
	for n := 0; ; n++ {
		q := full()
		left := n
		where, found := changeLeaf(reflect.ValueOf(&q).Elem(), "Plan", &left)
		if !found {
			break
		}
		changed++
		require.False(t, same.SameFacts(q) && same.SameTicks(&q), where)
	}
	require.Greater(t, changed, 80)
}

// fillUp gives every slice two elements, so that there is something in each to change.
func fillUp(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				fillUp(v.Field(i))
			}
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fallthrough
	case reflect.Array:
		for i := range v.Len() {
			fillUp(v.Index(i))
		}
	}
}

// changeLeaf changes the number or text that left counts down to, and says where it stands.
func changeLeaf(v reflect.Value, name string, left *int) (where string, found bool) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if !v.Field(i).CanSet() {
				continue
			}
			if where, found = changeLeaf(v.Field(i), name+"."+v.Type().Field(i).Name, left); found {
				return where, true
			}
		}
		return "", false
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if where, found = changeLeaf(v.Index(i), fmt.Sprintf("%s[%d]", name, i), left); found {
				return where, true
			}
		}
		return "", false
	}
	if *left > 0 {
		*left--
		return "", false
	}
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.String:
		v.SetString(v.String() + "x")
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		v.SetInt(v.Int() + 1)
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(v.Uint() + 1)
	default:
		panic("a plan holds a " + v.Kind().String() + ", which this test cannot change")
	}
	return name, true
}
