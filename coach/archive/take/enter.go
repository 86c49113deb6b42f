package take

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"time"

	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/lock"
	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/who"
	"halfturn/stream/record"
)

// enter puts sessions among the others, one importer at a time. When one fails, those before it are taken back.
func (in *Importer) enter(ctx context.Context, done []*copied, taken *Taken) (err error) {
	lock, err := lock.Gate(ctx, in.Archive.Dir())
	if err != nil {
		return err
	}
	defer lock.Close()
	var made []string
	defer func() {
		if err == nil {
			return
		}
		for _, id := range slices.Backward(made) {
			err = errors.Join(err, in.Archive.Discard(in.By, id))
		}
	}()
	if err := in.known.look(in.Archive.Dir()); err != nil {
		return err
	}
	for _, k := range done {
		if err := ctx.Err(); err != nil {
			return err
		}
		id, err := in.double(ctx, k)
		if err != nil {
			return err
		}
		if k.d.Session, k.d.Double = id, id != ""; !k.d.Double {
			id, err := in.put(k)
			if id != "" {
				made = append(made, id)
			}
			if err != nil {
				return err
			}
		}
		taken.Sessions = append(taken.Sessions, k.d)
	}
	return nil
}

// double finds the session that holds the same flight.
func (in *Importer) double(ctx context.Context, k *copied) (id string, err error) {
	if id = in.known.hashes[k.d.Hash]; id != "" {
		return id, nil
	}
	o := k.from.Opening()
	if o == nil {
		return "", nil
	}
	dir, err := in.Archive.Folder(o.Session) // where it was recorded
	if err != nil {
		return "", nil
	}
	if from, err := os.Stat(k.from.Dir); err == nil {
		if here, err := os.Stat(dir); err == nil && os.SameFile(from, here) {
			return o.Session, nil // also while it grows
		}
	}
	there, err := play.Open(ctx, dir)
	if err != nil {
		return "", nil // a folder without a recording is not the same
	}
	sum := sha256.New()
	r := there.Read(ctx, nil)
	defer r.Close() // it was only read
	for {
		d, err := r.Next()
		if ctx.Err() != nil {
			return "", ctx.Err()
		}
		if err != nil {
			break
		}
		addTo(sum, &d)
	}
	fmt.Fprint(sum, r.Sender())
	if hex.EncodeToString(sum.Sum(nil)) == k.d.Hash {
		return o.Session, nil
	}
	return "", nil
}

// put makes the folder of a session and its entry. After an error id names the session to discard.
func (in *Importer) put(k *copied) (id string, err error) {
	s, e := k.flight, k.entry
	e.Station, e.Student.Name, e.Began = s.Sender.String(), k.student, s.Began
	file := "" // its own name
	if k.from.IsLog() {
		e.Station = k.title
	}
	if o := k.from.Opening(); o != nil {
		e.Station, file = o.Station, "live"
		if !s.Flew.IsZero() {
			e.Began = s.Flew
		}
	}
	if id, err = in.Archive.NewID(e.Began, e.Station); err != nil {
		return "", err
	}
	e.ID, k.d.Session = id, id
	if file == "" {
		file = id
	}
	dir := filepath.Join(in.Archive.Dir(), id)
	report := debrief.New()
	report.Session = &debrief.SessionDates{ID: id, Began: e.Began.UTC().Format(time.RFC3339),
		Ended: s.Last.UTC().Format(time.RFC3339)}
	report.Files = append(report.Files, debrief.FileReport{File: file, Stations: []debrief.StationReport{k.report}})
	if err := os.Rename(filepath.Join(k.dir, firstPart), filepath.Join(dir, firstPart)); err != nil {
		return id, err
	}
	if err := writeJSON(filepath.Join(dir, folder.ImportFile), &importNote{k.d, in.By}); err != nil {
		return id, err
	}
	if _, err := in.Archive.Save(id, report); err != nil {
		return id, err
	}
	if err := errors.Join(in.Archive.Begin(e), in.Archive.Keep(id, report), in.Archive.End(id, s.Last)); err != nil {
		return id, err
	}
	in.known.hashes[k.d.Hash] = id
	return id, nil
}

// An importNote is import.json in the folder of a session.
type importNote struct {
	Imported
	By who.Who `json:"by"` // who asked for it
}

// writeJSON writes a new file.
func writeJSON(name string, v any) error {
	data, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return err
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(append(data, '\n'))
	return errors.Join(err, f.Sync(), f.Close())
}

// known maps the hashes of what was imported to the sessions.
type known struct {
	hashes map[string]string
	looked map[string]bool // folders
}

// look reads what was imported since it last looked.
func (n *known) look(dir string) error {
	if n.hashes == nil {
		n.hashes, n.looked = map[string]string{}, map[string]bool{}
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	there := map[string]bool{}
	for _, e := range entries {
		if e.IsDir() && folder.IsID(e.Name()) {
			there[e.Name()] = true
		}
	}
	for hash, id := range n.hashes {
		if !there[id] { // was removed
			delete(n.hashes, hash)
			delete(n.looked, id)
		}
	}
	for id := range there {
		if n.looked[id] {
			continue
		}
		n.looked[id] = true
		data, err := os.ReadFile(filepath.Join(dir, id, folder.ImportFile))
		if err != nil {
			continue // was flown here
		}
		var d Imported
		parts, _ := record.Parts(filepath.Join(dir, id)) // none when it cannot be read
		if json.Unmarshal(data, &d) == nil && d.Hash != "" && len(parts) > 0 {
			n.hashes[d.Hash] = id
		}
	}
	return nil
}
