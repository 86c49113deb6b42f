//go:build !windows

package console

// obeys reports whether the terminal obeys what styles text.
func obeys() bool { return true }
