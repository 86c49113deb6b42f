package house

import (
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// root is the folder of the repository.
const root = "../../.."

// packageList says of each package what it may do; the Makefile reads it too.
const packageList = root + "/.ci/packages"

// readPackages reads the list.
func readPackages(t *testing.T) map[string]string {
	t.Helper()
	text, err := os.ReadFile(packageList)
	if err != nil {
		t.Fatal(err)
	}
	kinds, last := map[string]string{}, ""
	for line := range strings.Lines(string(text)) {
		words := strings.Fields(line)
		if len(words) == 0 || words[0] == "#" {
			continue
		}
		if len(words) != 2 || !slices.Contains([]string{"pure", "serial", "technology"}, words[0]) {
			t.Fatalf("%s: %q must be pure, serial or technology, and a package", packageList, line)
		}
		if words[1] <= last {
			t.Errorf("%s: %s must come before %s, and once", packageList, words[1], last)
		}
		kinds[words[1]], last = words[0], words[1]
	}
	return kinds
}

// A goPackage is what go list tells of a package.
type goPackage struct {
	ImportPath string
	Dir        string
	GoFiles    []string
	Imports    []string // of the code, not of its tests
}

// allPackages are those of the module.
func allPackages(t *testing.T) []goPackage {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=ImportPath,Dir,GoFiles,Imports", "./...")
	cmd.Dir = root
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var all []goPackage
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p goPackage
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
}

// A new package has to be put into the list, and one that is gone out of it.
func TestPackageListIsWhole(t *testing.T) {
	kinds := readPackages(t)
	for _, p := range allPackages(t) {
		if kinds[p.ImportPath] == "" {
			t.Errorf("%s: %s is missing; write it there as pure, serial or technology", packageList, p.ImportPath)
		}
		delete(kinds, p.ImportPath)
	}
	for p := range kinds {
		t.Errorf("%s: there is no package %s", packageList, p)
	}
}

// layers are the folders in the order in which data runs. A package imports its own layer and the earlier ones.
var layers = []string{
	"halfturn/stream/pack",
	"halfturn/stream/phrase",
	"halfturn/configs",
	"halfturn/stream",
	"halfturn/coach",
	"halfturn/configs/settings", // makes the options of stream and coach
	"halfturn/web",
	"halfturn/cmd",
}

// layerOf is the place of a package in layers, by its longest prefix there.
func layerOf(p string) (layer int) {
	layer, longest := -1, 0
	for i, prefix := range layers {
		if (p == prefix || strings.HasPrefix(p, prefix+"/")) && len(prefix) > longest {
			layer, longest = i, len(prefix)
		}
	}
	return layer
}

// takesDatagrams are the pure packages of the coach that know what a station's datagrams go through.
var takesDatagrams = map[string]bool{
	"halfturn/coach/session":  true,
	"halfturn/coach/playback": true,
	"halfturn/coach/probe":    true,
}

// TestImportArrows holds the direction in which data runs: stream -> coach -> web, wired by cmd.
func TestImportArrows(t *testing.T) {
	kinds := readPackages(t)
	for _, p := range allPackages(t) {
		if layerOf(p.ImportPath) < 0 {
			t.Errorf("%s is in none of the layers %v", p.ImportPath, layers)
			continue
		}
		for _, d := range p.Imports {
			if strings.HasPrefix(d, "halfturn/") && layerOf(d) > layerOf(p.ImportPath) {
				t.Errorf("%s imports %s, of a later layer: the order is %v", p.ImportPath, d, layers)
			}
		}
		if kinds[p.ImportPath] == "pure" && layers[layerOf(p.ImportPath)] == "halfturn/coach" &&
			!takesDatagrams[p.ImportPath] {
			for _, d := range p.Imports {
				if strings.HasPrefix(d, "halfturn/stream/") && d != "halfturn/stream/phrase" {
					t.Errorf("%s imports %s: of stream the coach knows sample and phrases", p.ImportPath, d)
				}
			}
		}
	}
}

func TestLayerOf(t *testing.T) {
	for p, want := range map[string]int{
		"halfturn/configs/strict":   2,
		"halfturn/configs/settings": 5,
		"halfturn/streams":          -1,
		"halfturn/web/desk":         6,
	} {
		if got := layerOf(p); got != want {
			t.Errorf("%s is in layer %d, want %d", p, got, want)
		}
	}
	if !slices.IsSortedFunc([]string{"halfturn/stream", "halfturn/coach", "halfturn/web", "halfturn/cmd"},
		func(a, b string) int { return layerOf(a) - layerOf(b) }) {
		t.Error("data runs another way")
	}
}
