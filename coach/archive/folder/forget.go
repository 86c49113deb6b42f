package folder

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"halfturn/coach/archive/disk"
	"halfturn/coach/canonical"
	"halfturn/coach/logbook"
	"halfturn/coach/names"
	"halfturn/coach/sign"
	"halfturn/stream/record"
)

// RemoveName takes the name of a person out of the folder of a session that somebody else flew: out of its acts and
// signatures, its notes, its gradings and the comments of its recording. others are names that stay, also where they
// hold that one. Where a signature knows the hash of the name, that stands in its place, so that the signature still
// holds. In what is damaged the name is written over where it can be found; damaged says what that is, and why.
func RemoveName(dir, name string, others []string) (damaged []error, err error) {
	acts, damaged, err := readRaw(dir)
	if err != nil {
		return damaged, err
	}
	if err := acts.remove(dir, name, others); err != nil {
		return damaged, err
	}
	inNotes := names.Removed
	if hash := sign.HashOf(acts.parsed, name); hash != "" {
		inNotes = names.Covered(hash)
	}
	files, err := filepath.Glob(filepath.Join(Globbed(dir), "*.json"))
	if err != nil {
		return damaged, err
	}
	for _, file := range files {
		why, err := removeIn(file, name, others, coverOf(name, inNotes, others))
		if damaged = append(damaged, why...); err != nil {
			return damaged, err
		}
	}
	for _, file := range Recording(dir) {
		_, err := record.Scrub(file, func(option []byte) bool { return names.Erase(option, name, others) })
		if err != nil {
			damaged = append(damaged, fmt.Errorf("%s cannot be read: %w", filepath.Base(file), err))
		}
	}
	return damaged, nil
}

// raw is a file of acts as far as it can be read.
type raw struct {
	lines  [][]byte // with their ends; nil for one that is an act
	acts   []any    // the others
	parsed []logbook.Act
}

// readRaw reads the acts of a session line by line, or those of old notes. damaged says which lines are no acts.
func readRaw(dir string) (r raw, damaged []error, err error) {
	data, err := os.ReadFile(filepath.Join(dir, ActsFile))
	if errors.Is(err, fs.ErrNotExist) {
		n, err := ReadNotes(dir)
		if err != nil || n == nil {
			return r, nil, nil // what is wrong with notes is found with the other files
		}
		if data, err = encodeActs(n.acts); err != nil {
			return r, nil, err
		}
	} else if err != nil {
		return r, nil, err
	}
	for line := range bytes.Lines(data) {
		if !bytes.HasSuffix(line, []byte("\n")) { // it was being added when the power went, and is no act
			r.lines = append(r.lines, line)
			break
		}
		var act logbook.Act
		v, err := canonical.Read(line)
		if err == nil {
			err = json.Unmarshal(line, &act)
		}
		if err != nil {
			damaged = append(damaged, fmt.Errorf("%s: line %d cannot be read: %w", ActsFile, len(r.lines)+1, err))
			r.lines = append(r.lines, line)
			continue
		}
		r.lines, r.acts, r.parsed = append(r.lines, nil), append(r.acts, v), append(r.parsed, act)
	}
	return r, damaged, nil
}

// remove takes a name out of acts, and writes them where that changes something.
func (r *raw) remove(dir, name string, others []string) error {
	acts, changed := sign.Without(r.acts, r.parsed, name, others)
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	for _, line := range r.lines {
		if line == nil {
			if err := e.Encode(acts[0]); err != nil {
				return err
			}
			acts = acts[1:]
			continue
		}
		changed = names.Erase(line, name, others) || changed
		b.Write(line)
	}
	if !changed {
		return nil
	}
	return disk.WriteWhole(filepath.Join(dir, ActsFile), b.Bytes())
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

// removeIn takes a name out of a JSON file. A damaged one is not JSON: the name is written over in its text.
func removeIn(file, name string, others []string, cover *names.Cover) (damaged []error, err error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, disk.IgnoreGone(err)
	}
	v, err := canonical.Read(data)
	if err != nil {
		damaged = []error{fmt.Errorf("%s cannot be read: %w", filepath.Base(file), err)}
		if !names.Erase(data, name, others) {
			return damaged, nil
		}
		return damaged, disk.WriteWhole(file, data)
	}
	changed := false
	v = coverIn(v, false, cover, &changed)
	if !changed {
		return nil, nil
	}
	out, err := json.MarshalIndent(v, "", "  ")
	if err == nil {
		err = disk.WriteWhole(file, append(out, '\n'))
	}
	return nil, err
}

// coverIn covers names in a JSON value: in the texts of members that may hold names of people, also in lists of them.
func coverIn(v any, named bool, cover *names.Cover, changed *bool) any {
	switch v := v.(type) {
	case map[string]any:
		for key, member := range v {
			v[key] = coverIn(member, slices.Contains(people, key), cover, changed)
		}
	case []any:
		for i := range v {
			v[i] = coverIn(v[i], named, cover, changed)
		}
	case string:
		if named {
			is := cover.In(v)
			*changed = *changed || is != v
			return is
		}
	}
	return v
}

// Holding lists the files below a directory that hold a name, or are called by it; a recording is unpacked. damaged
// says which cannot be read to their end.
func Holding(data, name string) (files []string, damaged []error, err error) {
	err = filepath.WalkDir(data, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return disk.IgnoreGone(err)
		}
		if len(names.Spelled([]byte(d.Name()), plain(name))) > 0 {
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
			damaged = append(damaged, fmt.Errorf("%s cannot be read: %w", path, err))
		}
		if len(names.Spelled(text, name)) > 0 {
			files = append(files, path)
		}
		return nil
	})
	return files, damaged, err
}
