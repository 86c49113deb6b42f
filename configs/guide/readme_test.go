package guide_test

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"halfturn/configs/guide"
)

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

// markdown returns all guides as a page.
func markdown(list []guide.Guide) string {
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

// The README of the folder has all guides; go test -update writes it.
func TestReadme(t *testing.T) {
	const path = "../simulators/README.md"
	got := markdown(all(t))
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf("README.md differs (-README +guides.toml); go test -update rewrites it:\n%s", d)
	}
}
