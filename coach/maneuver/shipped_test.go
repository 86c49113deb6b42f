package maneuver

import (
	"os"
	"path/filepath"
	"testing"
)

func TestShippedCardsLoad(t *testing.T) {
	for _, pattern := range []string{"../../configs/maneuvers/*.toml", "../../configs/aircraft/*.toml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) < 3 {
			t.Fatalf("%s: %v, %v", pattern, files, err)
		}
		for _, f := range files {
			data, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			if filepath.Base(filepath.Dir(f)) == "aircraft" {
				_, err = LoadAircraft(f, data)
			} else {
				_, err = LoadCard(f, data)
			}
			if err != nil {
				t.Error(err)
			}
		}
	}
}
