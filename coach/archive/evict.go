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
	"halfturn/coach/logbook"
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

// Evict removes folders here of sessions that another node has removed, and then those that are whole in the depot,
// those first that nobody asked for longest, and never what is not stored. It returns how many.
func (a *Archive) Evict(ctx context.Context, e Eviction) (n int, err error) {
	if a.shared == nil {
		return 0, nil
	}
	if err := a.dropLost(ctx); err != nil && !errors.Is(err, depot.ErrAway) {
		return 0, err
	}
	if n, err = a.dropRemoved(ctx); e == (Eviction{}) || err != nil && !errors.Is(err, depot.ErrAway) {
		return n, err
	}
	all, total, err := a.evictable()
	if err != nil {
		return n, err
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

// dropRemoved removes what is left here of sessions that are removed everywhere: retention or somebody's wish to be
// forgotten took them, on another node.
func (a *Archive) dropRemoved(ctx context.Context) (n int, err error) {
	all, err := a.shared.cached()
	for _, c := range all {
		_, asked := ask(a, func(b logbook.Book) (int, error) { return b.Legs(ctx, c.id) })
		var none *logbook.NotFound
		if asked == nil {
			continue
		}
		if !errors.As(asked, &none) {
			return n, errors.Join(err, asked)
		}
		if _, why := a.shared.Newest(ctx, c.id, nil); !errors.Is(why, remote.ErrRemoved) {
			continue // it is only left out of the logbook, or that is not known now
		}
		gone, failed := a.shared.evict(c)
		if err = errors.Join(err, failed); gone {
			n++
		}
	}
	return n, err
}

// DropOld removes folders here of sessions that other nodes have changed since they were brought or stored: what was
// taken out of them, such as a name, is not to stay here until somebody asks for the session. It lists the whole depot.
func (a *Archive) DropOld(ctx context.Context) (n int, err error) {
	if a.shared == nil {
		return 0, nil
	}
	all, err := a.shared.cached()
	if err != nil || len(all) == 0 {
		return 0, err
	}
	numbers, folders := map[string]uint64{}, map[string]cached{}
	for _, c := range all {
		if m := remote.StateOf(c.dir).Manifest; m != nil {
			numbers[c.id], folders[c.id] = m.Number, c
		}
	}
	old, err := a.shared.Newer(ctx, numbers)
	for _, id := range old {
		gone, failed := a.shared.evict(folders[id])
		if err = errors.Join(err, failed); gone {
			n++
		}
	}
	return n, err
}

// cached lists the folders here that this node does not hold.
func (s *shared) cached() (all []cached, err error) {
	for _, parent := range []string{s.own, s.copies} {
		ids, err := folder.IDs(parent)
		if err != nil {
			return nil, err
		}
		for _, id := range ids {
			c := cached{id: id, dir: filepath.Join(parent, id)}
			if used, ok := remote.Used(c.dir); ok && !remote.Changed(c.dir) {
				c.used = used
				all = append(all, c)
			}
		}
	}
	return all, nil
}

// A cached folder is here and in the depot.
type cached struct {
	id, dir string
	bytes   int64
	used    time.Time
}

// evictable lists what may be removed here, what nobody asked for longest first.
func (a *Archive) evictable() (all []cached, total int64, err error) {
	all, err = a.shared.cached()
	for i := range all {
		c := &all[i]
		if c.bytes, err = sizeOf(c.dir); err != nil {
			return nil, 0, err
		}
		total += c.bytes
	}
	slices.SortFunc(all, func(a, b cached) int { return a.used.Compare(b.used) })
	return all, total, err
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
