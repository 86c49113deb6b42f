package remote

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
	"time"

	"halfturn/coach/archive/depot"
)

// What is answered of a session.
var (
	// ErrRemoved says that a session was removed, on whichever node.
	ErrRemoved = errors.New("the session was removed")
	// ErrFenced says that another node has taken a session over: what this one has of it is not stored.
	ErrFenced = errors.New("another node has taken the session over")
	// ErrStale says that a session was changed since the folder was brought: it must be brought again.
	ErrStale = errors.New("the session was changed by another node meanwhile")
)

// form is the version of manifests.
const form = 1

// A Manifest is the state of a session folder.
type Manifest struct {
	Version int       `json:"version"`
	Session string    `json:"session"`
	Number  uint64    `json:"number"` // of this state, from 1
	Fence   uint64    `json:"fence"`  // of the lease of the node that holds the session, or did
	Node    string    `json:"node"`   // that stored it
	At      time.Time `json:"at"`     // by its clock
	// Whole says that all there is of the recording is among the files. Until then the node that flew the session holds
	// it, and the rest of its recording is in pieces.
	Whole  bool   `json:"whole"`
	Flying bool   `json:"flying"` // the session is not over
	Files  []File `json:"files"`  // in the order of their names
}

// A File is one of a session folder.
type File struct {
	Name     string    `json:"name"` // with slashes
	Size     int64     `json:"size"`
	Sum      string    `json:"sha256"`
	Modified time.Time `json:"modified"`
	Object   string    `json:"object"` // its name in the depot, without what is the same for the session
}

// file finds a file by its name; nil when it is not there.
func (m *Manifest) file(name string) *File {
	if m == nil {
		return nil
	}
	byName := func(f File, name string) int { return strings.Compare(f.Name, name) }
	i, ok := slices.BinarySearchFunc(m.Files, name, byName)
	if !ok {
		return nil
	}
	return &m.Files[i]
}

// Has reports whether a file is among those of a manifest; one of a recording also where it is compressed there.
func (m *Manifest) Has(name string) bool { return m.file(name) != nil || m.file(twin(name)) != nil }

// Bytes is how much the files take.
func (m *Manifest) Bytes() (n int64) {
	for i := range m.Files {
		n += m.Files[i].Size
	}
	return n
}

// Sessions are the session folders in a depot. They are safe for concurrent use, except for what takes the folder of a
// session: that is for one caller at a time per folder.
type Sessions struct {
	depot depot.Depot
	node  string
}

// In returns the session folders in a depot, for a node.
func In(d depot.Depot, node string) *Sessions { return &Sessions{d, node} }

// Depot is where they are.
func (s *Sessions) Depot() depot.Depot { return s.depot }

// Node is the name of this node.
func (s *Sessions) Node() string { return s.node }

// Prefixes of the names of objects.
const (
	manifests = "sessions/"
	files     = "files/"
	pieces    = "pieces/"
)

func manifestName(id string, number uint64) string {
	return fmt.Sprintf("%s%s/%08d.json", manifests, id, number)
}

// numberOf is the number in the name of a manifest; 0 in another name.
func numberOf(name string) uint64 {
	n, _ := strconv.ParseUint(strings.TrimSuffix(path.Base(name), ".json"), 10, 64)
	return n
}

// newest lists the manifests of a session, and returns the last; its size is 0 for a session that was removed.
func (s *Sessions) newest(ctx context.Context, id string) (last depot.Object, all []string, err error) {
	err = s.depot.List(ctx, manifests+id+"/", func(o depot.Object) error {
		last, all = o, append(all, o.Name)
		return nil
	})
	return last, all, err
}

// Newest returns the state of a session; nil when the depot has none of it. The error is ErrRemoved for one that was
// removed. Known is a manifest that the caller has: it is returned when it is the newest, and not read again.
func (s *Sessions) Newest(ctx context.Context, id string, known *Manifest) (*Manifest, error) {
	for range triesOfReader {
		last, _, err := s.newest(ctx, id)
		switch {
		case err != nil:
			return nil, err
		case last.Name == "":
			return nil, nil
		case last.Size == 0:
			return nil, fmt.Errorf("%w: %s", ErrRemoved, id)
		case known != nil && known.Number == numberOf(last.Name):
			return known, nil
		}
		m, err := s.read(ctx, last.Name)
		if !errors.Is(err, depot.ErrNotFound) { // else there are many newer ones by now
			return m, err
		}
	}
	return nil, fmt.Errorf("session %s changes faster than it can be read; try again", id)
}

// triesOfReader is how often somebody reads a session who finds it changed meanwhile.
const triesOfReader = 8

func (s *Sessions) read(ctx context.Context, name string) (*Manifest, error) {
	text, err := depot.Read(ctx, s.depot, name)
	if err != nil {
		return nil, err
	}
	m := &Manifest{}
	if err := json.Unmarshal(text, m); err != nil {
		return nil, fmt.Errorf("%s in %s cannot be understood: %w", name, s.depot, err)
	}
	if m.Version > form {
		return nil, fmt.Errorf("%s in %s was written by a newer version of halfturn; update this node", name, s.depot)
	}
	return m, nil
}

// create makes a manifest the newest; ErrStale when there is one of its number.
func (s *Sessions) create(ctx context.Context, m *Manifest) error {
	text, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return err
	}
	text = append(text, '\n')
	_, err = s.depot.Create(ctx, manifestName(m.Session, m.Number), bytes.NewReader(text), int64(len(text)))
	if errors.Is(err, depot.ErrExists) {
		return fmt.Errorf("%w: %s", ErrStale, m.Session)
	}
	return err
}

// All calls each with the ids of the sessions in the depot, in their order, those that were removed not among them.
func (s *Sessions) All(ctx context.Context, each func(id string) error) error {
	var last depot.Object
	session := func() error {
		if last.Size == 0 {
			return nil
		}
		return each(path.Base(path.Dir(last.Name)))
	}
	err := s.depot.List(ctx, manifests, func(o depot.Object) error {
		if last.Name != "" && path.Dir(last.Name) != path.Dir(o.Name) {
			if err := session(); err != nil {
				return err
			}
		}
		last = o
		return nil
	})
	if err != nil {
		return err
	}
	return session()
}

// Newer lists the sessions of which the depot has a newer state than the one of a number, also where they were removed.
func (s *Sessions) Newer(ctx context.Context, than map[string]uint64) (ids []string, err error) {
	err = s.depot.List(ctx, manifests, func(o depot.Object) error {
		id := path.Base(path.Dir(o.Name))
		if n, is := than[id]; is && numberOf(o.Name) > n {
			ids = append(ids, id)
		}
		return nil
	})
	return slices.Compact(ids), err // in the order of their names
}

// Taken reports whether a session of a name is in the depot, or was.
func (s *Sessions) Taken(ctx context.Context, id string) (bool, error) {
	last, _, err := s.newest(ctx, id)
	return last.Name != "", err
}

// Sizes adds up what each session takes in the depot, bytes.
func (s *Sessions) Sizes(ctx context.Context) (map[string]int64, error) {
	sizes := map[string]int64{}
	for _, prefix := range []string{files, pieces} {
		err := s.depot.List(ctx, prefix, func(o depot.Object) error {
			id, _, _ := strings.Cut(strings.TrimPrefix(o.Name, prefix), "/")
			sizes[id] += o.Size
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	return sizes, nil
}

// Remove removes a session for good. When it fails on the way, it is removed for everybody who asks, and Remove can be
// called again to remove the rest.
func (s *Sessions) Remove(ctx context.Context, id string) error {
	for {
		last, _, err := s.newest(ctx, id)
		if err != nil {
			return err
		}
		if last.Name != "" && last.Size == 0 {
			return s.sweep(ctx, id, numberOf(last.Name))
		}
		number := numberOf(last.Name) + 1
		_, err = s.depot.Create(ctx, manifestName(id, number), bytes.NewReader(nil), 0)
		if err != nil && !errors.Is(err, depot.ErrExists) {
			return err
		}
	}
}

// sweep removes everything of a session that was removed, but for what says so.
func (s *Sessions) sweep(ctx context.Context, id string, number uint64) error {
	var gone []string
	for _, prefix := range []string{manifests, files, pieces} {
		err := s.depot.List(ctx, prefix+id+"/", func(o depot.Object) error {
			if o.Name != manifestName(id, number) {
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

func (s *Sessions) delete(ctx context.Context, names []string) error {
	for _, name := range names {
		if err := s.depot.Delete(ctx, name); err != nil {
			return err
		}
	}
	return nil
}
