package folder

import (
	"bytes"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"halfturn/coach/archive/disk"
	"halfturn/coach/canonical"
	"halfturn/coach/names"
	"halfturn/coach/sign"
	"halfturn/stream/record"
)

// RemoveName takes the name of a person out of the folder of a session that somebody else flew: out of its acts and
// signatures, its notes, its gradings and the comments of its recording. others are names that stay, also where they
// hold that one. Where a signature knows the hash of the name, that stands in its place, so that the signature still
// holds.
func RemoveName(dir, name string, others []string) (changed bool, err error) {
	inNotes := names.Removed
	f, err := Signable(dir)
	if err == nil {
		acts, touched := sign.Without(f.Acts, f.Parsed, name, others)
		if touched {
			if err := writeLines(filepath.Join(dir, ActsFile), acts); err != nil {
				return false, err
			}
			changed = true
		}
		if hash := sign.HashOf(f.Parsed, name); hash != "" {
			inNotes = names.Covered(hash)
		}
	}
	files, err := filepath.Glob(filepath.Join(Globbed(dir), "*.json"))
	if err != nil {
		return changed, err
	}
	for _, file := range files {
		touched, err := removeIn(file, coverOf(name, inNotes, others))
		if changed = changed || touched; err != nil {
			return changed, err
		}
	}
	for _, file := range Recording(dir) {
		touched, err := record.Scrub(file, func(option []byte) bool {
			return record.Overwrite(option, Spellings(string(option), name)...)
		})
		if changed = changed || touched; err != nil {
			return changed, err
		}
	}
	return changed, nil
}

// coverOf covers one name and leaves the others.
func coverOf(name, by string, others []string) *names.Cover {
	stands := map[string]string{}
	for _, other := range others {
		stands[other] = ""
	}
	stands[name] = by
	return names.NewCover(stands)
}

// people are the members of the files of a session, beside those of acts, that may hold names of people.
var people = []string{"author", "by", "file", "name", "reason", "station", "student", "text", "words"}

// removeIn takes a name out of a JSON file.
func removeIn(file string, cover *names.Cover) (changed bool, err error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return false, disk.IgnoreGone(err)
	}
	v, err := canonical.Read(data)
	if err != nil {
		return false, nil // it is damaged: nobody reads it as a session
	}
	v = coverIn(v, cover, &changed)
	if !changed {
		return false, nil
	}
	out, err := json.MarshalIndent(v, "", "  ")
	if err == nil {
		err = disk.WriteWhole(file, append(out, '\n'))
	}
	return err == nil, err
}

func coverIn(v any, cover *names.Cover, changed *bool) any {
	switch v := v.(type) {
	case map[string]any:
		for key, member := range v {
			text, isText := member.(string)
			if !isText {
				v[key] = coverIn(member, cover, changed)
				continue
			}
			if slices.Contains(people, key) {
				is := cover.In(text)
				*changed = *changed || is != text
				v[key] = is
			}
		}
	case []any:
		for i := range v {
			v[i] = coverIn(v[i], cover, changed)
		}
	}
	return v
}

// writeLines writes JSON values one per line.
func writeLines(file string, all []any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	for _, v := range all {
		if err := e.Encode(v); err != nil {
			return err
		}
	}
	return disk.WriteWhole(file, b.Bytes())
}

// Spellings lists how a name stands in a text, as it is and as JSON writes it.
func Spellings(text, name string) (all []string) {
	for _, name := range []string{name, escaped(name)} {
		if strings.Contains(text, name) {
			all = append(all, name)
		}
		if at := strings.Index(strings.ToLower(text), strings.ToLower(name)); at >= 0 && at+len(name) <= len(text) {
			if is := text[at : at+len(name)]; strings.EqualFold(is, name) {
				all = append(all, is)
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// escaped is a name as JSON writes it.
func escaped(name string) string {
	data, err := json.Marshal(name)
	if err != nil {
		return name
	}
	return strings.Trim(string(data), `"`)
}

// Holding lists the files below a directory that hold a name, or are called by it; a recording is unpacked.
func Holding(data, name string) (files []string, err error) {
	err = filepath.WalkDir(data, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return disk.IgnoreGone(err)
		}
		if strings.Contains(strings.ToLower(d.Name()), strings.ToLower(plain(name))) && plain(name) != "" {
			files = append(files, path)
			return nil
		}
		if d.IsDir() {
			return nil
		}
		text, err := record.Plain(path)
		if errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		if err != nil {
			return err
		}
		if len(Spellings(string(text), name)) > 0 {
			files = append(files, path)
		}
		return nil
	})
	return files, err
}
