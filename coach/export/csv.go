package export

import (
	"encoding/csv"
	"io"
	"strconv"
	"time"

	"halfturn/stream"
)

// stamp is RFC 3339 in UTC with microseconds, in a fixed width.
const stamp = "2006-01-02T15:04:05.000000Z"

// A csvSink writes RFC 4180: a header with units, then one row per sample. The columns are always the same, so
// that files of different simulators can be appended to each other. A channel that was not sent is
// empty. CSV has no comments, so the cautions stand in the last column of the first row.
type csvSink struct {
	w      *csv.Writer
	fields []string
	rows   int
}

func newCSV(w io.Writer) *csvSink {
	s := &csvSink{w: csv.NewWriter(w)}
	s.w.UseCRLF = true // as RFC 4180 requires
	return s
}

// Header returns the columns of the CSV and Parquet files.
func Header() []string {
	h := []string{"received (UTC)"}
	for c := range stream.NumChannels {
		h = append(h, Column(c))
	}
	return append(h, "heading reference", "note")
}

func (s *csvSink) add(r *row) error {
	if s.rows == 0 {
		if err := s.w.Write(Header()); err != nil {
			return err
		}
	}
	f := append(s.fields[:0], r.received.Format(stamp))
	for c := range stream.NumChannels {
		text := ""
		if v, ok := r.sample.Get(c); ok {
			text = strconv.FormatFloat(v, 'f', -1, 64)
		}
		f = append(f, text)
	}
	f = append(f, reference(r.sample), note(r, s.rows))
	s.fields = f
	s.rows++
	return s.w.Write(f)
}

// reference names the north that headings are measured from.
func reference(s *stream.Sample) string {
	switch {
	case !s.Has.Has(stream.Heading):
		return ""
	case s.Magnetic:
		return "magnetic"
	}
	return "true"
}

// note is the remark in the last column of a row.
func note(r *row, before int) string {
	switch {
	case before == 0:
		return cautions()
	case r.jump:
		return "jump: this does not continue the row before"
	}
	return ""
}

func (s *csvSink) close() error {
	s.w.Flush()
	return s.w.Error()
}

// zulu is a time as XML's dateTime in UTC.
func zulu(t time.Time) string { return t.UTC().Format("2006-01-02T15:04:05.000Z") }
