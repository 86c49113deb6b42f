package replay

import (
	"context"
	"errors"
	"io"
	"net/http"
	"net/netip"

	"halfturn/coach/archive/play"
	"halfturn/coach/session"
	"halfturn/stream/capture"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// A Recording is one that can be played, and how its station was followed.
type Recording struct {
	*play.Recording // nil when only the grades of a session were kept
	play.Following
}

// Files is a Library of recordings on disk.
type Files struct {
	// Find returns the recording of a session. The error is sent to the client.
	Find func(id string) (Recording, error)
}

var _ Library = Files{}

// Open begins to play a session, as it was followed live when the recording says how that was.
func (f Files) Open(id, station string, out session.Output) (Take, error) {
	rec, err := f.find(id)
	if err != nil {
		return nil, err
	}
	follow := rec.Following
	follow.Station, follow.Output = station, func(netip.AddrPort) session.Output { return out }
	p, err := rec.Play(context.Background(), follow)
	if err != nil {
		return nil, err
	}
	return &take{Player: p}, nil
}

func (f Files) find(id string) (Recording, error) {
	rec, err := f.Find(id)
	if err == nil && rec.Recording == nil {
		err = &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoRecording.Of()}
	}
	return rec, err
}

// Length reads the whole recording to find its last datagram.
func (f Files) Length(ctx context.Context, id string) (float64, error) {
	rec, err := f.find(id)
	if err != nil {
		return 0, err
	}
	r := rec.Read(ctx, nil)
	defer r.Close() // it was only read
	var places places
	length := 0.0
	for n := 0; ; n++ {
		d, err := r.Next()
		switch {
		case ctx.Err() != nil:
			return 0, ctx.Err()
		case errors.Is(err, io.EOF):
			return length, nil
		case err != nil && n == 0:
			return 0, &guard.Problem{Status: http.StatusUnprocessableEntity, Phrase: phrase.BadRecording.Of(
				phrase.Part("why", phrase.OfError(err)))}
		case err != nil:
			return length, nil // what comes before the damage can be played
		}
		length = max(length, places.of(&d))
	}
}

// A take plays a recording through a session.
type take struct {
	*play.Player
	places places
}

// Next reads the next datagram. Damage ends the recording like its end.
func (t *take) Next() (float64, error) {
	d, err := t.Player.Next()
	var cut *capture.CutError
	if errors.As(err, &cut) {
		return t.places.last, io.EOF
	}
	if err != nil {
		return 0, err
	}
	return t.places.of(d), nil
}

// Feed passes it to the coach, after the commands recorded before it.
func (t *take) Feed() {
	_, _, _ = t.Player.Feed() // a command that cannot be followed is skipped, as when the recording is graded
}

// End closes what is under way.
func (t *take) End(string) { _ = t.Player.End() } // see Feed

// places are those of datagrams in a recording, s from the first.
type places struct {
	first, last float64
	begun       bool
}

// of returns the place of the next datagram. A clock set back in mid-recording does not go back.
func (p *places) of(d *capture.Datagram) float64 {
	if !p.begun {
		p.begun, p.first = true, d.Seconds()
	}
	p.last = max(p.last, d.Seconds()-p.first)
	return p.last
}
