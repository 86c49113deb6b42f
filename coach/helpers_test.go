package coach_test

import (
	"fmt"
	"strings"
)

func cueID(turn float64) string { return fmt.Sprintf("cue-%g", turn) }

func fields(s string) []string { return strings.Fields(s) }
