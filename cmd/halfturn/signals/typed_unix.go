//go:build unix

package signals

import (
	"os/signal"
	"syscall"
)

// ReadInBackground lets a program that reads its terminal go on in the background: there a read fails, where it would
// stop the program otherwise.
func ReadInBackground() { signal.Ignore(syscall.SIGTTIN) }
