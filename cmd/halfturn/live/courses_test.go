package live

import (
	"sync/atomic"
	"testing"

	"halfturn/configs/settings"
)

// The courses are read once for a configuration, and again for the next one; one whose cards cannot be read is an error
// until there is another.
func TestCoursesOfConfig(t *testing.T) {
	var now atomic.Pointer[settings.Config]
	now.Store(config(t, written(t, ""), t.TempDir()))
	read := courses(now.Load)
	first, err := read()
	if err != nil || len(first.Courses()) == 0 {
		t.Fatal(err)
	}
	if again, err := read(); again != first || err != nil {
		t.Errorf("read again: %v", err)
	}
	missing := *now.Load()
	missing.Cards = []string{t.TempDir() + "/none"}
	now.Store(&missing)
	if _, err := read(); err == nil {
		t.Error("a folder that is not there is no error")
	}
	now.Store(config(t, written(t, ""), t.TempDir()))
	if next, err := read(); next == first || err != nil {
		t.Errorf("not read for another configuration: %v", err)
	}
}
