package replay

import (
	"context"
	"errors"
	"io"
	"net/http"

	"halfturn/coach/session"
	"halfturn/stream/capture"
	"halfturn/stream/record"
	"halfturn/web"
)

// A Recording is where the datagrams of a session lie, and how its station was followed.
type Recording struct {
	Files   []string // in the order in which they were written
	Options session.Options
	GoesOn  bool // the session is still being flown
	// Plans finds the cards of the recording's own opening and of choices in mid-session; with nil,
	// all of it is played by the Options alone.
	Plans session.Plans
}

// Files is a Library of capture files.
type Files struct {
	// Find returns the recording of a session. The error is told to whoever asked.
	Find func(id string) (Recording, error)
}

var _ Library = Files{}

// Open begins to play a session, as it was followed live when the recording says how that was.
func (f Files) Open(id, station string, out session.Output) (Take, error) {
	rec, err := f.Find(id)
	if err != nil {
		return nil, err
	}
	if len(rec.Files) == 0 {
		return nil, &web.Problem{Status: http.StatusNotFound, Words: "of this session there is no recording; only its grades were kept"}
	}
	o := rec.Options
	heading, _ := record.Heading(context.Background(), rec.Files[0]) // what cannot be read is told by the first datagram
	opening, ours, err := session.ReadOpening(heading)
	if ours && err == nil && rec.Plans != nil {
		if as, err := opening.Options(o, rec.Plans); err == nil { // else its cards are not there any more
			o = as
		}
	}
	o.Name, o.Output = station, out
	return &take{goesOn: rec.GoesOn, reel: reel{reader: record.Read(rec.Files)}, play: session.NewPlay(session.New(o), rec.Plans)}, nil
}

// Length reads the recording through for its last datagram.
func (f Files) Length(ctx context.Context, id string) (float64, error) {
	rec, err := f.Find(id)
	if err != nil {
		return 0, err
	}
	r := reel{reader: record.Read(rec.Files)}
	defer r.reader.Close()
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
	play   *session.Play
	goesOn bool
}

// Next reads the next datagram. Damage ends the recording like its end.
func (t *take) Next() (float64, error) {
	place, err := t.next()
	var cut *capture.CutError
	if errors.As(err, &cut) {
		return place, io.EOF
	}
	return place, err
}

// Feed hands it to the coach, after what was changed before it.
func (t *take) Feed() {
	_, _ = t.play.Feed(t.datagram.Payload, t.datagram.Seconds(), t.datagram.Comments) // a change that cannot be followed is passed over, as when it is graded
}

// End closes what is under way.
func (t *take) End(reason string) {
	if !t.goesOn {
		t.play.Session.End(reason)
	}
}

// Close closes the file that is open.
func (t *take) Close() error { return t.reader.Close() }

// A reel knows the places of datagrams.
type reel struct {
	reader   *record.Reader
	datagram capture.Datagram
	first    float64 // when the first datagram was received
	last     float64 // place of the last
	begun    bool
}

// next reads the next datagram and returns its place. A clock set back in mid-recording does
// not go back.
func (r *reel) next() (float64, error) {
	d, err := r.reader.Next()
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
