package remote

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/disk"
	"halfturn/coach/archive/folder"
	"halfturn/stream/record"
)

// Bring brings the folder of a session to its newest state, and makes it where there is none: all of it, or without
// files of the recording that are not there yet. What was changed here and not stored stays, and where both sides have
// changed a file, what both added is kept. It returns nil when the depot has nothing of the session.
func (s *Sessions) Bring(ctx context.Context, id, dir string, whole bool) (*Manifest, error) {
	st := StateOf(dir)
	for range triesOfReader {
		m, err := s.Newest(ctx, id, st.Manifest)
		if err != nil || m == nil {
			return nil, err
		}
		if st.Held && m.Fence > st.Fence {
			return nil, fmt.Errorf("%w: %s is held by %s", ErrFenced, id, m.Node)
		}
		err = s.bring(ctx, m, &st, dir, whole)
		if !errors.Is(err, depot.ErrNotFound) { // else it was changed while it was read
			return m, err
		}
		st.Manifest = nil // so that it is read again
	}
	return nil, fmt.Errorf("session %s changes faster than it can be read; try again", id)
}

// bring makes a folder what a manifest says.
func (s *Sessions) bring(ctx context.Context, m *Manifest, st *State, dir string, whole bool) error {
	if st.Manifest == m && !whole {
		return nil
	}
	if err := os.MkdirAll(dir, 0o750); err != nil {
		return err
	}
	next := *st
	next.Manifest, next.Looks = m, map[string]Look{}
	for i := range m.Files {
		if err := s.bringFile(ctx, m, &m.Files[i], st, &next, dir, whole); err != nil {
			return err
		}
	}
	if err := dropFiles(m, st, dir); err != nil {
		return err
	}
	if !st.Held {
		if err := s.bringRest(ctx, m, st, dir, whole); err != nil {
			return err
		}
	}
	err := next.Write(dir)
	*st = next
	return err
}

// bringFile brings one file, unless it is there.
func (s *Sessions) bringFile(
	ctx context.Context, m *Manifest, f *File, st, next *State, dir string, whole bool,
) error {
	path := filepath.Join(dir, filepath.FromSlash(f.Name))
	if !filepath.IsLocal(filepath.FromSlash(f.Name)) {
		return fmt.Errorf("the state of session %s names a file outside its folder: %q", m.Session, f.Name)
	}
	base := st.Manifest.file(f.Name)
	look, known := st.Looks[f.Name]
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		switch {
		case record.IsPart(f.Name) && (!whole || st.Held || otherwise(st, f.Name, path)):
			return nil // it is not asked for, or here otherwise
		case !record.IsPart(f.Name) && known && base != nil && base.Sum == f.Sum:
			next.Looks[f.Name] = look // it was removed here, which is still to be stored
			return nil
		}
		return s.download(ctx, m.Session, f, path, next)
	case err != nil:
		return err
	}
	sum := ""
	if known && base != nil && look.same(lookOf(info)) {
		sum = base.Sum
	} else if sum, err = sumOf(path); err != nil {
		return err
	}
	switch {
	case sum == f.Sum:
		next.Looks[f.Name] = lookOf(info)
		return nil
	case base != nil && sum == base.Sum, record.IsPart(f.Name) && !st.Held:
		return s.download(ctx, m.Session, f, path, next)
	case base != nil && base.Sum == f.Sum:
		return nil // changed here alone
	}
	return s.merge(ctx, m.Session, f, path)
}

// otherwise reports whether a part of a recording is here, compressed where the depot has it as it is or the other way
// round. What was put together from pieces is not: it may lack its end.
func otherwise(st *State, name, path string) bool {
	_, was := st.Looks[name]
	_, is := st.Looks[twin(name)]
	_, err := os.Stat(filepath.Join(filepath.Dir(path), twin(name)))
	return (was || is) && err == nil
}

// merge keeps what both sides added to a file; else what this side has.
func (s *Sessions) merge(ctx context.Context, id string, f *File, path string) error {
	merge := folder.Merge(f.Name)
	if merge == nil {
		return nil
	}
	theirs, err := depot.Read(ctx, s.depot, files+id+"/"+f.Object)
	if err != nil {
		return err
	}
	ours, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	both, err := merge(ours, theirs)
	if err != nil {
		return fmt.Errorf("session %s: %s was changed by two nodes: %w", id, f.Name, err)
	}
	return disk.WriteWhole(path, both)
}

// dropFiles removes what was brought and is not in the folder any more.
func dropFiles(m *Manifest, st *State, dir string) error {
	for name, look := range st.Looks {
		if m.file(name) != nil || !filepath.IsLocal(filepath.FromSlash(name)) {
			continue
		}
		path := filepath.Join(dir, filepath.FromSlash(name))
		info, err := os.Stat(path)
		if err == nil && look.same(lookOf(info)) && !(record.IsPart(name) && (st.Held || m.file(twin(name)) == nil)) {
			err = os.Remove(path)
		}
		if disk.IgnoreGone(err) != nil {
			return err
		}
	}
	return nil
}

// bringRest brings what is in pieces to a copy of a session that another node holds, and its mark.
func (s *Sessions) bringRest(ctx context.Context, m *Manifest, st *State, dir string, whole bool) error {
	mark := record.Finish
	if m.Flying {
		mark = record.Mark
	}
	if err := mark(dir); err != nil {
		return err
	}
	if m.Whole {
		return dropPieces(m, dir)
	}
	if !whole {
		return nil
	}
	if st.Manifest == nil || st.Manifest.Fence != m.Fence { // a successor may have recorded otherwise
		if err := dropPieces(m, dir); err != nil {
			return err
		}
	}
	return s.append(ctx, m, dir)
}

// dropPieces removes parts of the recording that were put together from pieces.
func dropPieces(m *Manifest, dir string) error {
	parts, err := record.Parts(dir)
	if err != nil {
		return err
	}
	for _, p := range parts {
		if name := filepath.Base(p); !m.Has(name) {
			err = errors.Join(err, os.Remove(p))
		}
	}
	return err
}

// download brings a file: it appears whole, and with the sum it must have.
func (s *Sessions) download(ctx context.Context, id string, f *File, path string, next *State) (err error) {
	if err := os.MkdirAll(filepath.Dir(path), 0o750); err != nil {
		return err
	}
	in, err := s.depot.Open(ctx, files+id+"/"+f.Object, 0, -1)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, in.Close()) }()
	out, err := os.CreateTemp(filepath.Dir(path), ".bringing-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			_ = os.Remove(out.Name()) // it has a name that nobody looks for
		}
	}()
	sum := sha256.New()
	n, err := io.Copy(io.MultiWriter(out, sum), in)
	if err = errors.Join(err, out.Chmod(0o640), out.Close()); err != nil {
		return err
	}
	if is := hex.EncodeToString(sum.Sum(nil)); is != f.Sum {
		return fmt.Errorf("session %s: %s in %s is damaged: its %d bytes do not have the sum they were stored with",
			id, f.Name, s.depot, n)
	}
	if err := os.Chtimes(out.Name(), f.Modified, f.Modified); err != nil {
		return err
	}
	if err := os.Rename(out.Name(), path); err != nil {
		return err
	}
	info, err := os.Stat(path)
	if err == nil {
		next.Looks[f.Name] = lookOf(info)
	}
	// The part that it is may be here otherwise: compressed or not, or as far as it was in pieces.
	if other := twin(f.Name); err == nil && other != "" {
		err = disk.IgnoreGone(os.Remove(filepath.Join(filepath.Dir(path), other)))
	}
	return err
}

// twin is the name that a part of a recording has compressed if it is not, and otherwise; "" for another file.
func twin(name string) string {
	switch plain, packed := strings.CutSuffix(name, ".zst"); {
	case !record.IsPart(name):
		return ""
	case packed:
		return plain
	}
	return name + ".zst"
}

// sumOf is the SHA-256 of a file, in hexadecimal.
func sumOf(path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	sum := sha256.New()
	_, err = io.Copy(sum, f)
	return hex.EncodeToString(sum.Sum(nil)), errors.Join(err, f.Close())
}
