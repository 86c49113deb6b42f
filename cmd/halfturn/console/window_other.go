//go:build !windows

package console

// HoldWindow does nothing: where a terminal was there before the program, it stays.
func HoldWindow() {}
