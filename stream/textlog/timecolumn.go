package textlog

import (
	"slices"
	"strconv"
	"strings"
	"time"
)

// timeNames are what columns of time are called, without units, capitals and signs; the likeliest first. "missn,time"
// is the clock that the same program's datagrams are read by.
var timeNames = []string{
	"time", "missntime", "totltime", "simtime", "simulationtime", "simtimesec", "elapsedtime", "elapsed", "timestamp",
	"t", "ts", "datetime", "timeutc", "utctime", "utc", "gpstime", "localtime", "lcltime", "clock", "seconds", "sec",
}

// plainName is a name without its unit, capitals and signs: "Sim_Time (ms)" is "simtime".
func plainName(name string) string {
	if at := strings.IndexAny(name, "([{"); at > 0 {
		name = name[:at]
	}
	var b strings.Builder
	for _, r := range strings.ToLower(lastPart(name)) {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// lastPart is a name without the path before it.
func lastPart(name string) string {
	return name[strings.LastIndexByte(name, '/')+1:]
}

// A timeColumn is a column found by its name to be a time.
type timeColumn struct {
	at     int     // −1 when there is none
	scale  float64 // s in one, of numbers
	words  bool    // cells hold dates or times of day, not numbers
	counts bool    // cells count milliseconds or less since 1970, which no channel holds
	day    float64 // s added to times of day, for days that have passed
	last   float64
}

// findTime finds the column of time by its name.
func findTime(names, units []string) timeColumn {
	c := timeColumn{at: -1, scale: 1}
	best := len(timeNames)
	for i, name := range names {
		plain := plainName(name)
		rank := slices.Index(timeNames, plain)
		unit := ""
		for _, u := range []string{"ms", "us", "s", "sec"} {
			if base, ok := strings.CutSuffix(plain, u); ok && rank < 0 && base != "" {
				if rank = slices.Index(timeNames, base); rank >= 0 {
					unit = u
				}
			}
		}
		if rank < 0 || rank >= best {
			continue
		}
		best, c.at = rank, i
		c.scale = secondsIn(name, unit, at(units, i))
	}
	return c
}

func at(list []string, i int) string {
	if i < len(list) {
		return list[i]
	}
	return ""
}

// secondsIn is one of the unit that a name, its ending or a line of units gives.
func secondsIn(name, ending, unit string) float64 {
	for _, u := range []string{ending, inBrackets(name), unit} {
		switch known, _ := unitNamed(u); {
		case strings.EqualFold(u, "us"), u == "µs":
			return 1e-6
		case known == "ms":
			return 1e-3
		case known == "min":
			return 60
		}
	}
	return 1
}

// inBrackets is the unit in brackets at the end of a name.
func inBrackets(name string) string {
	from := strings.LastIndexAny(name, "([{")
	if from < 0 {
		return ""
	}
	return strings.TrimRight(name[from+1:], ")]} ")
}

// seconds reads a cell of the column; false when it is no time.
func (c *timeColumn) seconds(cell []byte) (float64, bool) {
	if !c.words {
		v, err := strconv.ParseFloat(string(cell), 64)
		if err != nil || v-v != 0 {
			return 0, false
		}
		return sinceEpoch(v * c.scale), true
	}
	t, isClock, ok := readTime(string(cell))
	if !ok {
		return 0, false
	}
	const day = 86400
	if isClock {
		if t += c.day; t < c.last-day/2 { // past midnight
			c.day += day
			t += day
		}
		c.last = t
	}
	return t, true
}

// sinceEpoch turns a time since 1970 in milliseconds, microseconds or nanoseconds into seconds: no flight lasts for the
// thousands of years that it would be in seconds.
func sinceEpoch(v float64) float64 {
	switch {
	case v > 1e17:
		return v / 1e9
	case v > 1e14:
		return v / 1e6
	case v > 1e11:
		return v / 1e3
	}
	return v
}

// stamps are the ways a date and time are written. Fractions of a second may follow, by ISO 8601 and RFC 3339.
var stamps = []string{
	"2006-01-02T15:04:05Z07:00", "2006-01-02T15:04:05", "2006-01-02 15:04:05Z07:00", "2006-01-02 15:04:05",
	"2006-01-02T15:04:05Z0700", "2006-01-02 15:04:05 MST", "2006/01/02 15:04:05", "02.01.2006 15:04:05",
}

// readTime reads a date and time in seconds since 1970, or a time of day in seconds since midnight.
func readTime(cell string) (s float64, isClock, ok bool) {
	cell = strings.Replace(strings.TrimSpace(cell), ",", ".", 1)
	for _, form := range stamps {
		if t, err := time.Parse(form, cell); err == nil {
			return float64(t.Unix()) + float64(t.Nanosecond())*1e-9, false, true
		}
	}
	parts := strings.Split(cell, ":")
	if len(parts) != 3 {
		return 0, false, false
	}
	for i, p := range parts {
		v, err := strconv.ParseFloat(p, 64)
		if err != nil || v < 0 || v >= 61 {
			return 0, false, false
		}
		s += v * []float64{3600, 60, 1}[i]
	}
	return s, true, true
}
