// Package export writes recorded flights in the formats other programs read: CSV (RFC 4180), Parquet, GPX 1.1 and KML
// 2.2. It streams a recording and holds at most a few seconds of it. It does input and output only through the readers
// and writers passed to it.
package export

import (
	"errors"
	"fmt"
	"io"
	"net/netip"
	"strings"
	"time"

	"halfturn/coach"
	"halfturn/coach/valid"
	"halfturn/stream"
	"halfturn/stream/capture"
	"halfturn/stream/pipeline"
)

// Formats are the formats of samples, by name.
var Formats = []string{"csv", "parquet", "gpx", "kml"}

// margin is how much of the flight before and after a leg is written with it, s of stream time.
const margin = 5.0

// A Source yields the datagrams of a recording; the error is io.EOF at its end.
type Source interface {
	Next() (capture.Datagram, error)
}

// A Span is a part of a sender's stream: from one stream time to another, s, between two jumps
// of the stream. Stream time may begin again after a jump, so it alone does not name a place.
type Span struct {
	Jumps    int // of the stream before it
	From, To float64
}

// Options say what of a recording is written.
type Options struct {
	Title   string         // of the flight, as read by people
	Sender  netip.AddrPort // whose samples are written; the zero value is the first sender that sends one
	Station pipeline.Options
	Span    *Span // nil: all of it
}

// ErrNoPosition is returned for a track of a stream without positions.
var ErrNoPosition = errors.New("the recording holds no positions (latitude and longitude), so there is no track; " +
	"export it as csv or parquet, or switch positions on in the simulator")

// ErrNoSample is returned when there is nothing to write.
var ErrNoSample = errors.New("nothing to export: no sample could be read from that part of the recording")

// A row is one sample and the time at which it was received.
type row struct {
	received time.Time
	jump     bool // it does not continue the row before
	sample   *stream.Sample
}

// A sink takes the samples in one format.
type sink interface {
	add(r *row) error
	close() error
}

// Write writes the samples of a recording. A recording that is cut off is written up to the
// cut; the error is then a *capture.CutError.
func Write(w io.Writer, format string, src Source, o Options) error {
	var s sink
	switch format {
	case "csv":
		s = newCSV(w)
	case "parquet":
		s = newParquet(w, o.Title)
	case "gpx":
		s = &gpx{text: text{w: w}, title: o.Title}
	case "kml":
		s = &kml{text: text{w: w}, title: o.Title}
	default:
		return fmt.Errorf("the format is %q; must be %s", format, valid.Any(Formats))
	}
	n, err := each(src, o, s.add)
	if err != nil {
		var cut *capture.CutError
		if !errors.As(err, &cut) {
			return err
		}
	}
	if n == 0 {
		return errors.Join(ErrNoSample, err)
	}
	return errors.Join(s.close(), err)
}

// each passes the selected samples to take and counts them.
func each(src Source, o Options, take func(*row) error) (n int, err error) {
	senders := map[netip.AddrPort]*pipeline.Pipeline{}
	only := o.Sender
	jumps, jumped := 0, false
	for {
		d, err := src.Next()
		if errors.Is(err, io.EOF) {
			return n, nil
		}
		if err != nil {
			return n, err
		}
		if only.IsValid() && d.Source != only {
			continue
		}
		sender := senders[d.Source]
		if sender == nil {
			if len(senders) == mostSenders {
				continue
			}
			sender = pipeline.New(o.Station)
			senders[d.Source] = sender
		}
		sample, result := sender.Feed(d.Payload, d.Seconds())
		if sample == nil {
			continue
		}
		only = d.Source
		if result.Outcome == pipeline.Jumped {
			jumps++
			jumped = true
		}
		if p := o.Span; p != nil {
			now := sample.Value(stream.Time)
			if jumps > p.Jumps || jumps == p.Jumps && now > p.To+margin {
				return n, nil
			}
			if jumps < p.Jumps || now < p.From-margin {
				continue
			}
		}
		n++
		if err := take(&row{d.Received.UTC(), jumped && n > 1, sample}); err != nil {
			return n, err
		}
		jumped = false
	}
}

// mostSenders is how many senders of one recording are searched for the first that flies.
const mostSenders = 1024

// cautions in one line, for what is written.
func cautions() string { return strings.Join(coach.Cautions[:], " ") }

// Column is a channel's name with its unit, as it heads a column: "airspeed (kt)".
func Column(c stream.Channel) string { return c.Info().Name + " (" + c.Info().Unit + ")" }
