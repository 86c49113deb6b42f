package archive

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/who"
)

// sat is a closed data directory with three sessions, all kept in their folders too.
func sat(t *testing.T) (data string, was everything) {
	t.Helper()
	once.Do(func() { kept.files, kept.was = sit(t) })
	data = t.TempDir()
	must(t, os.CopyFS(data, kept.files))
	return data, kept.was
}

// kept is the data directory of sat, which takes a second to make under the race detector.
var (
	once sync.Once
	kept struct {
		files fstest.MapFS
		was   everything
	}
)

// sit makes the directory, and returns its files and what the logbook says.
func sit(t *testing.T) (files fstest.MapFS, was everything) {
	t.Helper()
	data := t.TempDir()
	b, err := Open(data, Options{Engine: sqlite.Engine{}, Version: "1.2"})
	must(t, err)
	for n := range 3 {
		id := entered(t, b, began.Add(time.Duration(n)*time.Hour), fmt.Sprintf("Student %d", n))
		r := reportOf(id, flight(1, coach.Finished, coach.Met, coach.Good, 90, "More bank"), flight(2, coach.Finished,
			coach.Missed, coach.Fair, 70, ""))
		must(t, b.Keep(id, r), b.End(id, began.Add(time.Duration(n)*time.Hour+time.Minute)))
		_, err := b.Save(id, r)
		must(t, err)
		_, err = b.Remark(who.Owner(), id, logbook.Remark{Words: fmt.Sprintf("remark number %d", n), By: "instructor",
			At: began})
		must(t, err)
	}
	was = whole(t, b)
	must(t, b.Close())
	files = fstest.MapFS{}
	must(t, fs.WalkDir(os.DirFS(data), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		content, err := os.ReadFile(filepath.Join(data, name))
		files[name] = &fstest.MapFile{Data: content, Mode: 0o600}
		return err
	}))
	return files, was
}
