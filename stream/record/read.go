package record

import (
	"context"
	"errors"
	"io"
	"os"

	"halfturn/stream/capture"
	"halfturn/stream/textlog"
)

// A Reading says how files are read. The zero value sets no limits, and reads logs by the shipped maps.
type Reading struct {
	Limits *capture.Limits // of all files together; nil sets none
	Log    textlog.Options // for files that are text logs; Modified is set for each
}

// A source yields the datagrams of one file.
type source interface {
	Next() (capture.Datagram, error)
	Section() string
	Rest() []string
	Stats() capture.Stats
	Close()
}

// A Reader reads the files of a recording one after another: captures, or text logs.
type Reader struct {
	ctx    context.Context
	how    Reading
	names  []string
	file   *os.File
	reader source
	rest   []string // comments of the file before, with no datagram after them
	stats  capture.Stats
}

// Read begins to read files.
func Read(names []string) *Reader {
	return ReadWithin(context.Background(), names, Reading{})
}

// ReadWithin begins to read files, until the context ends or more than the limits was read of all of them.
func ReadWithin(ctx context.Context, names []string, how Reading) *Reader {
	if how.Limits == nil {
		how.Limits = &capture.Limits{}
	}
	return &Reader{ctx: ctx, how: how, names: names}
}

// Next returns the next datagram, io.EOF at the end, or what is wrong with the last file. A file
// that is cut off and followed by another is read as far as it goes.
func (r *Reader) Next() (capture.Datagram, error) {
	for {
		if r.reader == nil {
			if len(r.names) == 0 {
				return capture.Datagram{}, io.EOF
			}
			name := r.names[0]
			r.names = r.names[1:]
			if err := r.open(name); err != nil {
				if err = errors.Join(err, r.Close()); len(r.names) > 0 && !ends(err) {
					continue
				}
				return capture.Datagram{}, err
			}
		}
		d, err := r.reader.Next()
		if err == nil {
			if len(r.rest) > 0 {
				d.Comments, r.rest = append(r.rest, d.Comments...), nil
			}
			return d, nil
		}
		r.rest = append(r.rest, r.reader.Rest()...)
		if ends(err) || !errors.Is(err, io.EOF) && len(r.names) == 0 {
			r.names = nil
			return d, errors.Join(err, r.Close())
		}
		if err := r.Close(); err != nil {
			return d, err
		}
	}
}

// ends reports whether an error ends the reading of all files.
func ends(err error) bool {
	var limit *capture.LimitError
	return errors.As(err, &limit) || errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded)
}

func (r *Reader) open(name string) error {
	plain, err := r.unpack(name)
	if err != nil {
		return err
	}
	if !textlog.Recognize(plain) {
		c, err := plain.Open()
		if err == nil {
			r.reader = c
		}
		return err
	}
	how := r.how.Log
	if info, err := r.file.Stat(); err == nil {
		how.Modified = info.ModTime()
	}
	log, err := textlog.Open(plain, how)
	if err == nil {
		r.reader = log
	}
	return err
}

// unpack opens a file and removes its compression.
func (r *Reader) unpack(name string) (plain *capture.Plain, err error) {
	if r.file, err = open(name); err != nil {
		return nil, err
	}
	return capture.Unpack(r.ctx, r.file, r.how.Limits)
}

// A NotFileError says that a name is not that of a regular file: reading from it may never return.
type NotFileError struct{ Kind string }

// Error says what it is, and what to do.
func (e *NotFileError) Error() string {
	return e.Kind + ", not a file: write the recording to a file first"
}

// open opens a regular file, or a link to one.
func open(name string) (*os.File, error) {
	info, err := os.Stat(name) // opening a pipe would wait for its writer
	if err != nil {
		return nil, err
	}
	switch mode := info.Mode(); {
	case mode.IsRegular():
		return os.Open(name)
	case mode.IsDir():
		return nil, &NotFileError{"is a folder"}
	case mode&os.ModeNamedPipe != 0:
		return nil, &NotFileError{"is a pipe"}
	case mode&os.ModeSocket != 0:
		return nil, &NotFileError{"is a socket"}
	}
	return nil, &NotFileError{"is a device"}
}

// Section returns the comment at the head of the file being read.
func (r *Reader) Section() string {
	if r.reader == nil {
		return ""
	}
	return r.reader.Section()
}

// Stats returns the counts over all files so far.
func (r *Reader) Stats() capture.Stats {
	if r.reader == nil {
		return r.stats
	}
	return r.stats.Plus(r.reader.Stats())
}

// Rest returns the comments after the last datagram.
func (r *Reader) Rest() []string { return r.rest }

// Close closes the file that is open.
func (r *Reader) Close() error {
	if r.file == nil {
		return nil
	}
	if r.reader != nil {
		r.stats = r.stats.Plus(r.reader.Stats())
		r.reader.Close()
	}
	f := r.file
	r.file, r.reader = nil, nil
	return f.Close()
}

// A Head is what the beginning of a file tells of it.
type Head struct {
	Comment string // at the head of a capture
	Log     bool   // it is a text log
}

// ReadHead reads the beginning of a file, and no further.
func ReadHead(ctx context.Context, name string) (Head, error) {
	r := ReadWithin(ctx, nil, Reading{})
	plain, err := r.unpack(name)
	if err != nil {
		return Head{}, errors.Join(err, r.Close())
	}
	if textlog.Recognize(plain) {
		plain.Close()
		return Head{Log: true}, r.Close()
	}
	c, err := plain.Open()
	if err != nil {
		return Head{}, errors.Join(err, r.Close())
	}
	r.reader = c
	return Head{Comment: r.Section()}, r.Close()
}
