// Package rules reads the tables in web/testdata/rules for the tests: rules that the server and the pages share, which
// are written in two languages and held to one table each.
package rules

import (
	"encoding/json"
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

// Read decodes a table into v. A member of the table that v lacks is an error, so that nothing in it goes unchecked.
func Read(t *testing.T, name string, v any) {
	t.Helper()
	_, here, _, _ := runtime.Caller(0)
	f, err := os.Open(filepath.Join(filepath.Dir(here), "../../testdata/rules", name+".json"))
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
