package wall

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestEveryMinuteOfTheDayComesBack(t *testing.T) {
	for n := 0; n <= 24*60; n++ {
		text := fmt.Sprintf("%02d:%02d", n/60, n%60)
		c, err := ParseClock(text)
		require.NoError(t, err, text)
		require.Equal(t, Clock(n), c)
		require.Equal(t, text, c.String())
		require.True(t, c.Known())
		hour, minute := c.HourMinute()
		require.Equal(t, []int{n / 60, n % 60}, []int{hour, minute})
	}
}

// 24:00 is the midnight that ends a day (ISO 8601-1, 4.3.8); no minute of 24 follows it.
func TestTheMidnightThatEndsTheDay(t *testing.T) {
	c, err := ParseClock("24:00")
	require.NoError(t, err)
	require.EqualValues(t, 1440, c)
	_, err = ParseClock("24:01")
	require.ErrorIs(t, err, ErrClock)
}

func TestOtherSpellingsOfATime(t *testing.T) {
	for text, want := range map[string]Clock{"5:30": 330, "0:00": 0, "05:30:00": 330, "05:30:59": 330, "23:59:59": 1439} {
		c, err := ParseClock(text)
		require.NoError(t, err, text)
		require.Equal(t, want, c, text)
	}
}

func TestTextsThatAreNotATime(t *testing.T) {
	for _, s := range []string{
		"", ":", "5", "5:3", "05:3", "5:300", "05:60", "25:00", "24:01", "99:99", "-1:00", "-5:30", "+5:30", "5.30", "0530",
		"05:30:", "05:30:0", "05:30:60", "05:30:xx", "05:30:pm", "24:00:01", "05:30:00.0", " 5:30", "05h30", "０５:30",
	} {
		c, err := ParseClock(s)
		require.ErrorIs(t, err, ErrClock, "%q", s)
		require.Equal(t, NoClock, c, "%q", s)
	}
}

func TestATimeNobodyHasTold(t *testing.T) {
	require.False(t, NoClock.Known())
	require.Empty(t, NoClock.String())
	require.False(t, Clock(1441).Known())
	require.Empty(t, Clock(1441).String())
}

func TestClockWithAmAndPm(t *testing.T) {
	for typed, want := range map[string]Clock{
		"11 pm": 23 * 60, "11:30 PM": 23*60 + 30, "5:30 a.m.": 5*60 + 30, "12 am": 0, "12:15 AM": 15, "12 pm": 12 * 60,
		"12:59 pm": 12*60 + 59, "1pm": 13 * 60, "10:05AM": 10*60 + 5,
	} {
		c, err := ParseClock(typed)
		require.NoError(t, err, typed)
		require.Equal(t, want, c, typed)
	}
	for _, typed := range []string{"13 pm", "0:30 am", "pm", "24:00 pm", "5:60 am", "11:30 xm", "05:30:pm"} {
		_, err := ParseClock(typed)
		require.ErrorIs(t, err, ErrClock, typed)
	}
}
