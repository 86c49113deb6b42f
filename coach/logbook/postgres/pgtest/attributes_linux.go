package pgtest

import "syscall"

// attributes make a child run as somebody, and end with the tests.
func attributes(as *syscall.Credential) *syscall.SysProcAttr {
	return &syscall.SysProcAttr{Credential: as, Pdeathsig: syscall.SIGQUIT}
}
