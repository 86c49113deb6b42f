package take_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"halfturn/coach/archive/folder"
	"halfturn/coach/who"
)

// An imported session says who asked for it, in its folder; what the importer answers does not.
func TestWhoAskedForAnImport(t *testing.T) {
	b := newBook(t)
	c := newTape()
	c.level(0, 0, 60)
	in := importer(t, b)
	in.By = who.Who{Name: "Ada"}
	taken, err := in.Import(t.Context(), c.file(t), "tape")
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(b.Dir(), taken.Sessions[0].Session, folder.ImportFile))
	if err != nil {
		t.Fatal(err)
	}
	var kept struct {
		File string
		By   who.Who
	}
	if err := json.Unmarshal(text, &kept); err != nil || kept.By != in.By || kept.File != "tape" {
		t.Errorf("%s, %v", text, err)
	}
	answer, err := json.Marshal(taken.Sessions[0])
	var told map[string]any
	if err != nil || json.Unmarshal(answer, &told) != nil || told["by"] != nil || told["file"] != "tape" {
		t.Errorf("%s, %v", answer, err)
	}
}
