package replay

import (
	"context"
	"errors"
	"io"
	"net/http"
	"os"

	"halfturn/coach/session"
	"halfturn/stream/capture"
	"halfturn/web"
)

// A Recording is where the datagrams of a session lie, and how its station was followed.
type Recording struct {
	Files   []string // in the order in which they were written
	Options session.Options
}

// Files is a Library of capture files.
type Files struct {
	// Find returns the recording of a session. The error is told to whoever asked.
	Find func(id string) (Recording, error)
}

var _ Library = Files{}

// Open begins to play a session.
func (f Files) Open(id, station string, out session.Output) (Take, error) {
	rec, err := f.Find(id)
	if err != nil {
		return nil, err
	}
	if len(rec.Files) == 0 {
		return nil, &web.Problem{Status: http.StatusNotFound, Words: "of this session there is no recording; only its grades were kept"}
	}
	o := rec.Options
	o.Name, o.Output = station, out
	return &take{reel: reel{files: rec.Files}, session: session.New(o)}, nil
}

// Length reads the recording through for its last datagram.
func (f Files) Length(ctx context.Context, id string) (float64, error) {
	rec, err := f.Find(id)
	if err != nil {
		return 0, err
	}
	r := reel{files: rec.Files}
	defer r.close()
	length := 0.0
	for n := 0; ; n++ {
		if n%slice == 0 && ctx.Err() != nil {
			return 0, ctx.Err()
		}
		place, err := r.next()
		switch {
		case errors.Is(err, io.EOF):
			return length, nil
		case err != nil && n == 0:
			return 0, &web.Problem{Status: http.StatusUnprocessableEntity, Words: "the recording cannot be read: " + err.Error()}
		case err != nil:
			return length, nil // what comes before the damage can be played
		}
		length = max(length, place)
	}
}

// A take plays the files of a recording through a session.
type take struct {
	reel
	session *session.Session
}

// Next reads the next datagram. Damage ends the recording like its end.
func (t *take) Next() (float64, error) {
	place, err := t.reel.next()
	var cut *capture.CutError
	if errors.As(err, &cut) {
		return place, io.EOF
	}
	return place, err
}

// Feed hands it to the coach.
func (t *take) Feed() { t.session.Feed(t.datagram.Payload, t.datagram.Seconds()) }

// End closes what is under way.
func (t *take) End(reason string) { t.session.End(reason) }

// Close closes the file that is open.
func (t *take) Close() error { return t.reel.close() }

// A reel reads files one after another.
type reel struct {
	files    []string
	file     *os.File
	reader   *capture.Reader
	datagram capture.Datagram
	first    float64 // when the first datagram was received
	last     float64 // place of the last
	begun    bool
}

// next reads the next datagram and returns its place. A clock set back in mid-recording does
// not go back.
func (r *reel) next() (float64, error) {
	for {
		if r.reader == nil {
			if len(r.files) == 0 {
				return 0, io.EOF
			}
			if err := r.open(r.files[0]); err != nil {
				return 0, err
			}
			r.files = r.files[1:]
		}
		d, err := r.reader.Next()
		if errors.Is(err, io.EOF) || err != nil && len(r.files) > 0 { // a file cut off may be followed by another
			if err := r.close(); err != nil {
				return 0, err
			}
			continue
		}
		if err != nil {
			return 0, err
		}
		r.datagram = d
		if !r.begun {
			r.begun, r.first = true, d.Seconds()
		}
		r.last = max(r.last, d.Seconds()-r.first)
		return r.last, nil
	}
}

func (r *reel) open(name string) (err error) {
	if r.file, err = os.Open(name); err != nil {
		return err
	}
	r.reader, err = capture.Open(r.file)
	return err
}

func (r *reel) close() error {
	if r.file == nil {
		return nil
	}
	f := r.file
	r.file, r.reader = nil, nil
	return f.Close()
}
