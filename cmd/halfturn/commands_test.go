package main

import (
	"strings"
	"testing"

	"github.com/alecthomas/kong"
)

// Every command can be run, and every command and flag explains itself in a sentence: a new one cannot be forgotten.
func TestEveryCommandIsWhole(t *testing.T) {
	var c cli
	parser, err := kong.New(&c, kong.PostBuild(expanded))
	if err != nil {
		t.Fatal(err)
	}
	sentence := func(what, help string) {
		if !strings.HasSuffix(help, ".") || strings.Contains(help, "${") {
			t.Errorf("%s: the help is %q; must be a sentence", what, help)
		}
	}
	leaves := parser.Model.Leaves(false)
	for _, n := range leaves {
		name := n.FullPath()
		sentence(name, n.Help)
		if !n.Target.Addr().MethodByName("Run").IsValid() {
			t.Errorf("%s has no method Run", name)
		}
		for _, f := range n.Flags {
			if f.Name != "help" {
				sentence(name+" --"+f.Name, f.Help)
			}
		}
		for _, a := range n.Positional {
			sentence(name+" "+a.Name, a.Help)
		}
		if status, out, _ := call(t, nil, append(strings.Fields(name)[1:], "--help")...); status != exitDone ||
			!strings.Contains(out, n.Name) {
			t.Errorf("%s --help: exit status %d, %q", name, status, out)
		}
	}
	if len(leaves) < 20 {
		t.Errorf("only %d commands", len(leaves))
	}
}
