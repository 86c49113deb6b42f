package folder

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"halfturn/coach/canonical"
	"halfturn/coach/logbook"
	"halfturn/coach/sign"
)

// Signable reads what is signed of a session: its grades as they were kept first, and its acts. Its grades are nil when
// none were kept.
func Signable(dir string) (*sign.Folder, error) {
	n, err := ReadNotes(dir)
	if err != nil {
		return nil, err
	}
	f := &sign.Folder{}
	if n != nil {
		f.Session, f.Student = n.Key, n.Student
	}
	if f.Parsed, err = ReadActs(dir, n); err != nil {
		return nil, err
	}
	if f.Acts, err = rawActs(dir, f.Parsed); err != nil {
		return nil, err
	}
	data, err := os.ReadFile(filepath.Join(dir, SummaryFile))
	if errors.Is(err, fs.ErrNotExist) {
		return f, nil
	}
	if err != nil {
		return nil, err
	}
	report, err := canonical.Read(data)
	if err != nil {
		return nil, err
	}
	f.Grades = seriesOf(report)
	return f, nil
}

// seriesOf lists for each station of a report its series; nil when there are none.
func seriesOf(report any) any {
	var all []any
	flown := false
	for _, file := range listIn(report, "files") {
		for _, station := range listIn(file, "stations") {
			series := listIn(station, "series")
			flown = flown || len(series) > 0
			if series == nil {
				series = []any{}
			}
			all = append(all, series)
		}
	}
	if !flown {
		return nil
	}
	return all
}

func listIn(v any, key string) []any {
	m, _ := v.(map[string]any)
	list, _ := m[key].([]any)
	return list
}

// Verify fills in which signatures of a session hold.
func Verify(dir string, signed []logbook.Signing) error {
	if len(signed) == 0 {
		return nil
	}
	f, err := Signable(dir)
	if err != nil {
		return err
	}
	for i := range signed {
		s := &signed[i]
		for n := range f.Parsed {
			if f.Parsed[n].ID == s.ID {
				s.Holds = sign.Verify(f, n)
				break
			}
		}
	}
	return nil
}
