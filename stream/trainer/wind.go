package trainer

import (
	"strconv"
	"strings"

	"halfturn/stream/trainer/option"
)

// ParseWind reads a wind such as 270/15: where it comes from in degrees, and its speed in knots. The error is an
// [option.Error]; the ranges are checked by [New].
func ParseWind(s string) (from, speed float64, err error) {
	direction, knots, ok := strings.Cut(s, "/")
	from, errFrom := strconv.ParseFloat(direction, 64)
	speed, errSpeed := strconv.ParseFloat(knots, 64)
	if !ok || errFrom != nil || errSpeed != nil {
		return 0, 0, option.Wrong("is %q; must be FROM/SPEED in degrees and knots, such as 270/15", "wind", s)
	}
	return from, speed, nil
}
