// Package guide holds how each simulator is set up: steps, files, ports, what quality to
// expect and how to check. They come from simulators/guides.toml, for the command, the page and the
// README alike.
package guide

import (
	"fmt"
	"strings"
	"sync"
	"unicode/utf8"

	"halfturn/configs"
	"halfturn/configs/strict"
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

// Text returns a guide as lines for a terminal.
func (g *Guide) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\nPort: %s\nWhat to expect: %s\n\n", g.Title, g.Port, g.Quality)
	for i, s := range g.Steps {
		fmt.Fprintf(&b, "%d. %s\n", i+1, s)
	}
	if g.Notes != "" {
		fmt.Fprintf(&b, "\n%s\n", g.Notes)
	}
	fmt.Fprintf(&b, "\nCheck with: %s\n", g.Check)
	return b.String()
}

const head = `# Set-up of simulators

<!-- Written from guides.toml by: go test ./configs/guide -update -->

For simulator practice only: never in an aircraft, not for navigation, no credit toward a
license. The aircraft's handbook, local rules and a licensed instructor come first.

Halfturn listens on UDP 127.0.0.1:7181 unless told otherwise. HOST stands for the machine it
runs on: 127.0.0.1 when it is the simulator's own. For streams from other machines start it with
` + "`--udp :7181`" + `; it then takes datagrams from that machine and the private networks it is on, and
from no others.

Every guide ends with the command that shows whether it works: who sends, in which format, how
often, what the maneuver card lacks and what to change. The page ` + "`/setup`" + ` of a running Halfturn
shows the same. ` + "`halfturn simulators copy DIR`" + ` writes the files out.
`

// Markdown returns all guides as a page.
func Markdown(list []Guide) string {
	var b strings.Builder
	b.WriteString(head)
	for i := range list {
		g := &list[i]
		fmt.Fprintf(&b, "\n## %s\n\n", g.Title)
		paragraph(&b, "- ", "Port: "+g.Port+".")
		paragraph(&b, "- ", "What to expect: "+g.Quality)
		if len(g.Files) > 0 {
			paragraph(&b, "- ", "Files: `"+strings.Join(g.Files, "`, `")+"`")
		}
		b.WriteByte('\n')
		for i, s := range g.Steps {
			paragraph(&b, fmt.Sprintf("%d. ", i+1), s)
		}
		if g.Notes != "" {
			b.WriteByte('\n')
			paragraph(&b, "", g.Notes)
		}
		fmt.Fprintf(&b, "\nCheck with `%s`\n", g.Check)
	}
	return b.String()
}

// paragraph writes a paragraph or an item of a list in lines of at most 118 letters.
func paragraph(b *strings.Builder, mark, text string) {
	b.WriteString(mark)
	n := len(mark)
	for i, word := range strings.Fields(text) {
		letters := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case n+1+letters > 118:
			b.WriteString("\n" + strings.Repeat(" ", len(mark)))
			n = len(mark)
		default:
			b.WriteByte(' ')
			n++
		}
		b.WriteString(word)
		n += letters
	}
	b.WriteByte('\n')
}
