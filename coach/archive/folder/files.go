package folder

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"halfturn/coach/archive/disk"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/configs/tomlfile"
)

// Save writes the grades that a session got first and returns the file. It appears whole or not at all.
func Save(dir string, r *debrief.Report) (string, error) {
	id := filepath.Base(dir)
	data, err := json.MarshalIndent(r, "", "  ")
	if err != nil {
		return "", fmt.Errorf("session %s cannot be written: %w", id, err)
	}
	path := filepath.Join(dir, SummaryFile)
	if err := disk.WriteWhole(path, append(data, '\n')); err != nil {
		return "", fmt.Errorf("session %s cannot be kept: %w", id, err)
	}
	return path, nil
}

// ReadReport reads a file of grades; false when there is none or it holds none. One of a newer version is not read.
func ReadReport(path string) (*debrief.Report, bool, error) {
	r := debrief.New()
	if err := checkVersion(path, r.Version); err != nil {
		return r, false, err
	}
	r.Version = 0 // until the file names one
	ok, err := readJSON(path, r)
	return r, ok && r.Version != 0, err
}

// checkVersion refuses a JSON file that a newer program wrote in another form: read as one of today it would lose what
// is new in it when it is written again. What else may be wrong with the file its reader says.
func checkVersion(path string, known int) error {
	var v struct {
		Version int `json:"version"`
	}
	if ok, err := readJSON(path, &v); err == nil && ok && v.Version > known {
		return fmt.Errorf("%s was written by a newer version of halfturn (form %d, this one knows %d); update "+
			"halfturn to read it, it stays as it is", path, v.Version, known)
	}
	return nil
}

// regradeFile is the name of the n-th grading beside the first, from 1.
func regradeFile(n int) string { return fmt.Sprintf("regrade-%04d.json", n) }

const regradeFiles = "regrade-*.json"

// SaveRegrade writes grades beside those that are there and returns the file.
func SaveRegrade(dir string, r *debrief.Report) (string, error) {
	data, err := json.MarshalIndent(r, "", "  ")
	if err != nil {
		return "", err
	}
	for n := 1; n < 10000; n++ {
		name := filepath.Join(dir, regradeFile(n))
		if _, err := os.Lstat(name); err == nil {
			continue
		}
		return name, disk.WriteWhole(name, append(data, '\n'))
	}
	return "", fmt.Errorf("%s holds ten thousand gradings; delete some", dir)
}

// KeepCards writes cards into the folder of a session. One that is there stays: it stood when the session began.
func KeepCards(dir string, cards []logbook.KeptCard) error {
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
		if err := disk.PutWhole(path, c.Text, func(*os.File) error { return nil }); err != nil {
			return err
		}
	}
	return nil
}

// oneName reports whether a word is the name of one file, not a way to another.
func oneName(s string) bool {
	return s != "" && s != "." && s != ".." && !strings.ContainsAny(s, `/\`+"\x00") && filepath.Base(s) == s
}

// ReadCards reads the cards of a session's folder, in their order.
func ReadCards(dir string) ([]logbook.KeptCard, error) {
	files, err := filepath.Glob(filepath.Join(Globbed(filepath.Join(dir, cardsDir)), "*", "*.toml"))
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

// Globbed is a directory in a pattern of filepath.Glob.
func Globbed(dir string) string {
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
