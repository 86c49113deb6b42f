//go:build !unix

package speech

import "os/exec"

func ownGroup(*exec.Cmd) {}

// killGroup ends the program; what it started is left to it. That it may be gone already is no error.
func killGroup(cmd *exec.Cmd) { _ = cmd.Process.Kill() }
