// Package directory keeps a depot in a directory, which several nodes of one machine or of a shared file system may
// use. It is the reference for the other engines, and what tests use.
package directory

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
	"slices"
	"strings"
	"time"

	"halfturn/coach/archive/depot"
)

// A Directory is a depot. Its objects are files; the names of those that are being written begin with a dot.
type Directory struct{ dir string }

var (
	_ depot.Depot   = (*Directory)(nil)
	_ depot.Sweeper = (*Directory)(nil)
)

// Open makes a directory where there is none.
func Open(dir string) (*Directory, error) {
	if err := os.MkdirAll(dir, 0o750); err != nil {
		return nil, fmt.Errorf("the depot cannot be made: %w", err)
	}
	return &Directory{dir}, nil
}

// storing begins the names of files that are being written.
const storing = ".storing-"

// String names the directory.
func (d *Directory) String() string { return d.dir }

// file is where an object lies.
func (d *Directory) file(name string) (string, error) {
	if err := depot.CheckName(name); err != nil {
		return "", err
	}
	return filepath.Join(d.dir, filepath.FromSlash(name)), nil
}

// Put stores an object in the place of another.
func (d *Directory) Put(ctx context.Context, name string, r io.Reader, size int64) (depot.Object, error) {
	return d.store(ctx, name, r, size, os.Rename)
}

// Create stores an object where there is none.
func (d *Directory) Create(ctx context.Context, name string, r io.Reader, size int64) (depot.Object, error) {
	return d.store(ctx, name, r, size, func(from, to string) error {
		return errors.Join(os.Link(from, to), os.Remove(from))
	})
}

func (d *Directory) store(
	ctx context.Context, name string, r io.Reader, size int64, place func(from, to string) error,
) (depot.Object, error) {
	to, err := d.file(name)
	if err != nil {
		return depot.Object{}, err
	}
	if err := d.there(); err != nil {
		return depot.Object{}, err
	}
	if err := os.MkdirAll(filepath.Dir(to), 0o750); err != nil {
		return depot.Object{}, d.plain(name, err)
	}
	f, err := os.CreateTemp(filepath.Dir(to), storing+"*")
	if err != nil {
		return depot.Object{}, d.plain(name, err)
	}
	sum := sha256.New()
	n, err := io.Copy(io.MultiWriter(f, sum), &bounded{ctx, r})
	if err == nil && size >= 0 && n != size {
		err = fmt.Errorf("object %s has %d bytes; must be %d", name, n, size)
	}
	if err = errors.Join(err, f.Sync(), f.Close()); err == nil {
		err = place(f.Name(), to)
	}
	if err != nil {
		_ = os.Remove(f.Name()) // it has a name that nobody looks for
		return depot.Object{}, d.plain(name, err)
	}
	o, err := d.stat(name, to)
	o.Sum = hex.EncodeToString(sum.Sum(nil))
	return o, err
}

// there makes sure that the directory exists: in the place of a disk that was taken out nothing is made.
func (d *Directory) there() error {
	if info, err := os.Stat(d.dir); err != nil || !info.IsDir() {
		return fmt.Errorf("%w: the directory %s is gone; bring it back", depot.ErrAway, d.dir)
	}
	return nil
}

// plain maps an error of the file system.
func (d *Directory) plain(name string, err error) error {
	if away := d.there(); away != nil {
		return away
	}
	switch {
	case errors.Is(err, fs.ErrExist):
		return fmt.Errorf("%w: %s in %s", depot.ErrExists, name, d.dir)
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%w: %s in %s", depot.ErrNotFound, name, d.dir)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%w: %s in %s; make the directory writable to this program", depot.ErrDenied, name, d.dir)
	}
	return err
}

// Open reads a part of an object.
func (d *Directory) Open(ctx context.Context, name string, from, length int64) (io.ReadCloser, error) {
	file, err := d.file(name)
	if err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	f, err := os.Open(file)
	if err != nil {
		return nil, d.plain(name, err)
	}
	if _, err := f.Seek(max(from, 0), io.SeekStart); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	var r io.Reader = &bounded{ctx, f}
	if length >= 0 {
		r = io.LimitReader(r, length)
	}
	return struct {
		io.Reader
		io.Closer
	}{r, f}, nil
}

// bounded reads until the context ends.
type bounded struct {
	ctx context.Context
	r   io.Reader
}

func (b *bounded) Read(p []byte) (int, error) {
	if err := b.ctx.Err(); err != nil {
		return 0, err
	}
	return b.r.Read(p)
}

// Stat reads an object for its sum.
func (d *Directory) Stat(ctx context.Context, name string) (depot.Object, error) {
	r, err := d.Open(ctx, name, 0, -1)
	if err != nil {
		return depot.Object{}, err
	}
	sum := sha256.New()
	_, err = io.Copy(sum, r)
	if err = errors.Join(err, r.Close()); err != nil {
		return depot.Object{}, err
	}
	file, _ := d.file(name) // it was opened
	o, err := d.stat(name, file)
	o.Sum = hex.EncodeToString(sum.Sum(nil))
	return o, err
}

func (d *Directory) stat(name, file string) (depot.Object, error) {
	info, err := os.Stat(file)
	if err != nil {
		return depot.Object{}, d.plain(name, err)
	}
	return depot.Object{Name: name, Size: info.Size(), Stored: info.ModTime()}, nil
}

// Sweep removes what programs that died were storing before a time.
func (d *Directory) Sweep(ctx context.Context, before time.Time) (n int, err error) {
	err = filepath.WalkDir(d.dir, func(file string, e fs.DirEntry, err error) error {
		if err = errors.Join(err, ctx.Err()); err != nil || e.IsDir() || !strings.HasPrefix(e.Name(), storing) {
			return err
		}
		info, err := e.Info()
		if err == nil && info.ModTime().Before(before) {
			n++
			err = os.Remove(file)
		}
		return err
	})
	return n, err
}

// List lists objects.
func (d *Directory) List(ctx context.Context, prefix string, each func(depot.Object) error) error {
	if err := d.there(); err != nil {
		return err
	}
	var all []depot.Object
	dir, _, deep := strings.Cut(prefix, "/")
	root := d.dir
	if i := strings.LastIndexByte(prefix, '/'); deep && i >= 0 && depot.CheckName(prefix[:i]) == nil {
		root = filepath.Join(d.dir, filepath.FromSlash(prefix[:i]))
	} else if deep && dir == "" {
		return nil // no name begins with a slash
	}
	err := filepath.WalkDir(root, func(file string, e fs.DirEntry, err error) error {
		if err = errors.Join(err, ctx.Err()); err != nil || e.IsDir() || strings.HasPrefix(e.Name(), storing) {
			if errors.Is(err, fs.ErrNotExist) {
				return nil // deleted meanwhile
			}
			return err
		}
		rel, err := filepath.Rel(d.dir, file)
		name := filepath.ToSlash(rel)
		if err != nil || !strings.HasPrefix(name, prefix) {
			return err
		}
		o, err := d.stat(name, file)
		if errors.Is(err, depot.ErrNotFound) {
			return nil
		}
		all = append(all, o)
		return err
	})
	if err != nil {
		return err
	}
	slices.SortFunc(all, func(a, b depot.Object) int { return strings.Compare(a.Name, b.Name) })
	for _, o := range all {
		if err := errors.Join(ctx.Err(), each(o)); err != nil {
			return err
		}
	}
	return nil
}

// Delete removes an object.
func (d *Directory) Delete(ctx context.Context, name string) error {
	file, err := d.file(name)
	if err != nil {
		return err
	}
	if err := errors.Join(ctx.Err(), d.there()); err != nil {
		return err
	}
	if err := os.Remove(file); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return d.plain(name, err)
	}
	return nil
}
