package remote

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"halfturn/coach/archive/disk"
	"halfturn/stream/record"
)

// stateFile is what this node knows of the depot's copy of a session folder, in that folder.
const stateFile = ".depot.json"

// A State is what a folder was made from, or was stored as.
type State struct {
	Manifest *Manifest `json:"manifest"` // nil: nothing of it was stored
	// Looks are the files as they were when they had the sums of the manifest. A file that looks otherwise was changed
	// since; one that is not here was never brought.
	Looks map[string]Look `json:"looks"`
	// Held says that this node flew the session, under Fence, and has what the depot lacks of it.
	Held  bool   `json:"held,omitempty"`
	Fence uint64 `json:"fence,omitempty"`
	// Lost says that another node has taken the session over.
	Lost bool `json:"lost,omitempty"`
}

// A Look tells a file that was changed from one that was not, without reading it.
type Look struct {
	Size     int64     `json:"size"`
	Modified time.Time `json:"modified"`
}

func lookOf(info fs.FileInfo) Look { return Look{info.Size(), info.ModTime().UTC()} }

func (l Look) same(as Look) bool { return l.Size == as.Size && l.Modified.Equal(as.Modified) }

// StateOf reads the state of a folder. One that is not there or damaged is empty: the files are compared by content.
func StateOf(dir string) State {
	var st State
	if text, err := os.ReadFile(filepath.Join(dir, stateFile)); err != nil || json.Unmarshal(text, &st) != nil {
		st = State{}
	}
	if st.Looks == nil {
		st.Looks = map[string]Look{}
	}
	return st
}

// Whole reports whether all there was of a session when it was last stored is in the depot.
func (st *State) Whole() bool { return st.Manifest != nil && st.Manifest.Whole }

// Write keeps the state in a folder.
func (st *State) Write(dir string) error {
	text, err := json.Marshal(st)
	if err != nil {
		return err
	}
	return disk.PutWhole(filepath.Join(dir, stateFile), text, func(*os.File) error { return nil })
}

// eligible lists the files of a folder that belong into the depot, by name. Of a part of the recording that is there
// compressed and not, the one that counts is.
func eligible(dir string) (map[string]fs.FileInfo, error) {
	all := map[string]fs.FileInfo{}
	parts, err := record.Parts(dir)
	if err != nil {
		return nil, err
	}
	counts := map[string]bool{}
	for _, p := range parts {
		counts[filepath.Base(p)] = true
	}
	err = filepath.WalkDir(dir, func(file string, e fs.DirEntry, err error) error {
		if err != nil {
			return disk.IgnoreGone(err)
		}
		rel, err := filepath.Rel(dir, file)
		if err != nil || rel == "." {
			return err
		}
		switch name := filepath.ToSlash(rel); {
		case strings.HasPrefix(e.Name(), ".") && e.IsDir():
			return fs.SkipDir
		case e.IsDir(), strings.HasPrefix(e.Name(), "."), !e.Type().IsRegular(), record.IsMark(name),
			record.IsPart(name) && !counts[name]:
			return nil
		default:
			info, err := e.Info()
			if errors.Is(err, fs.ErrNotExist) {
				return nil
			}
			all[name] = info
			return err
		}
	})
	return all, err
}

// Changed reports whether a folder holds what the depot does not have, or may.
func Changed(dir string) bool {
	st := StateOf(dir)
	if st.Held || st.Manifest == nil {
		return true
	}
	is, err := eligible(dir)
	if err != nil {
		return true
	}
	for name, info := range is {
		if look, known := st.Looks[name]; known && look.same(lookOf(info)) {
			continue
		}
		if record.IsPart(name) && !st.Manifest.Whole {
			continue // put together from pieces
		}
		return true
	}
	return false
}

// Used returns when a folder that was made from the depot was last asked for; false for one that this node holds.
func Used(dir string) (time.Time, bool) {
	info, err := os.Stat(filepath.Join(dir, stateFile))
	if err != nil {
		return time.Time{}, false
	}
	return info.ModTime(), true
}

// Use notes that a folder was asked for, about once a minute.
func Use(dir string) {
	if at, ok := Used(dir); ok && time.Since(at) > time.Minute {
		now := time.Now()
		_ = os.Chtimes(filepath.Join(dir, stateFile), now, now) // it is evicted a little early
	}
}
