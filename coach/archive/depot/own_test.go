package depot_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/depot/directory"
)

// TestOwn: an empty depot becomes that of a cluster, and stays so; one of somebody else is refused and left as it is.
func TestOwn(t *testing.T) {
	says := func(layout int, cluster string) string {
		return fmt.Sprintf(`{"program": "halfturn", "layout": %d, "cluster": %q}`, layout, cluster)
	}
	for name, c := range map[string]struct{ object, text, words string }{
		"empty":           {"", "", ""},
		"ours":            {depot.OwnerName, says(1, "c"), ""},
		"another cluster": {depot.OwnerName, says(1, "d"), `of the cluster "d"`},
		"a newer version": {depot.OwnerName, says(2, "c"), "update this node"},
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

// A race is a depot in which another node does something before a node is told what there is.
type race struct {
	depot.Depot
	meanwhile func() error
}

func (r race) List(ctx context.Context, prefix string, each func(depot.Object) error) error {
	if err := r.meanwhile(); err != nil {
		return err
	}
	return r.Depot.List(ctx, prefix, each)
}

// TestOwnTogether: of nodes that start together each finds the depot to be that of its cluster, also where another one
// made it so, and stored something, while it was looking.
func TestOwnTogether(t *testing.T) {
	for cluster, words := range map[string]string{"c": "", "d": `of the cluster "d"`} {
		d, err := directory.Open(t.TempDir())
		if err != nil {
			t.Fatal(err)
		}
		err = depot.Own(t.Context(), race{d, func() error {
			if err := depot.Own(t.Context(), d, cluster); err != nil {
				return err
			}
			_, err := d.Put(t.Context(), "a/first", strings.NewReader("x"), 1)
			return err
		}}, "c")
		if words == "" && err != nil || words != "" && (err == nil || !strings.Contains(err.Error(), words)) {
			t.Errorf("another node makes it that of %q meanwhile: %v", cluster, err)
		}
	}
}
