// Package made has a depot made, and found to be the right one, before it is used.
package made

import (
	"context"
	"io"
	"sync/atomic"
	"time"

	"halfturn/coach/archive/depot"
)

// A made depot is one that is made before it is used.
type made struct {
	depot.Depot
	make func(context.Context) error
	is   atomic.Bool
}

var (
	_ depot.Depot   = (*made)(nil)
	_ depot.Sweeper = (*made)(nil)
)

// Of returns a depot that is made, and found to be the right one, before anything is asked of it: it may have been
// away when the program started. Until making it succeeds each call fails with the error of that.
func Of(d depot.Depot, make func(context.Context) error) depot.Depot {
	return &made{Depot: d, make: make}
}

func (m *made) ready(ctx context.Context) error {
	if m.is.Load() {
		return nil
	}
	if err := m.make(ctx); err != nil {
		return err
	}
	m.is.Store(true)
	return nil
}

// Put is that of the depot.
func (m *made) Put(ctx context.Context, name string, r io.Reader, size int64) (depot.Object, error) {
	if err := m.ready(ctx); err != nil {
		return depot.Object{}, err
	}
	return m.Depot.Put(ctx, name, r, size)
}

// Create is that of the depot.
func (m *made) Create(ctx context.Context, name string, r io.Reader, size int64) (depot.Object, error) {
	if err := m.ready(ctx); err != nil {
		return depot.Object{}, err
	}
	return m.Depot.Create(ctx, name, r, size)
}

// Open is that of the depot.
func (m *made) Open(ctx context.Context, name string, from, length int64) (io.ReadCloser, error) {
	if err := m.ready(ctx); err != nil {
		return nil, err
	}
	return m.Depot.Open(ctx, name, from, length)
}

// Stat is that of the depot.
func (m *made) Stat(ctx context.Context, name string) (depot.Object, error) {
	if err := m.ready(ctx); err != nil {
		return depot.Object{}, err
	}
	return m.Depot.Stat(ctx, name)
}

// List is that of the depot.
func (m *made) List(ctx context.Context, prefix string, each func(depot.Object) error) error {
	if err := m.ready(ctx); err != nil {
		return err
	}
	return m.Depot.List(ctx, prefix, each)
}

// Delete is that of the depot.
func (m *made) Delete(ctx context.Context, name string) error {
	if err := m.ready(ctx); err != nil {
		return err
	}
	return m.Depot.Delete(ctx, name)
}

// Sweep is that of the depot, where it has one.
func (m *made) Sweep(ctx context.Context, before time.Time) (int, error) {
	s, ok := m.Depot.(depot.Sweeper)
	if !ok {
		return 0, nil
	}
	if err := m.ready(ctx); err != nil {
		return 0, err
	}
	return s.Sweep(ctx, before)
}
