package main

import (
	"os/exec"
	"strings"
	"testing"

	"halfturn/cmd/halfturn/cmdtest"
)

// A start without arguments, as a double click makes it, serves, and says in three steps what to do. A second one finds
// the first, and ends. The log's settings are for those who ask.
func TestStartWithoutArguments(t *testing.T) {
	data := t.TempDir()
	alone := func(http string) func(*exec.Cmd) {
		return func(c *exec.Cmd) {
			c.Env = append(c.Env, "PATH=", "HALFTURN_HTTP="+http, "HALFTURN_UDP=127.0.0.1:0", "HALFTURN_DATA="+data)
		}
	}
	p := begin(t, alone("127.0.0.1:0"))
	p.listens(t)
	p.says(t, "\n"+p.pages+"\n")
	p.says(t, "\n3. ")
	if said := p.words(); strings.Contains(said, "effective configuration") {
		t.Errorf("it begins with its settings:\n%s", said)
	}
	if page := cmdtest.Get(t, p.pages); !strings.Contains(page, "Simulator practice only") {
		t.Errorf("the page is %.200s", page)
	}
	second := begin(t, alone(strings.Trim(strings.TrimPrefix(p.pages, "http://"), "/")))
	if status := second.endsWithin(t, cmdtest.Patience); status != exitDone {
		t.Errorf("a second one ends with %d:\n%s", status, second.words())
	}
	second.says(t, "runs already")
	p.stop(t)
}
