package remote

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"

	"halfturn/coach/archive/depot"
	"halfturn/stream/record"
)

// A Piece is a part of a file of a recording that is being flown.
type Piece struct {
	Part   int // number of the file, from 1
	Offset int64
	Size   int64
}

func pieceName(id string, fence uint64, p Piece) string {
	return fmt.Sprintf("%s%s/%020d/%06d-%015d", pieces, id, fence, p.Part, p.Offset)
}

// pieceOf reads the name of a piece, with the fence it is under.
func pieceOf(o depot.Object) (p Piece, fence uint64, ok bool) {
	part, offset, cut := strings.Cut(path.Base(o.Name), "-")
	n, err := strconv.Atoi(part)
	at, failed := strconv.ParseInt(offset, 10, 64)
	fence, bad := strconv.ParseUint(path.Base(path.Dir(o.Name)), 10, 64)
	return Piece{n, at, o.Size}, fence, cut && errors.Join(err, failed, bad) == nil
}

// Pieces lists the pieces of a session under a fence, by part and offset.
func (s *Sessions) Pieces(ctx context.Context, id string, fence uint64) (all []Piece, err error) {
	err = s.depot.List(ctx, fmt.Sprintf("%s%s/%020d/", pieces, id, fence), func(o depot.Object) error {
		if p, _, ok := pieceOf(o); ok {
			all = append(all, p)
		}
		return nil
	})
	return all, err
}

// Store stores a piece of a file. A piece that is there stays as it is: it is of the same fence, and so of this node,
// which never records a place in a file twice.
func (s *Sessions) Store(ctx context.Context, id string, fence uint64, p Piece, r io.Reader) error {
	_, err := s.depot.Create(ctx, pieceName(id, fence, p), r, p.Size)
	if errors.Is(err, depot.ErrExists) {
		return nil
	}
	return err
}

// append adds what a copy lacks of a recording that is being flown elsewhere.
func (s *Sessions) append(ctx context.Context, m *Manifest, dir string) error {
	all, err := s.Pieces(ctx, m.Session, m.Fence)
	if err != nil {
		return err
	}
	var out *os.File
	defer func() {
		if out != nil {
			_ = out.Close() // what it lacks is read again
		}
	}()
	part, have := 0, int64(0)
	for m.Has(record.PartName(part + 1)) {
		part++
	}
	for _, p := range all {
		name := record.PartName(p.Part)
		if m.Has(name) {
			continue // it is complete
		}
		if p.Part > part+1 { // the one before was completed meanwhile
			return fmt.Errorf("%w: a piece of part %d of %s", depot.ErrNotFound, part+1, m.Session)
		}
		if p.Part != part {
			if out != nil {
				if err := out.Close(); err != nil {
					return err
				}
			}
			out, err = os.OpenFile(filepath.Join(dir, name), os.O_CREATE|os.O_WRONLY|os.O_APPEND, 0o640)
			if err != nil {
				return err
			}
			var info fs.FileInfo
			if info, err = out.Stat(); err != nil {
				return err
			}
			part, have = p.Part, info.Size()
		}
		switch {
		case p.Offset+p.Size <= have:
			continue
		case p.Offset > have:
			return nil // one is missing: what follows cannot be read
		}
		n, err := s.copyPiece(ctx, m, p, have-p.Offset, out)
		have += n
		if err != nil {
			return err
		}
	}
	return nil
}

// copyPiece adds a piece to a file, from a place on.
func (s *Sessions) copyPiece(ctx context.Context, m *Manifest, p Piece, from int64, out io.Writer) (int64, error) {
	in, err := s.depot.Open(ctx, pieceName(m.Session, m.Fence, p), from, -1)
	if err != nil {
		return 0, err
	}
	n, err := io.Copy(out, in)
	return n, errors.Join(err, in.Close())
}
