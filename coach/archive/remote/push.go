package remote

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"halfturn/coach/archive/depot"
	"halfturn/stream/record"
)

// A Push says how a folder is stored.
type Push struct {
	// Held says that this node holds the session, under Fence. It is the only one to store its recording.
	Held  bool
	Fence uint64
	// Flying says that the session is not over.
	Flying bool
	// Parts says which files of the recording are stored too; nil: those that are in the depot already, when they were
	// changed.
	Parts func(name string) bool
	// Whole says that nothing of the recording is missing afterwards.
	Whole bool
	// Purge makes sure that nothing stays in the depot of what the folder does not hold any more.
	Purge bool
	// Merge keeps what other nodes stored meanwhile, and what is here, in place of failing with ErrStale.
	Merge bool
}

// Push stores what was changed in a folder. It does nothing when nothing was. The error is ErrFenced when another node
// took the session over, ErrStale when another changed it since it was brought, and ErrRemoved.
func (s *Sessions) Push(ctx context.Context, id, dir string, p Push) (*Manifest, error) {
	for {
		m, err := s.push(ctx, id, dir, p)
		if !errors.Is(err, ErrStale) || !p.Merge {
			return m, err
		}
	}
}

func (s *Sessions) push(ctx context.Context, id, dir string, p Push) (*Manifest, error) {
	st := StateOf(dir)
	last, err := s.Newest(ctx, id, st.Manifest)
	if err != nil {
		return nil, err
	}
	if p.Held {
		if err := s.holds(last, &st, p.Fence); err != nil {
			return nil, err
		}
		st.Held, st.Fence, st.Lost = true, p.Fence, false
	}
	if last != nil && (st.Manifest == nil || st.Manifest.Number != last.Number) {
		if !p.Merge {
			return nil, fmt.Errorf("%w: %s", ErrStale, id)
		}
		if err := s.bring(ctx, last, &st, dir, false); err != nil {
			return nil, err
		}
	}
	next := &Manifest{
		Version: form,
		Session: id,
		Number:  1,
		Fence:   p.Fence,
		Node:    s.node,
		At:      time.Now().UTC().Truncate(time.Millisecond),
		Whole:   p.Whole,
		Flying:  p.Flying,
	}
	if last != nil {
		next.Number = last.Number + 1
		if !p.Held {
			next.Fence, next.Whole, next.Flying = last.Fence, last.Whole, last.Flying
		}
	}
	changed, err := s.storeFiles(ctx, next, &st, dir, p)
	if err != nil {
		return nil, err
	}
	if last != nil && !changed && next.Whole == last.Whole && next.Flying == last.Flying && next.Fence == last.Fence {
		return last, st.Write(dir)
	}
	if err := s.create(ctx, next); err != nil {
		return nil, err
	}
	st.Manifest, st.Held = next, st.Held && !next.Whole
	if err := st.Write(dir); err != nil {
		return nil, err
	}
	err = s.tidy(ctx, last, next, p.Purge || next.Whole && (last == nil || !last.Whole))
	if errors.Is(err, depot.ErrAway) && !p.Purge {
		err = nil // it takes room until the session is tidied again
	}
	return next, err
}

// holds makes sure that no other node has taken a session over.
func (s *Sessions) holds(last *Manifest, st *State, fence uint64) error {
	switch {
	case last == nil:
		return nil
	case last.Fence > fence:
		return fmt.Errorf("%w: %s is held by %s", ErrFenced, last.Session, last.Node)
	case last.Fence == fence && last.Node != s.node && st.Manifest == nil:
		return fmt.Errorf("%w: a session called %s is of %s", ErrFenced, last.Session, last.Node)
	}
	return nil
}

// storeFiles stores the files that were changed, and lists all in the manifest.
func (s *Sessions) storeFiles(ctx context.Context, next *Manifest, st *State, dir string, p Push) (bool, error) {
	is, err := eligible(dir)
	if err != nil {
		return false, err
	}
	changed, looks := false, map[string]Look{}
	for name, info := range is {
		before := st.Manifest.file(name)
		look, known := st.Looks[name]
		if known && before != nil && look.same(lookOf(info)) {
			next.Files, looks[name] = append(next.Files, *before), look
			continue
		}
		if record.IsPart(name) && before == nil && (p.Parts == nil || !p.Parts(name)) {
			continue
		}
		f, stored, err := s.storeFile(ctx, next, name, filepath.Join(dir, filepath.FromSlash(name)), before)
		if err != nil {
			return false, err
		}
		next.Files, looks[name] = append(next.Files, f), lookOf(info)
		changed = changed || stored
	}
	if st.Manifest != nil {
		for i := range st.Manifest.Files {
			f := &st.Manifest.Files[i]
			_, here := is[f.Name]
			_, otherwise := looks[twin(f.Name)]
			switch {
			case here:
			case record.IsPart(f.Name) && !otherwise: // no recording is lost because it is not here
				next.Files = append(next.Files, *f)
			default:
				changed = true
			}
		}
	}
	slices.SortFunc(next.Files, func(a, b File) int { return strings.Compare(a.Name, b.Name) })
	st.Looks = looks
	return changed, nil
}

// storeFile stores a file unless its content is stored already.
func (s *Sessions) storeFile(ctx context.Context, next *Manifest, name, path string, before *File) (File, bool, error) {
	sum, err := sumOf(path)
	if err != nil {
		return File{}, false, err
	}
	if before != nil && before.Sum == sum {
		return *before, false, nil
	}
	f, err := os.Open(path)
	if err != nil {
		return File{}, false, err
	}
	defer f.Close() // it was only read
	info, err := f.Stat()
	if err != nil {
		return File{}, false, err
	}
	object := fmt.Sprintf("%08d-%s", next.Number, sum)
	o, err := s.depot.Put(ctx, files+next.Session+"/"+object, f, info.Size())
	if err != nil {
		return File{}, false, err
	}
	if o.Sum != sum {
		return File{}, false, fmt.Errorf("%s was changed while it was stored; it is tried again", path)
	}
	return File{Name: name, Size: o.Size, Sum: sum, Modified: info.ModTime().UTC(), Object: object}, true, nil
}

// manifestsKept is how many states of a session stay: so that nobody who read the last of them long ago creates one
// that is older than the newest.
const manifestsKept = 16

// tidy removes what a manifest does not name any more and the last one did; all: also what others left.
func (s *Sessions) tidy(ctx context.Context, last, m *Manifest, all bool) error {
	var gone []string
	if m.Number > manifestsKept {
		gone = append(gone, manifestName(m.Session, m.Number-manifestsKept))
	}
	named, more := map[string]bool{}, false
	for i := range m.Files {
		named[m.Files[i].Object] = true
		more = more || record.IsPart(m.Files[i].Name) && last.file(m.Files[i].Name) == nil
	}
	prefix := files + m.Session + "/"
	if last != nil {
		for i := range last.Files {
			if object := last.Files[i].Object; !named[object] {
				gone = append(gone, prefix+object)
			}
		}
	}
	if all {
		err := s.depot.List(ctx, prefix, func(o depot.Object) error {
			object := strings.TrimPrefix(o.Name, prefix)
			number, _, _ := strings.Cut(object, "-")
			if !named[object] && numberOf(number) <= m.Number { // else it is of a change under way
				gone = append(gone, o.Name)
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	if more || all {
		err := s.depot.List(ctx, pieces+m.Session+"/", func(o depot.Object) error {
			p, fence, ok := pieceOf(o)
			name := record.PartName(p.Part)
			if ok && fence <= m.Fence && (m.Whole || m.Has(name)) {
				gone = append(gone, o.Name)
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	return s.delete(ctx, gone)
}
