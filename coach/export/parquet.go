package export

import (
	"io"

	"github.com/parquet-go/parquet-go"

	"halfturn/stream"
)

// groupRows is the number of samples in a row group, which is the most that is held in memory.
const groupRows = 8192

// A parquetSink writes Apache Parquet: one nullable double per channel, named with its unit as in the
// CSV file, and the time of receipt as a UTC timestamp. Title and cautions are key-value metadata.
type parquetSink struct {
	w       *parquet.GenericWriter[any]
	columns map[string]int
	row     parquet.Row
	rows    int
}

func newParquet(w io.Writer, title string) *parquetSink {
	group := parquet.Group{}
	for i, name := range Header() {
		switch {
		case i == 0:
			group[name] = parquet.Timestamp(parquet.Microsecond)
		case i <= int(stream.NumChannels):
			group[name] = parquet.Optional(parquet.Leaf(parquet.DoubleType))
		default:
			group[name] = parquet.Optional(parquet.Encoded(parquet.String(), &parquet.RLEDictionary))
		}
	}
	schema := parquet.NewSchema("samples", group)
	s := &parquetSink{columns: map[string]int{}, row: make(parquet.Row, len(schema.Columns()))}
	for i, path := range schema.Columns() {
		s.columns[path[0]] = i
	}
	s.w = parquet.NewGenericWriter[any](w, schema, parquet.Compression(&parquet.Snappy), parquet.CreatedBy("halfturn",
		"", ""),
		parquet.KeyValueMetadata("title", title), parquet.KeyValueMetadata("cautions", cautions()))
	return s
}

// put sets a cell; an empty one has definition level 0.
func (s *parquetSink) put(name string, v parquet.Value, level int) {
	i := s.columns[name]
	s.row[i] = v.Level(0, level, i)
}

func (s *parquetSink) add(r *row) error {
	s.put("received (UTC)", parquet.Int64Value(r.received.UnixMicro()), 0)
	for c := range stream.NumChannels {
		if v, ok := r.sample.Get(c); ok {
			s.put(Column(c), parquet.DoubleValue(v), 1)
		} else {
			s.put(Column(c), parquet.NullValue(), 0)
		}
	}
	s.word("heading reference", reference(r.sample))
	s.word("note", note(r, s.rows))
	s.rows++
	if _, err := s.w.WriteRows([]parquet.Row{s.row}); err != nil {
		return err
	}
	if s.rows%groupRows == 0 {
		return s.w.Flush()
	}
	return nil
}

func (s *parquetSink) word(name, text string) {
	if text == "" {
		s.put(name, parquet.NullValue(), 0)
		return
	}
	s.put(name, parquet.ByteArrayValue([]byte(text)), 1)
}

func (s *parquetSink) close() error { return s.w.Close() }
