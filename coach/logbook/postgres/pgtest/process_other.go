//go:build !linux

package pgtest

import "syscall"

// processOf has nothing to add where the tests are not run by root.
func processOf(string) (*syscall.SysProcAttr, error) { return &syscall.SysProcAttr{}, nil }
