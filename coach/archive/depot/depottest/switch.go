package depottest

import (
	"context"
	"fmt"
	"io"
	"sync/atomic"

	"halfturn/coach/archive/depot"
)

// A Switch is a depot that can be away.
type Switch struct {
	depot.Depot
	away atomic.Bool
}

// Off says whether it is away from now on.
func (s *Switch) Off(away bool) { s.away.Store(away) }

func (s *Switch) off() error {
	if s.away.Load() {
		return fmt.Errorf("%w: %s", depot.ErrAway, s.Depot)
	}
	return nil
}

// Put is that of the depot.
func (s *Switch) Put(ctx context.Context, name string, r io.Reader, size int64) (depot.Object, error) {
	if err := s.off(); err != nil {
		return depot.Object{}, err
	}
	return s.Depot.Put(ctx, name, r, size)
}

// Create is that of the depot.
func (s *Switch) Create(ctx context.Context, name string, r io.Reader, size int64) (depot.Object, error) {
	if err := s.off(); err != nil {
		return depot.Object{}, err
	}
	return s.Depot.Create(ctx, name, r, size)
}

// Open is that of the depot.
func (s *Switch) Open(ctx context.Context, name string, from, length int64) (io.ReadCloser, error) {
	if err := s.off(); err != nil {
		return nil, err
	}
	return s.Depot.Open(ctx, name, from, length)
}

// List is that of the depot.
func (s *Switch) List(ctx context.Context, prefix string, each func(depot.Object) error) error {
	if err := s.off(); err != nil {
		return err
	}
	return s.Depot.List(ctx, prefix, each)
}

// Delete is that of the depot.
func (s *Switch) Delete(ctx context.Context, name string) error {
	if err := s.off(); err != nil {
		return err
	}
	return s.Depot.Delete(ctx, name)
}
