package outbox

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"github.com/klauspost/compress/zstd"

	"halfturn/coach/archive/folder"
	"halfturn/stream/record"
	"halfturn/web/share/link"
)

// Next is the next message of the back lane; nil when nothing can be sent now. The error names a file that cannot be
// read.
func (o *Outbox) Next() (link.Message, error) {
	o.mu.Lock()
	sessions := slices.Clone(o.sessions)
	o.mu.Unlock()
	for _, p := range sessions {
		m, err := o.of(p)
		if err != nil {
			o.set(p, func() { p.failed = true }) // on this link
		}
		if m != nil || err != nil {
			return m, err
		}
	}
	return nil, nil
}

// of is the next message about a session.
func (o *Outbox) of(p *parcel) (link.Message, error) {
	o.mu.Lock()
	now := *p
	o.mu.Unlock()
	dir := filepath.Join(o.dir, p.id)
	switch {
	case now.failed || now.finished && !now.done || now.begun && !now.known || now.asked && now.had.part == 0:
		return nil, nil // an answer is waited for
	case !now.asked:
		return o.offer(p, dir)
	case !now.known:
		return o.begin(p, dir)
	}
	if m, err := o.added(p, now, dir); m != nil || err != nil {
		return m, err
	}
	if now.done {
		return nil, nil
	}
	return o.content(p, now, dir)
}

// set changes a session that is being sent.
func (o *Outbox) set(p *parcel, change func()) {
	o.mu.Lock()
	defer o.mu.Unlock()
	change()
}

// offer asks how much the school has of a session, once something of it is on the disk.
func (o *Outbox) offer(p *parcel, dir string) (link.Message, error) {
	if _, err := os.Stat(filepath.Join(dir, folder.NotesFile)); err != nil {
		if _, gone := os.Stat(dir); p.over && errors.Is(gone, fs.ErrNotExist) {
			o.remove(p.id) // it was deleted
		}
		return nil, nil
	}
	o.set(p, func() { p.asked = true })
	return &link.Offer{Session: p.id}, nil
}

// begin describes a session.
func (o *Outbox) begin(p *parcel, dir string) (link.Message, error) {
	r := folder.Reader{Tell: func(string) {}}
	s := r.Stored(dir, false)
	if s.Why != nil {
		return nil, s.Why
	}
	entry, err := json.Marshal(&s.Entry)
	if err != nil {
		return nil, err
	}
	o.set(p, func() { p.begun = true })
	return &link.Begin{Session: p.id, Entry: entry}, nil
}

// content is the next piece of the recording, or what comes after the last one.
func (o *Outbox) content(p *parcel, now parcel, dir string) (link.Message, error) {
	at := now.to
	name, part := partFrom(dir, at.part)
	switch {
	case part == 0 || part > now.part:
		return o.finish(p, now, dir)
	case part > at.part: // one was removed
		at = place{part: part}
	case now.whole == part: // the school checks it
		return nil, nil
	}
	if now.had.part == part && at.size-now.had.size >= window {
		return nil, nil
	}
	most := int64(link.MostPiece)
	if part == now.part {
		most = min(most, now.size-at.size)
	}
	if most <= 0 {
		return nil, nil
	}
	b, err := p.reader.read(name, at.size, int(most))
	switch {
	case err != nil:
		return nil, err
	case len(b) == 0 && part == now.part: // shorter than it was: the disk lies
		return nil, nil
	case len(b) == 0:
		return o.whole(p, name, part)
	}
	o.set(p, func() {
		if p.to == now.to { // otherwise the school wants another place
			p.to = place{part, at.size + int64(len(b))}
		}
	})
	return &link.Piece{Session: p.id, Part: part, Offset: at.size, Bytes: b}, nil
}

// partFrom finds the first file of a recording from a number on; 0 when there is none.
func partFrom(dir string, number int) (name string, part int) {
	parts, err := record.Parts(dir)
	if err != nil {
		return "", 0
	}
	for _, name := range parts {
		if n := record.PartNumber(name); n >= number {
			return name, n
		}
	}
	return "", 0
}

// whole says that a file was sent to its end.
func (o *Outbox) whole(p *parcel, name string, part int) (link.Message, error) {
	p.reader.close()
	f, err := openPart(name)
	if err != nil {
		return nil, err
	}
	h := sha256.New()
	size, err := io.Copy(h, f)
	if err = errors.Join(err, f.Close()); err != nil {
		return nil, err
	}
	o.set(p, func() { p.whole = part })
	return &link.Whole{Session: p.id, Part: part, Size: size, SHA256: hex.EncodeToString(h.Sum(nil))}, nil
}

// finish says that a session is over.
func (o *Outbox) finish(p *parcel, now parcel, dir string) (link.Message, error) {
	if !now.over || now.had.before(now.to) {
		return nil, nil
	}
	notes, err := folder.ReadNotes(dir)
	if err != nil {
		return nil, err
	}
	if notes == nil || notes.Ended.IsZero() {
		return nil, nil // it is being written
	}
	o.set(p, func() { p.finished = true })
	return &link.Finish{Session: p.id, Ended: notes.Ended}, nil
}

// A partReader reads the file of a recording from one place to the next.
type partReader struct {
	name string
	file io.ReadCloser
	at   int64
	buf  []byte
}

// read returns up to most bytes from an offset, without compression; none at the end. They are valid until the next
// read. A file that is not compressed is not kept open, because it may be compressed meanwhile.
func (r *partReader) read(name string, offset int64, most int) ([]byte, error) {
	if r.file == nil || r.name != name || r.at != offset {
		r.close()
		f, err := openPart(name)
		if err != nil {
			return nil, err
		}
		r.name, r.file = name, f
		if s, ok := f.(io.Seeker); ok {
			_, err = s.Seek(offset, io.SeekStart)
		} else {
			_, err = io.CopyN(io.Discard, f, offset)
		}
		if err != nil {
			r.close()
			if errors.Is(err, io.EOF) { // the school has more than there is
				return nil, nil
			}
			return nil, err
		}
		r.at = offset
	}
	if cap(r.buf) < link.MostPiece {
		r.buf = make([]byte, link.MostPiece)
	}
	n, err := io.ReadFull(r.file, r.buf[:most])
	if errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF) {
		err = nil
	}
	r.at += int64(n)
	if _, plain := r.file.(*os.File); plain || err != nil {
		r.close()
	}
	return r.buf[:n], err
}

func (r *partReader) close() {
	if r.file != nil {
		_ = r.file.Close() // was read only
	}
	r.file = nil
}

// openPart opens a file of a recording, to be read without its compression.
func openPart(name string) (io.ReadCloser, error) {
	f, err := os.Open(name)
	if err != nil || filepath.Ext(name) != ".zst" {
		return f, err
	}
	z, err := zstd.NewReader(f, zstd.WithDecoderConcurrency(1), zstd.WithDecoderLowmem(true))
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return &packed{z, f}, nil
}

// packed is a compressed file.
type packed struct {
	*zstd.Decoder
	file *os.File
}

// Close closes both.
func (p *packed) Close() error {
	p.Decoder.Close()
	return p.file.Close()
}
