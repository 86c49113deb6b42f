package depot_test

import (
	"errors"
	"strings"
	"testing"

	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/depot/directory"
)

// TestOwn: an empty depot becomes that of a cluster, and stays so; one of somebody else is refused and left as it is.
func TestOwn(t *testing.T) {
	for name, c := range map[string]struct{ object, text, words string }{
		"empty":           {"", "", ""},
		"ours":            {depot.OwnerName, `{"program": "halfturn", "layout": 1, "cluster": "c"}`, ""},
		"another cluster": {depot.OwnerName, `{"program": "halfturn", "layout": 1, "cluster": "d"}`, `of the cluster "d"`},
		"a newer version": {depot.OwnerName, `{"program": "halfturn", "layout": 2, "cluster": "c"}`, "update this node"},
		"another program": {depot.OwnerName, `{"program": "other"}`, "is not of Halfturn"},
		"not understood":  {depot.OwnerName, `hello`, "is not of Halfturn"},
		"somebody else's": {"photos/1.jpg", "x", "it holds photos/1.jpg"},
	} {
		d, err := directory.Open(t.TempDir())
		if err == nil && c.object != "" {
			_, err = d.Put(t.Context(), c.object, strings.NewReader(c.text), -1)
		}
		if err != nil {
			t.Fatal(err)
		}
		for range 2 {
			err = depot.Own(t.Context(), d, "c")
			if c.words == "" && err != nil || c.words != "" &&
				(!errors.Is(err, depot.ErrDenied) || !strings.Contains(err.Error(), c.words)) {
				t.Errorf("%s: %v", name, err)
			}
		}
		if c.words != "" {
			text, err := depot.Read(t.Context(), d, c.object)
			if err != nil || string(text) != c.text {
				t.Errorf("%s: it is changed to %q, %v", name, text, err)
			}
		}
	}
}
