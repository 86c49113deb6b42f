package archive

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"time"

	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/disk"
	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/remote"
)

// An Eviction says how much of what is stored in the depot is kept here too. Zero values keep everything.
type Eviction struct {
	Age  time.Duration // what nobody asked for since goes
	Size int64         // bytes; what nobody asked for longest goes until the rest takes no more
}

// evicting begins the names of folders that are being removed here, and stay in the depot.
const evicting = ".evicting-"

// evicted removes what an interrupted eviction left.
func (s *shared) evicted() error {
	left, err := filepath.Glob(filepath.Join(folder.Globbed(s.copies), evicting+"*"))
	for _, dir := range left {
		err = errors.Join(err, os.RemoveAll(dir))
	}
	return err
}

// Evict removes folders here that are whole in the depot, those first that nobody asked for longest, and never what is
// not stored. It returns how many.
func (a *Archive) Evict(ctx context.Context, e Eviction) (n int, err error) {
	if a.shared == nil {
		return 0, nil
	}
	if err := a.dropLost(ctx); err != nil && !errors.Is(err, depot.ErrAway) {
		return 0, err
	}
	if e == (Eviction{}) {
		return 0, nil
	}
	all, total, err := a.evictable()
	if err != nil {
		return 0, err
	}
	for _, c := range all {
		if ctx.Err() != nil {
			return n, ctx.Err()
		}
		if !(e.Age > 0 && time.Since(c.used) > e.Age || e.Size > 0 && total > e.Size) {
			break
		}
		gone, err := a.shared.evict(c)
		if err != nil {
			return n, err
		}
		if gone {
			n++
			total -= c.bytes
		}
	}
	return n, nil
}

// A cached folder is here and in the depot.
type cached struct {
	id, dir string
	bytes   int64
	used    time.Time
}

// evictable lists what may be removed here, what nobody asked for longest first.
func (a *Archive) evictable() (all []cached, total int64, err error) {
	for _, parent := range []string{a.shared.own, a.shared.copies} {
		ids, err := folder.IDs(parent)
		if err != nil {
			return nil, 0, err
		}
		for _, id := range ids {
			c := cached{id: id, dir: filepath.Join(parent, id)}
			used, ok := remote.Used(c.dir)
			if !ok || remote.Changed(c.dir) {
				continue
			}
			c.used = used
			if c.bytes, err = sizeOf(c.dir); err != nil {
				return nil, 0, err
			}
			total += c.bytes
			all = append(all, c)
		}
	}
	slices.SortFunc(all, func(a, b cached) int { return a.used.Compare(b.used) })
	return all, total, nil
}

// evict removes a folder, unless it was changed or taken since it was looked at.
func (s *shared) evict(c cached) (bool, error) {
	unlock := s.lock(c.id)
	defer unlock()
	if _, ok := remote.Used(c.dir); !ok || remote.Changed(c.dir) {
		return false, nil
	}
	to := filepath.Join(s.copies, evicting+c.id)
	if err := os.Rename(c.dir, to); err != nil {
		return false, disk.IgnoreGone(err)
	}
	s.mu.Lock()
	delete(s.asked, c.id)
	s.mu.Unlock()
	return true, os.RemoveAll(to)
}
