// Package browser shows a page of the server in the user's browser.
package browser

import (
	"context"
	"os/exec"
	"runtime"
)

// Open shows a page, where this machine has a way to.
func Open(ctx context.Context, url string) {
	name, args := command(runtime.GOOS, url)
	cmd := exec.CommandContext(ctx, name, args...)
	if cmd.Start() == nil {
		go func() { _ = cmd.Wait() }() // ends with the command, at the latest with ctx
	}
}

// command is what shows a page on a system.
func command(system, url string) (name string, args []string) {
	switch system {
	case "darwin":
		return "open", []string{url}
	case "windows":
		return "rundll32", []string{"url.dll,FileProtocolHandler", url}
	}
	return "xdg-open", []string{url}
}
