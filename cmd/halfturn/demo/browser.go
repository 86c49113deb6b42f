package demo

import (
	"context"
	"os/exec"
	"runtime"
)

// OpenBrowser shows a page if this machine has a way to.
func OpenBrowser(ctx context.Context, url string) {
	name, args := browser(runtime.GOOS, url)
	cmd := exec.CommandContext(ctx, name, args...)
	if cmd.Start() == nil {
		go func() { _ = cmd.Wait() }() // ends with the command, at the latest with ctx
	}
}

// browser is the command that shows a page on a system.
func browser(system, url string) (name string, args []string) {
	switch system {
	case "darwin":
		return "open", []string{url}
	case "windows":
		return "rundll32", []string{"url.dll,FileProtocolHandler", url}
	}
	return "xdg-open", []string{url}
}
