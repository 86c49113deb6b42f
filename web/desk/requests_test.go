package desk

import (
	"time"

	"halfturn/coach/command"
	"halfturn/coach/who"
)

// commanded is a command as a page sends it.
func commanded(station string, a command.Action) command.Command {
	return command.New(time.Now(), station, who.Owner(), a)
}
