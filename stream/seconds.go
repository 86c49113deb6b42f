package stream

import "time"

// Seconds is a moment in seconds since the Unix epoch, as times of receipt are counted: to a
// quarter of a microsecond. Live and from a recording it is the same number for the same moment.
func Seconds(t time.Time) float64 {
	return float64(t.Unix()) + float64(t.Nanosecond())*1e-9
}
