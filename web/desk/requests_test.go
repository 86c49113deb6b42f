package desk

import (
	"time"

	"halfturn/coach/command"
	"halfturn/coach/ids"
	"halfturn/coach/who"
)

// commanded is a command as a page sends it.
func commanded(station string, a command.Action) command.Command {
	now := time.Now()
	return command.New(ids.New(now), now, station, who.Owner(), a)
}
