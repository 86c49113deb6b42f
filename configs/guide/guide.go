// Package guide holds how each simulator is set up: steps, files, ports, what quality to
// expect and how to check. They come from simulators/guides.toml, for the command and the page; a test writes them into
// the README of the folder.
package guide

import (
	"fmt"
	"strings"
	"sync"

	"halfturn/configs"
	"halfturn/configs/strict"
	"halfturn/stream/phrase"
)

// A Guide sets up one simulator.
type Guide struct {
	Name    string   `toml:"name" json:"name"`        // as given on the command line
	Title   string   `toml:"title" json:"title"`      // as read by people
	Short   string   `toml:"short" json:"short"`      // the title of its tile
	Way     string   `toml:"way" json:"way"`          // "asked", "sends" or "bridge": how the data come here
	Say     string   `toml:"say" json:"say"`          // what is done with the address on the tile
	Line    string   `toml:"line" json:"line"`        // to copy in place of the address; HOST and 7181 stand in it
	OwnPort int      `toml:"own-port" json:"ownPort"` // that it sends to by custom; 0 is Halfturn's
	First   bool     `toml:"first" json:"first"`      // among the first that are shown
	Port    string   `toml:"port" json:"port"`        // the port, and which side sends to it
	Quality string   `toml:"quality" json:"quality"`  // what to expect
	Files   []string `toml:"files" json:"files"`      // in the folder simulators
	Steps   []string `toml:"steps" json:"steps"`      // three to eight
	Check   string   `toml:"check" json:"check"`      // the command that shows whether it works
	Notes   string   `toml:"notes" json:"notes,omitempty"`
}

var all = sync.OnceValues(func() ([]Guide, error) {
	const name = "simulators/guides.toml"
	data, err := configs.FS.ReadFile(name)
	if err != nil {
		return nil, err
	}
	var file struct {
		Guides []Guide `toml:"guide"`
	}
	if _, err := strict.Decode("configs/"+name, data, &file); err != nil {
		return nil, err
	}
	return file.Guides, nil
})

// All returns the guides in the order of the file; they are not to be changed. The error is one
// of the shipped file, which a test rules out.
func All() ([]Guide, error) { return all() }

// Text returns a guide as lines for a terminal, in a language.
func (g *Guide) Text(in *phrase.Language) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n%s\n%s\n\n", in.Text(g.Title), in.Wordf("Port: %s", in.Text(g.Port)),
		in.Wordf("What to expect: %s", in.Text(g.Quality)))
	for i, s := range g.Steps {
		fmt.Fprintf(&b, "%d. %s\n", i+1, in.Text(s))
	}
	if g.Notes != "" {
		fmt.Fprintf(&b, "\n%s\n", in.Text(g.Notes))
	}
	fmt.Fprintf(&b, "\n%s\n", in.Wordf("Check with: %s", g.Check))
	return b.String()
}
