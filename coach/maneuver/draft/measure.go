package draft

import (
	"context"
	"errors"
	"io"
	"net/netip"

	"halfturn/coach/archive/play"
	"halfturn/coach/grading"
	"halfturn/coach/measure"
	"halfturn/stream/capture"
	"halfturn/stream/pipeline"
)

// Measure measures the sender of a recording that sends most: its speed in steady level flight, the power that took,
// and its stall. opt says how the stream is read.
func Measure(ctx context.Context, rec *play.Recording, opt pipeline.Options) (*measure.Measurer, error) {
	rec.Log.Wire = opt.Wire
	r := rec.Read(ctx, nil)
	defer r.Close() // it was only read
	type sender struct {
		pipeline *pipeline.Pipeline
		m        *measure.Measurer
		n        int
	}
	senders := map[netip.AddrPort]*sender{}
	var most *sender
	var err error
	for {
		var d capture.Datagram
		if d, err = r.Next(); err != nil {
			break
		}
		s := senders[d.Source]
		if s == nil {
			if len(senders) == play.MostSenders {
				continue
			}
			s = &sender{pipeline: pipeline.New(opt), m: measure.New()}
			senders[d.Source] = s
		}
		sample, result := s.pipeline.Feed(d.Payload, d.Seconds())
		switch result.Outcome {
		case pipeline.Jumped:
			s.m.Break()
		case pipeline.Accepted:
			s.m.Step(sample)
			if s.n++; most == nil || s.n > most.n {
				most = s
			}
		}
	}
	switch {
	case ctx.Err() != nil:
		return nil, grading.ErrInterrupted
	case !errors.Is(err, io.EOF):
		return nil, err
	case most == nil:
		return nil, errors.New("holds nothing that can be read; halfturn grade FILE says what is in it")
	}
	most.m.Break()
	return most.m, nil
}
