package archive

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/configs/tomlfile"
)

// Save writes the grades that a session got first and returns the file. It appears whole or not at all.
func (a *Archive) Save(id string, r *debrief.Report) (string, error) {
	data, err := json.MarshalIndent(r, "", "  ")
	if err != nil {
		return "", fmt.Errorf("session %s cannot be written: %w", id, err)
	}
	path := filepath.Join(a.dir, id, SummaryFile)
	if err := writeWhole(path, append(data, '\n')); err != nil {
		return "", fmt.Errorf("session %s cannot be kept: %w", id, err)
	}
	return path, nil
}

// ReadReport reads a file of grades; false when there is none or it holds none.
func ReadReport(path string) (*debrief.Report, bool, error) {
	r := debrief.New()
	ok, err := readJSON(path, r)
	return r, ok && r.Version != 0, err
}

// regradeFile is the name of the n-th grading beside the first, from 1.
func regradeFile(n int) string { return fmt.Sprintf("regrade-%04d.json", n) }

const regradeFiles = "regrade-*.json"

// saveRegrade writes grades beside those that are there and returns the file.
func saveRegrade(dir string, r *debrief.Report) (string, error) {
	data, err := json.MarshalIndent(r, "", "  ")
	if err != nil {
		return "", err
	}
	for n := 1; n < 10000; n++ {
		name := filepath.Join(dir, regradeFile(n))
		if _, err := os.Lstat(name); err == nil {
			continue
		}
		return name, writeWhole(name, append(data, '\n'))
	}
	return "", fmt.Errorf("%s holds ten thousand gradings; delete some", dir)
}

// keepCards writes cards into the folder of a session. One that is there stays: it stood when the session began.
func keepCards(dir string, cards []logbook.KeptCard) error {
	for i := range cards {
		c := &cards[i]
		if !oneName(c.Kind) || !oneName(c.Name) {
			return fmt.Errorf("card %q of kind %q cannot be a file", c.Name, c.Kind)
		}
		path := filepath.Join(dir, cardsDir, c.Kind, c.Name+".toml")
		if _, err := os.Stat(path); err == nil {
			continue
		}
		if err := os.MkdirAll(filepath.Dir(path), 0o750); err != nil {
			return err
		}
		// The notes that name them are synced after them: a sync per card would take long for many stations.
		if err := putWhole(path, c.Text, func(*os.File) error { return nil }); err != nil {
			return err
		}
	}
	return nil
}

// oneName reports whether a word is the name of one file, not a way to another.
func oneName(s string) bool {
	return s != "" && s != "." && s != ".." && !strings.ContainsAny(s, `/\`+"\x00") && filepath.Base(s) == s
}

// readCards reads the cards of a session's folder, in their order.
func readCards(dir string) ([]logbook.KeptCard, error) {
	files, err := filepath.Glob(filepath.Join(globbed(filepath.Join(dir, cardsDir)), "*", "*.toml"))
	if err != nil {
		return nil, err
	}
	slices.Sort(files)
	var all []logbook.KeptCard
	for _, f := range files {
		text, err := tomlfile.Read(f)
		if err != nil {
			return nil, err
		}
		all = append(all, logbook.KeptCard{
			Kind: filepath.Base(filepath.Dir(f)),
			Name: strings.TrimSuffix(filepath.Base(f), ".toml"),
			Text: text,
		})
	}
	return all, nil
}

// globbed is a directory in a pattern of filepath.Glob.
func globbed(dir string) string {
	if filepath.Separator == '\\' { // there nothing is escaped
		return dir
	}
	return strings.NewReplacer(`\`, `\\`, "*", `\*`, "?", `\?`, "[", `\[`).Replace(dir)
}

// readJSON reads a file of a session; false when there is none or it is not to be read.
func readJSON(path string, into any) (bool, error) {
	data, err := os.ReadFile(path)
	if errors.Is(err, os.ErrNotExist) {
		return false, nil
	}
	if err == nil {
		err = json.Unmarshal(data, into)
	}
	if err != nil {
		return false, fmt.Errorf("%s cannot be read: %w", path, err)
	}
	return true, nil
}

// writeWhole writes beside the file, makes sure it is on the disk, and moves it into place.
func writeWhole(path string, data []byte) (err error) { return putWhole(path, data, (*os.File).Sync) }

func putWhole(path string, data []byte, sync func(*os.File) error) (err error) {
	f, err := os.CreateTemp(filepath.Dir(path), ".writing-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	if _, err = f.Write(data); err == nil {
		err = sync(f)
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}

// syncDir makes sure that a file that was moved into place is there after a failure of power too. Not every system
// can: there the file system's own order has to do.
func syncDir(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}
