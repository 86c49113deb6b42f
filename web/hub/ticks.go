package hub

import (
	"math"
	"time"

	"halfturn/coach/message"
)

// tickLength is the time that one tick of a sheet stands for.
const tickLength = 500 * time.Millisecond

// A frame comes at most thirty times a second, so that a tick of a good stream holds fullTick frames.
const fullTick = 15

// ticks count the frames of a station by half seconds: a gap in the stream is seen before a number is read. A row is
// measured against the best of its recent past, as senders differ in their rates.
type ticks struct {
	open  int64 // the number of the half second that is counted now
	count int
	best  float64 // frames in a good half second
	row   [message.SheetTicks]byte
	text  string // the row, as it was last asked for
}

// tickOf numbers the half seconds.
func tickOf(now time.Time) int64 { return now.UnixMilli() / tickLength.Milliseconds() }

// add counts a frame.
func (t *ticks) add(now time.Time, looked int64) {
	t.close(tickOf(now), looked, false)
	t.count++
}

// close ends the half seconds before one. Nobody looked at those before the one numbered looked. A paused simulator
// sends, although its time stands still.
func (t *ticks) close(now, looked int64, paused bool) {
	if now-t.open > message.SheetTicks || now < t.open { // long ago, or the clock was set back
		t.open, t.count = now-message.SheetTicks, 0
	}
	for ; t.open < now; t.open++ {
		copy(t.row[:], t.row[1:])
		t.row[len(t.row)-1] = t.level(t.open < looked, paused)
		t.count, t.text = 0, ""
	}
}

// level is how full the half second that ends is.
func (t *ticks) level(unseen, paused bool) byte {
	switch {
	case unseen:
		return message.TickUnknown
	case paused:
		return '9'
	}
	t.best = math.Min(fullTick, math.Max(float64(t.count), 0.97*t.best))
	if float64(t.count) >= 0.8*t.best-0.5 && t.count > 0 { // arrivals are a little uneven
		return '9'
	}
	return '0' + byte(math.Min(8, 9*float64(t.count)/math.Max(t.best, 1)))
}

// written returns the row of the half seconds that are over.
func (t *ticks) written(now, looked int64, paused bool) string {
	t.close(now, looked, paused)
	if t.text == "" {
		t.text = string(t.row[:])
	}
	return t.text
}
