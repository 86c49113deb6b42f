// Package play opens and plays recordings: sessions of Halfturn's own, each a folder, and the captures of other
// programs. Everything that reads a recording reads it through this package, so that all of it finds the same there.
package play

import (
	"context"
	"fmt"
	"io/fs"
	"net/netip"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"halfturn/coach/archive/folder"
	"halfturn/coach/session"
	"halfturn/stream/capture"
	"halfturn/stream/record"
)

// A Recording is a session with all its parts, or one capture file. It can be read any number of times.
type Recording struct {
	Name    string   // for people: of the session, or of the file
	Session string   // its name; "" for a file, also for one that is a part of a session
	Dir     string   // the folder of the session it is of; "" for none
	Files   []string // in the order in which they were written

	heading string           // the comment at its head
	opening *session.Opening // what that says; nil when it is none of ours, or not understood
	before  []string         // files of the session that come before
}

// Open opens the folder of a session, or one file: what kind of recording that is, its content tells. It reads no
// more than the head; what is wrong further on is told by Read and Play.
func Open(ctx context.Context, path string) (*Recording, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	r := &Recording{Name: filepath.Base(path), Files: []string{path}}
	if info.IsDir() {
		if r.Files, err = record.Parts(path); err != nil {
			return nil, err
		}
		if len(r.Files) == 0 {
			return nil, &EmptyError{path}
		}
		if whole, err := filepath.Abs(path); err == nil { // not "."
			r.Name = filepath.Base(whole)
		}
		r.Session, r.Dir = r.Name, path
	} else if dir := filepath.Dir(path); record.IsPart(r.Name) && isSession(ctx, dir) {
		parts, _ := record.Parts(dir) // it is one
		if i := slices.IndexFunc(parts, func(p string) bool { return filepath.Base(p) == r.Name }); i >= 0 {
			r.Dir, r.before = dir, parts[:i]
		}
	}
	// What cannot be read is told when it is read: a later part may be sound.
	if r.heading, err = record.Heading(ctx, r.Files[0]); err != nil && ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if o, ours, err := session.ReadOpening(r.heading); ours && err == nil {
		r.opening = &o
	}
	return r, nil
}

// An EmptyError tells that a folder holds no recording.
type EmptyError struct{ Dir string }

// Error names the folder, and says what was looked for.
func (e *EmptyError) Error() string {
	return fmt.Sprintf("%s: holds no recording; wanted: sessions of Halfturn, or pcap or pcapng files, also "+
		"compressed by gzip or zstd", e.Dir)
}

// Opening returns what the recording says of how it was followed; nil when it is none of Halfturn's.
func (r *Recording) Opening() *session.Opening { return r.opening }

// Heading returns the comment at the head of the recording.
func (r *Recording) Heading() string { return r.heading }

// GoesOn tells whether it is a session that is not over.
func (r *Recording) GoesOn() bool { return r.Session != "" && record.Unfinished(r.Dir) }

// A Reader yields the datagrams of a recording.
type Reader struct {
	*record.Reader
	one   bool // all are of one sender, from whichever port
	first netip.AddrPort
}

// Read reads the recording from its beginning, until the context ends or the limits are passed; nil sets none.
func (r *Recording) Read(ctx context.Context, l *capture.Limits) *Reader {
	if l == nil {
		l = &capture.Limits{}
	}
	return &Reader{Reader: record.ReadWithin(ctx, r.Files, l), one: r.opening != nil}
}

// Next returns the next datagram, io.EOF at the end. A session of Halfturn's own is of one sender, which may have
// been started again and come from another port: all its datagrams have the address of the first.
func (r *Reader) Next() (capture.Datagram, error) {
	d, err := r.Reader.Next()
	if r.one && err == nil {
		if !r.first.IsValid() {
			r.first = d.Source
		}
		d.Source = r.first
	}
	return d, err
}

// Sender is the address that all datagrams of a session of Halfturn's own have, as far as it was read.
func (r *Reader) Sender() netip.AddrPort { return r.first }

// mostEarlier bounds the comments taken over from the parts before.
const mostEarlier = 4096

// earlier reads the comments of the parts before the first file: they tell what was chosen when it begins.
func (r *Recording) earlier(ctx context.Context) (comments []string, err error) {
	if len(r.before) == 0 || r.opening == nil {
		return nil, nil
	}
	reader := record.ReadWithin(ctx, r.before, &capture.Limits{})
	defer reader.Close() // it was only read
	for {
		d, err := reader.Next()
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if err != nil { // also where they are damaged: what is known, is known
			return append(comments, reader.Rest()...), nil
		}
		comments = append(comments, d.Comments...)
		comments = comments[max(0, len(comments)-mostEarlier):]
	}
}

// Find lists the recordings a path stands for: itself when it is a file or a session's folder, else all in the folder,
// in order of their names. Names that begin with a dot are passed over, and so is all that is no regular file or link
// to one; a link to a folder is not followed. A path that cannot be looked at is listed as it is, for Open to tell.
func Find(ctx context.Context, path string) ([]string, error) {
	info, err := os.Stat(path)
	if err != nil || !info.IsDir() || isSession(ctx, path) {
		return []string{path}, nil
	}
	var found []string
	err = filepath.WalkDir(path, func(name string, d fs.DirEntry, err error) error {
		switch {
		case ctx.Err() != nil:
			return ctx.Err()
		case err != nil:
			return err
		case name == path:
			return nil
		case strings.HasPrefix(d.Name(), ".") && d.IsDir():
			return fs.SkipDir
		case strings.HasPrefix(d.Name(), "."):
			return nil
		case d.IsDir() && isSession(ctx, name):
			found = append(found, name)
			return fs.SkipDir
		case !d.IsDir() && isCapture(name):
			found = append(found, name)
		}
		return nil
	})
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil:
		return nil, fmt.Errorf("the folder cannot be read: %w", err)
	case len(found) == 0:
		return nil, &EmptyError{path}
	}
	slices.Sort(found)
	return found, nil
}

// isSession tells whether a folder is that of a session with a recording: its files are parts of one recording.
func isSession(ctx context.Context, dir string) bool {
	parts, err := record.Parts(dir)
	if err != nil || len(parts) == 0 {
		return false
	}
	if folder.IsSession(dir) {
		return true
	}
	for _, name := range parts { // the first may be torn
		heading, err := record.Heading(ctx, name)
		if _, ours, _ := session.ReadOpening(heading); ours {
			return true
		}
		if err == nil {
			return false
		}
	}
	return false
}

// isCapture tells whether a file in a folder is taken for a recording: by its content, or by its name, so that one
// that is damaged at its beginning is told of.
func isCapture(name string) bool {
	if info, err := os.Stat(name); err != nil || !info.Mode().IsRegular() {
		return false
	}
	base := strings.TrimSuffix(strings.TrimSuffix(name, ".gz"), ".zst")
	if strings.HasSuffix(base, ".pcap") || strings.HasSuffix(base, ".pcapng") {
		return true
	}
	f, err := os.Open(name)
	if err != nil {
		return false
	}
	defer f.Close()
	return capture.Recognize(f)
}
