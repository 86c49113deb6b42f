package hub

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"time"

	"halfturn/coach"
	"halfturn/coach/message"
)

// The parts of a sheet that change together.
type part int

const (
	partPlan part = iota
	partInfo
	partLast
	partStage
	partTrace
	partNow
	partCount
)

// partNames are the members of a sheet, in their order there. The callouts stand between trace and now.
var partNames = [partCount]string{"plan", "info", "last", "stage", "trace", "now"}

// A sheet is what a wall shows of a station. It keeps when each part changed, by the clock of the wall, and encodes a
// part when a viewer needs it, once for all viewers. The board of the station is locked.
type sheet struct {
	at      [partCount]uint64 // when the part changed; 0 is never
	encoded [partCount][]byte // nil until it is asked for
	said    []saidAt          // the latest, oldest first
	stage   message.SheetStage
	now     [5]float64 // turn, then the lanes; NaN where the stream lacks one
	flying  bool       // now is of a leg
	traces  int        // as the tracer counts them
	link    string
	private bool
	since   time.Time // of the link
	ticks   ticks
}

// A saidAt is a callout as it is sent, with when it came.
type saidAt struct {
	at   uint64
	data []byte
}

// touch notes that a part has changed.
func (b *board) touch(w *wall, p part) {
	b.sheet.at[p], b.sheet.encoded[p] = w.clock.Add(1), nil
}

// renew has all of the sheet sent again.
func (b *board) renew(w *wall) {
	b.sheet.said = nil
	for p := range partCount {
		b.touch(w, p)
	}
}

// note takes an event that the board has kept.
func (b *board) note(w *wall, body message.Body) {
	switch x := body.(type) {
	case *message.Chart:
		b.touch(w, partPlan)
	case *message.Station:
		b.linked(x.Link)
		b.touch(w, partInfo)
		if b.sheet.private != b.private() {
			b.sheet.private = b.private()
			b.renew(w) // those who were shut out have nothing of it
		}
	case message.Leg:
		b.touch(w, partLast)
		b.touch(w, partTrace) // with all its points, and not those of the moments that were sent
	case message.Callout:
		b.said(w, x.Callout)
	}
}

func (b *board) linked(link string) {
	if b.sheet.link != link {
		b.sheet.link, b.sheet.since = link, time.Now()
		b.muster() // one that has come is on the wall
	}
}

func (b *board) said(w *wall, c *coach.Callout) {
	data, err := json.Marshal(c)
	if err != nil {
		return // it was written before, as an event
	}
	b.sheet.said = tail(append(b.sheet.said, saidAt{w.clock.Add(1), data}), callouts)
}

// noteFrame takes a frame that the board has kept.
func (b *board) noteFrame(w *wall, f *coach.Frame) {
	s := &b.sheet
	s.ticks.add(time.Now(), w.looked.Load())
	stage := message.NewSheetStage(f)
	if !stage.SameAs(&s.stage) || s.at[partStage] == 0 {
		s.stage = stage
		b.touch(w, partStage)
	}
	if b.trace.begun != s.traces {
		s.traces = b.trace.begun
		b.touch(w, partTrace)
	}
	s.flying = f.State == "turn" || f.State == "leg" || f.Awaited != nil
	if !s.flying {
		return
	}
	s.now = [5]float64{f.Turn, valueOf(f, "bank"), valueOf(f, "pitch"), valueOf(f, "airspeed"), math.NaN()}
	if f.Climb != nil {
		s.now[4] = *f.Climb
	}
	b.touch(w, partNow)
}

func valueOf(f *coach.Frame, channel string) float64 {
	if v, ok := f.Values[channel]; ok {
		return v
	}
	return math.NaN()
}

// part returns a part as it is sent, nil when there is nothing to send.
func (b *board) part(p part) []byte {
	s := &b.sheet
	if p == partTrace { // grows with each frame, and is seldom sent
		return b.sheetTrace()
	}
	if s.encoded[p] == nil {
		s.encoded[p] = b.encodePart(p)
	}
	return s.encoded[p]
}

func (b *board) encodePart(p part) []byte {
	s := &b.sheet
	var v any
	switch p {
	case partPlan:
		if b.plan == nil {
			return nil
		}
		v = message.NewSheetPlan(b.plan)
	case partInfo:
		info := b.info.Load()
		if info == nil {
			return nil
		}
		behind := 0.0
		if info.Share != nil {
			behind = info.Share.Behind
		}
		v = &message.SheetInfo{
			Behind:    behind,
			Student:   info.Student,
			Link:      info.Link,
			Since:     s.since.UnixMilli(),
			Rate:      info.Rate,
			Advice:    info.Advice,
			Trouble:   info.Trouble,
			Recording: info.Recording,
			Session:   info.Session,
			Auto:      info.Auto,
		}
	case partLast:
		if b.last.IsZero() {
			return nil
		}
		v = message.NewSheetLeg(b.last.Unpack())
	case partStage:
		v = &s.stage
	case partNow:
		if !s.flying {
			return nil
		}
		return s.appendNow()
	}
	data, err := json.Marshal(v)
	if err != nil {
		panic(fmt.Sprintf("hub: what came in an event cannot be written again: %v", err))
	}
	return data
}

// appendNow writes a SheetNow as encoding/json would: of all parts this one is written most.
func (s *sheet) appendNow() []byte {
	data := append(make([]byte, 0, 64), `{"turn":`...)
	data = appendTenths(data, s.now[0])
	data = append(data, `,"lanes":[`...)
	for i, v := range s.now[1:] {
		if i > 0 {
			data = append(data, ',')
		}
		data = appendTenths(data, v)
	}
	return append(data, `]}`...)
}

// sheetTrace writes the trace of the leg being flown, or else of the last one; nil when there is none.
func (b *board) sheetTrace() []byte {
	var data []byte
	for i := range b.trace.points {
		data = appendPoint(data, &b.trace.points[i].Trace)
	}
	if data == nil && !b.last.IsZero() {
		trace := b.last.Unpack().Trace
		for i := range trace {
			data = appendPoint(data, &trace[i])
		}
	}
	if data == nil {
		return nil
	}
	return append(data, ']')
}

// appendPoint writes a SheetPoint behind those before it.
func appendPoint(data []byte, p *coach.Trace) []byte {
	if data == nil {
		data = append(data, '[')
	} else {
		data = append(data, ',')
	}
	data = append(data, '[')
	for n, v := range [...]float64{p.Turn, p.Bank, p.Pitch, orNaN(p.Airspeed), orNaN(p.Height)} {
		if n > 0 {
			data = append(data, ',')
		}
		data = appendTenths(data, v)
	}
	return append(data, ']')
}

func orNaN(v *float64) float64 {
	if v == nil {
		return math.NaN()
	}
	return *v
}

// appendTenths writes a number to a tenth, null where there is none.
func appendTenths(data []byte, v float64) []byte {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return append(data, "null"...)
	}
	v = math.Round(v * 10)
	if v == 0 {
		return append(data, '0') // not −0
	}
	return strconv.AppendFloat(data, v/10, 'f', -1, 64)
}
