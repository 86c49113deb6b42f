package folder

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"halfturn/coach/archive/disk"
	"halfturn/coach/canonical"
	"halfturn/coach/logbook"
)

// ActsFile holds the acts of a session, one per line as JSON. Lines are only ever added; one that lacks its end was
// being added when the power went, and counts for nothing.
const ActsFile = "acts.jsonl"

// ReadActs reads what people added to a session: the acts in its folder, or those in notes of a version that had them
// there.
func ReadActs(dir string, n *Notes) ([]logbook.Act, error) {
	acts, _, err := readActs(dir)
	if errors.Is(err, fs.ErrNotExist) {
		if n == nil {
			return nil, nil
		}
		return n.acts, nil
	}
	return acts, err
}

// rawActs reads the lines of the file of acts as JSON values, so that nothing of them is lost; those of old notes are
// written as they would be.
func rawActs(dir string, acts []logbook.Act) ([]any, error) {
	data, err := os.ReadFile(filepath.Join(dir, ActsFile))
	if errors.Is(err, fs.ErrNotExist) {
		data, err = encodeActs(acts)
	}
	if err != nil {
		return nil, err
	}
	all := make([]any, 0, len(acts))
	for len(all) < len(acts) {
		line, rest, _ := bytes.Cut(data, []byte("\n"))
		v, err := canonical.Read(line)
		if err != nil {
			return nil, err
		}
		all, data = append(all, v), rest
	}
	return all, nil
}

// readActs reads the file of acts, and returns how many bytes of it are whole lines.
func readActs(dir string) (acts []logbook.Act, whole int64, err error) {
	name := filepath.Join(dir, ActsFile)
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, 0, err
	}
	for n := 1; ; n++ {
		line, rest, ended := bytes.Cut(data, []byte("\n"))
		if !ended {
			return acts, whole, nil
		}
		data, whole = rest, whole+int64(len(line))+1
		var a logbook.Act
		if err := json.Unmarshal(line, &a); err != nil {
			return nil, 0, fmt.Errorf("%s: line %d cannot be read: %w", name, n, err)
		}
		acts = append(acts, a)
	}
}

// addActs writes acts behind those that are there; carried over from old notes, the file is made of them all. The
// returned function takes them back.
func addActs(dir string, before, added []logbook.Act) (takeBack func() error, err error) {
	name := filepath.Join(dir, ActsFile)
	_, whole, err := readActs(dir)
	if errors.Is(err, fs.ErrNotExist) {
		text, err := encodeActs(append(before[:len(before):len(before)], added...))
		if err != nil {
			return nil, err
		}
		takeBack = func() error { return disk.IgnoreGone(os.Remove(name)) }
		if err := disk.WriteWhole(name, text); err != nil {
			return nil, err
		}
		disk.SyncDir(dir)
		return takeBack, nil
	}
	if err != nil {
		return nil, err
	}
	text, err := encodeActs(added)
	if err != nil {
		return nil, err
	}
	takeBack = func() error { return disk.IgnoreGone(os.Truncate(name, whole)) }
	if err := appendTo(name, whole, text); err != nil {
		return nil, errors.Join(err, takeBack())
	}
	return takeBack, nil
}

func encodeActs(acts []logbook.Act) ([]byte, error) {
	var b bytes.Buffer
	for i := range acts {
		line, err := json.Marshal(&acts[i])
		if err != nil {
			return nil, err
		}
		b.Write(append(line, '\n'))
	}
	return b.Bytes(), nil
}

// appendTo writes behind the first bytes of a file, and makes sure that it is on the disk.
func appendTo(name string, whole int64, text []byte) (err error) {
	f, err := os.OpenFile(name, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	if err := f.Truncate(whole); err != nil { // of a line that was never ended
		return err
	}
	if _, err := f.WriteAt(text, whole); err != nil {
		return err
	}
	return f.Sync()
}
