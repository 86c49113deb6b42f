package guide_test

import (
	"flag"
	"io/fs"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"

	"halfturn/configs"
	"halfturn/configs/guide"
	"halfturn/stream"
)

var update = flag.Bool("update", false, "write the golden files")

func all(t *testing.T) []guide.Guide {
	t.Helper()
	list, err := guide.All()
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// Every guide can be followed: three to eight steps, a check, files that are there.
func TestGuides(t *testing.T) {
	list := all(t)
	if len(list) < 5 {
		t.Fatalf("%d guides", len(list))
	}
	names := map[string]bool{}
	used := map[string]bool{}
	for _, g := range list {
		if g.Name == "" || names[g.Name] || g.Title == "" || g.Port == "" || g.Quality == "" ||
			!strings.HasPrefix(g.Check, "halfturn probe") {
			t.Errorf("guide %q is not complete, or its name is taken", g.Name)
		}
		if g.Short == "" || g.Say == "" || !slices.Contains([]string{"asked", "sends", "bridge"}, g.Way) {
			t.Errorf("guide %q: its tile is not complete", g.Name)
		}
		names[g.Name] = true
		if n := len(g.Steps); n < 3 || n > 8 {
			t.Errorf("%s: %d steps, wanted 3 to 8", g.Name, n)
		}
		text := g.Text(nil)
		for _, f := range g.Files {
			used[f] = true
			if _, err := configs.FS.ReadFile("simulators/" + f); err != nil {
				t.Errorf("%s: %v", g.Name, err)
			}
			if !strings.Contains(text, "simulators copy") {
				t.Errorf("%s has files and does not say how to get them", g.Name)
			}
		}
	}
	err := fs.WalkDir(configs.FS, "simulators", func(name string, d fs.DirEntry, err error) error {
		short := strings.TrimPrefix(name, "simulators/")
		if err == nil && !d.IsDir() && !used[short] && !strings.Contains(short, ".test.") && short != "README.md" &&
			short != "guides.toml" {
			t.Errorf("%s belongs to no guide", name)
		}
		return err
	})
	if err != nil {
		t.Error(err)
	}
}

// The bridge sends what Halfturn reads: each of its channels is one of the table.
func TestBridgeChannels(t *testing.T) {
	text, err := configs.FS.ReadFile("simulators/bridge/bridge.mjs")
	if err != nil {
		t.Fatal(err)
	}
	found := regexp.MustCompile(`channel: '([^']*)'`).FindAllStringSubmatch(string(text), -1)
	if len(found) < 20 {
		t.Fatalf("%d channels found in the mapping", len(found))
	}
	for _, f := range found {
		if _, ok := stream.ChannelNamed(f[1]); !ok {
			t.Errorf("the bridge sends %q, which is no channel", f[1])
		}
	}
}

// The bridge's own tests, which need Node and nothing else.
func TestBridge(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("node is not installed")
	}
	cmd := exec.CommandContext(t.Context(), node, "--test")
	cmd.Dir = "../simulators/bridge"
	if out, err := cmd.CombinedOutput(); err != nil ||
		!strings.Contains(string(out), "# pass") && !strings.Contains(string(out), "pass ") {
		t.Errorf("%v\n%s", err, out)
	}
}
