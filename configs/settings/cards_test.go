package settings

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"halfturn/configs"
)

// A card named as a file is there each time the cards are read, not only the first time: a server reads them again for
// each recording that it takes in.
func TestCardFileStays(t *testing.T) {
	shipped, err := fs.ReadFile(configs.FS, "aircraft/light-single.toml")
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "my-plane.toml")
	mine := bytes.ReplaceAll(shipped, []byte(`"light-single"`), []byte(`"my-plane"`))
	if err := os.WriteFile(file, mine, 0o600); err != nil {
		t.Fatal(err)
	}
	c := Config{Maneuver: "wing-over", Standard: "course", Aircraft: file}
	for range 2 {
		lib, err := c.Library()
		if err != nil {
			t.Fatal(err)
		}
		if _, err := lib.AircraftNamed("my-plane"); err != nil || c.Aircraft != "my-plane" {
			t.Errorf("aircraft %q: %v", c.Aircraft, err)
		}
	}
	if lib, err := (Setup{&c}).Library(Setup{&c}.Choice(), ""); err != nil {
		t.Error(err)
	} else if _, err := lib.AircraftNamed("my-plane"); err != nil {
		t.Errorf("for a recording: %v", err)
	}
}
