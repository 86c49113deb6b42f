// Package rules reads the tables in web/testdata/rules for the tests: rules that the server and the pages share, which
// are written in two languages and held to one table each.
package rules

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
)

// Read decodes a table into v, for a test of a package below web. A member of the table that v lacks is an error, so
// that nothing in it goes unchecked.
func Read(t *testing.T, name string, v any) {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "testdata", "rules", name+".json"))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	d := json.NewDecoder(f)
	d.DisallowUnknownFields()
	if err := d.Decode(v); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}
