package hub

import (
	"strings"
	"testing"
	"time"
)

// TestTicks feeds frames at the times of a stream and reads the row at its end. Seconds are of the stream's beginning.
func TestTicks(t *testing.T) {
	even := func(rate float64) func(i int) (time.Duration, bool) {
		return func(i int) (time.Duration, bool) { return time.Duration(float64(i) / rate * 1e9), true }
	}
	for name, c := range map[string]struct {
		came func(i int) (time.Duration, bool) // when the frame comes, and whether
		want string
	}{
		"all of 30 a second":       {even(30), strings.Repeat("9", 20)},
		"all of 20 a second":       {even(20), strings.Repeat("9", 20)},
		"all of a slow 4 a second": {even(4), strings.Repeat("9", 20)},
		"uneven, but all": {func(i int) (time.Duration, bool) {
			return time.Duration(i)*time.Second/30 + time.Duration(i%3)*20*time.Millisecond, true
		}, strings.Repeat("9", 20)},
		"a second lost": {func(i int) (time.Duration, bool) {
			return time.Duration(i) * time.Second / 30, i < 120 || i >= 150
		}, strings.Repeat("9", 8) + "00" + strings.Repeat("9", 10)},
		"half of it lost for two seconds": {func(i int) (time.Duration, bool) {
			return time.Duration(i) * time.Second / 30, i < 120 || i >= 180 || i%2 == 0
		}, strings.Repeat("9", 8) + "4444" + strings.Repeat("9", 8)},
		"nothing after five seconds": {func(i int) (time.Duration, bool) {
			return time.Duration(i) * time.Second / 30, i < 150
		}, strings.Repeat("9", 10) + strings.Repeat("0", 10)},
	} {
		t.Run(name, func(t *testing.T) {
			var row ticks
			began := time.UnixMilli(1_000_000 * tickLength.Milliseconds())
			for i := range 2000 {
				at, came := c.came(i)
				if at < 10*time.Second && came {
					row.add(began.Add(at), 0)
				}
			}
			got := row.written(tickOf(began.Add(10*time.Second)), 0, false)
			if got = got[len(got)-20:]; !near(got, c.want) {
				t.Errorf("the ticks are\n%s; must be\n%s", got, c.want)
			}
		})
	}
}

// near allows a share to differ by one tenth, as one frame may fall to either side of a half second.
func near(got, want string) bool {
	for i := range want {
		if d := int(got[i]) - int(want[i]); d < -1 || d > 1 || (want[i] == '9') != (got[i] == '9') {
			return false
		}
	}
	return len(got) == len(want)
}

// TestTicksNobodySaw: what was before somebody looked is not known, and neither is what is long ago.
func TestTicksNobodySaw(t *testing.T) {
	var row ticks
	at := func(tick int64) time.Time { return time.UnixMilli(tick * tickLength.Milliseconds()) }
	for tick := int64(100); tick < 110; tick++ {
		row.add(at(tick), 106)
	}
	if got := row.written(110, 106, false); !strings.HasSuffix(got, "------9999") {
		t.Errorf("looked at since the half second 106, it is %s", got)
	}
	if got := row.written(100_000, 99_990, false); !strings.HasSuffix(got, "--0000000000") || len(got) != len(row.row) {
		t.Errorf("after hours without a frame it is %s", got)
	}
	row.add(at(50), 0) // the clock was set back
	if got := row.written(52, 0, false); len(got) != len(row.row) {
		t.Errorf("after the clock was set back it is %s", got)
	}
}
