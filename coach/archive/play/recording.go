// Package play opens and plays recordings: sessions of Halfturn's own, one folder per session, and captures by other
// programs. Everything that reads a recording reads it through this package, so that all of it sees the same.
//
// A recording of Halfturn's own says how it was followed: its station, its settings, the cards chosen at its beginning,
// and each command after that, in the stream. It is one session of one sender, whichever port its simulator came back
// with. A capture by another program says nothing: its senders are told apart by address, a long silence begins another
// session, and the options of the caller apply. They also apply where the cards that a recording names no longer exist;
// [Player.Missing] then says why.
package play

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"net/netip"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"halfturn/coach/archive/folder"
	"halfturn/coach/playback"
	"halfturn/stream/capture"
	"halfturn/stream/record"
	"halfturn/stream/textlog"
)

// A Recording is a session with all its parts, one capture file, or one text log. It can be read any number of times.
type Recording struct {
	Name    string   // for people: of the session, or of the file
	Session string   // its name; "" for a file, also for one that is a part of a session
	Dir     string   // the folder of the session it is of; "" for none
	Files   []string // in the order in which they were written

	// Log says how it is read when it is a text log. Play reads it by the maps that follow its session.
	Log textlog.Options

	isLog   bool
	heading string            // the comment at its head
	opening *playback.Opening // what that says; nil when it is not ours, or not understood
	before  []string          // files of the session that come before
}

// Open opens the folder of a session, or one file. The content decides what kind of recording it is. Only the head is
// read; damage further on is reported by Read and Play.
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
	// Damage is reported when the file is read: a later part may be sound.
	head, err := record.ReadHead(ctx, r.Files[0])
	if err != nil && ctx.Err() != nil {
		return nil, ctx.Err()
	}
	r.heading, r.isLog = head.Comment, head.Log
	if o, ours, err := playback.ReadOpening(r.heading); ours && err == nil {
		r.opening = &o
	}
	return r, nil
}

// An EmptyError says that a folder holds no recording.
type EmptyError struct{ Dir string }

// Error names the folder, and says what it must hold.
func (e *EmptyError) Error() string {
	return fmt.Sprintf("%s: holds no recording; must be a session of Halfturn, or hold pcap or pcapng files "+
		"or text logs, which gzip or zstd may have compressed", e.Dir)
}

// Opening returns what the recording says of how it was followed; nil when it is none of Halfturn's.
func (r *Recording) Opening() *playback.Opening { return r.opening }

// Heading returns the comment at the head of the recording.
func (r *Recording) Heading() string { return r.heading }

// IsLog reports whether it is a text log.
func (r *Recording) IsLog() bool { return r.isLog }

// Title is the name of a text log's file without its endings: the log does not name its station.
func Title(file string) string {
	name := filepath.Base(file)
	for _, ending := range []string{".gz", ".zst"} {
		name = strings.TrimSuffix(name, ending)
	}
	return strings.TrimSuffix(name, filepath.Ext(name))
}

// GoesOn reports whether it is a session that is still under way.
func (r *Recording) GoesOn() bool {
	return r.Session != "" && record.Unfinished(r.Dir) && folder.LeftIn(r.Dir) == nil
}

// A Reader yields the datagrams of a recording.
type Reader struct {
	*record.Reader
	one   bool // all are of one sender, from whichever port
	first netip.AddrPort
}

// Read reads the recording from its beginning, until the context ends or the limits are passed; nil sets none.
func (r *Recording) Read(ctx context.Context, l *capture.Limits) *Reader {
	how := record.Reading{Limits: l, Log: r.Log}
	return &Reader{Reader: record.ReadWithin(ctx, r.Files, how), one: r.opening != nil}
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

// mostEarlier bounds the comments read from earlier parts.
const mostEarlier = 4096

// earlier reads the comments of the parts before the first file: they say what was chosen by then.
func (r *Recording) earlier(ctx context.Context) (comments []string, err error) {
	if len(r.before) == 0 || r.opening == nil {
		return nil, nil
	}
	reader := record.ReadWithin(ctx, r.before, record.Reading{})
	defer reader.Close() // it was only read
	for {
		d, err := reader.Next()
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if err != nil { // damage included: the comments before it count
			return append(comments, reader.Rest()...), nil
		}
		comments = append(comments, d.Comments...)
		comments = comments[max(0, len(comments)-mostEarlier):]
	}
}

// Find lists the recordings a path stands for: itself when it is a file or a session's folder, else all in the folder,
// in order of their names. Names that begin with a dot are skipped, and so is everything that is neither a regular file
// nor a link to one; a link to a folder is not followed. Text logs count when the shipped maps know their columns. A
// path that cannot be read is listed, for Open to report.
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

// isSession reports whether a folder is that of a session with a recording: its files are parts of one recording.
func isSession(ctx context.Context, dir string) bool {
	parts, err := record.Parts(dir)
	if err != nil || len(parts) == 0 {
		return false
	}
	if folder.IsSession(dir) {
		return true
	}
	for _, name := range parts { // the first may be torn
		head, err := record.ReadHead(ctx, name)
		if _, ours, _ := playback.ReadOpening(head.Comment); ours {
			return true
		}
		if err == nil {
			return false
		}
	}
	return false
}

// isCapture reports whether a file in a folder counts as a recording: by its content, or by its name, so that one with
// a damaged beginning is reported.
func isCapture(name string) bool {
	if info, err := os.Stat(name); err != nil || !info.Mode().IsRegular() {
		return false
	}
	base := strings.TrimSuffix(strings.TrimSuffix(name, ".gz"), ".zst")
	if strings.HasSuffix(base, ".pcap") || strings.HasSuffix(base, ".pcapng") {
		return true
	}
	if logEndings[filepath.Ext(base)] {
		return isLog(name)
	}
	f, err := os.Open(name)
	if err != nil {
		return false
	}
	defer f.Close()
	return capture.Recognize(f)
}

// logEndings are those of files in a folder that may be text logs.
var logEndings = map[string]bool{".csv": true, ".tsv": true, ".txt": true, ".log": true, ".json": true, ".jsonl": true}

// isLog reports whether a file is a text log that needs no map of the user's: one that does cannot be told from any
// other table.
func isLog(name string) bool {
	r := record.Read([]string{name})
	_, err := r.Next()
	return errors.Join(err, r.Close()) == nil
}
