package main

import (
	"context"
	"errors"
	"fmt"
	"net/netip"
	"os"
	"path/filepath"
	"regexp"

	"halfturn/coach/export"
	"halfturn/coach/session"
	"halfturn/stream/capture"
	"halfturn/stream/record"
)

// A recorded is the recording of a session or a capture file, ready to be read more than once.
type recorded struct {
	name  string
	dir   string        // of the session; "" for a file
	files []string      // its parts in order
	plans session.Plans // finds what was chosen in the session; nil: all is judged by the same card
}

// sessionID is what the folder of a session may be called: no path leads out of the data directory.
var sessionID = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]*$`)

// findRecorded finds what is meant by an argument: a session of the data directory by its name,
// or a capture file.
func findRecorded(data, arg string) (*recorded, error) {
	if sessionID.MatchString(arg) {
		dir := filepath.Join(data, "sessions", arg)
		if info, err := os.Stat(dir); err == nil && info.IsDir() {
			files, err := record.Parts(dir)
			if err != nil {
				return nil, err
			}
			if len(files) == 0 {
				return nil, fmt.Errorf("session %q has no recording: nothing can be made of it", arg)
			}
			return &recorded{name: arg, dir: dir, files: files}, nil
		}
	}
	info, err := os.Stat(arg)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil, fmt.Errorf("%q is neither a session in %q nor a capture file; name one of the folders there, or a pcap or pcapng file", arg, filepath.Join(data, "sessions"))
	case err != nil:
		return nil, fmt.Errorf("%s: %w", arg, plain(err))
	case info.IsDir():
		return nil, fmt.Errorf("%q is a folder; name a session or one capture file", arg)
	}
	return &recorded{name: filepath.Base(arg), files: []string{arg}}, nil
}

// open opens the recording from its beginning. The returned function closes it. A session is of one
// sender, from whichever port it sent.
func (r *recorded) open() (export.Source, func() error, error) {
	reader := record.Read(r.files)
	var src export.Source = reader
	if r.opening() != nil {
		src = &oneSender{Reader: reader}
	}
	return src, reader.Close, nil
}

// opening is what the recording says of itself; nil when it is none of a session, or not understood.
func (r *recorded) opening() *session.Opening {
	heading, _ := record.Heading(context.Background(), r.files[0]) // what cannot be read is told when it is read
	o, ours, err := session.ReadOpening(heading)
	if !ours || err != nil {
		return nil
	}
	return &o
}

// A oneSender gives all datagrams the address of the first.
type oneSender struct {
	*record.Reader
	first netip.AddrPort
}

// Next returns the next datagram.
func (o *oneSender) Next() (capture.Datagram, error) {
	d, err := o.Reader.Next()
	if !o.first.IsValid() {
		o.first = d.Source
	}
	d.Source = o.first
	return d, err
}
