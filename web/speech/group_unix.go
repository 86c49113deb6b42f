//go:build unix

package speech

import (
	"os/exec"
	"syscall"
)

// ownGroup has the program lead a group of processes, with all that it starts.
func ownGroup(cmd *exec.Cmd) { cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} }

// killGroup ends the group. That it may be gone already is no error.
func killGroup(cmd *exec.Cmd) { _ = syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL) }
