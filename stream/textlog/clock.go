package textlog

import (
	"math"
	"time"
)

// A clock turns the times of rows into times of receipt.
type clock struct {
	begins  time.Time // the receipt of the first row, where its time does not say
	began   bool
	dated   bool      // times count from 1970
	from    float64   // a time of a row, s
	at      time.Time // its receipt
	last    float64   // time of the row before
	step    float64   // between the last two rows that differ, s
	current time.Time
	jumped  bool // the last row does not follow the one before
}

// Times since 1970 that a log can have: from 2000 to 2100, s.
const (
	earliest = 946_684_800
	latest   = 4_102_444_800
)

// isSince1970 reports whether a time counts from 1970.
func isSince1970(t float64) bool { return t >= earliest && t < latest }

const (
	longestPause = 86400.0 // s between two rows of one flight; more is a clock that was set
	longStep     = 2.0     // s without a row, after which names are said again
	leastStep    = 0.01    // s, and the most, for the row after a clock that was set
	mostStep     = 1.0
)

// receive returns when a row is received that has a time in seconds.
func (c *clock) receive(t float64) time.Time {
	if !c.began {
		c.began, c.dated = true, isSince1970(t)
		if c.at = c.begins; c.dated {
			c.at = moment(t)
		}
		c.from, c.last, c.current = t, t, c.at
		return c.at
	}
	step := t - c.last
	c.last, c.jumped = t, step < 0 || step > longStep
	switch {
	case step < 0 || step > longestPause || math.IsNaN(step):
		c.from = t
		c.at = c.current.Add(seconds(min(max(c.step, leastStep), mostStep)))
	case step > 0:
		c.step = step
	}
	c.current = c.at.Add(seconds(t - c.from))
	return c.current
}

// seconds is a span to a microsecond, as captures have it.
func seconds(s float64) time.Duration {
	return time.Duration(math.Round(s*1e6)) * time.Microsecond
}

// moment is a time since 1970 to a microsecond.
func moment(t float64) time.Time {
	whole, part := math.Modf(t)
	return time.Unix(int64(whole), 0).UTC().Add(seconds(part))
}
