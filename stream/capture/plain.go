package capture

import (
	"bufio"
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/klauspost/compress/zstd"

	"halfturn/stream/phrase"
)

// bufferBytes holds the largest record: twice what capture programs take as the largest
// packet, 262,144 bytes.
const bufferBytes = 1 << 19

// mostWindow bounds the memory a file compressed by zstd may ask for, bytes: what the format's
// own program allows (RFC 8878, 3.1.1.1.2, recommends 8 MB at least).
const mostWindow = 128 << 20

// A Plain is a file without its compression, read within limits. It buffers at least 256 KiB, so that many bytes can be
// looked at before they are read.
type Plain struct {
	*bufio.Reader
	guard  *guard
	zipped *zstd.Decoder // nil when it is not compressed so
}

// Unpack removes gzip, zstd, or one inside the other, whichever the file begins with. Reading ends with a *LimitError
// once more than the limits was read, and with the context's error once that has ended. The error is a *FormatError
// when the compression is damaged at its beginning or the file is empty.
func Unpack(ctx context.Context, r io.Reader, l *Limits) (*Plain, error) {
	g := &guard{ctx: ctx, limits: l}
	p, err := unpack(r, g)
	if g.err != nil {
		if p != nil {
			p.Close()
		}
		return nil, g.err
	}
	return p, err
}

func unpack(r io.Reader, g *guard) (*Plain, error) {
	in := bufio.NewReaderSize(&stage{g, r, &g.limits.files}, bufferBytes)
	magic, err := in.Peek(2)
	if err != nil {
		return nil, openError(err)
	}
	if magic[0] == 0x1f && magic[1] == 0x8b {
		unzipped, err := gzip.NewReader(in)
		if err != nil {
			return nil, openError(err)
		}
		in = bufio.NewReaderSize(&stage{g, unzipped, nil}, bufferBytes)
	}
	if magic, err = in.Peek(4); err != nil {
		return nil, openError(err)
	}
	p := &Plain{guard: g}
	var plain io.Reader = in
	if string(magic) == "\x28\xb5\x2f\xfd" {
		// One goroutine is the caller's own: a reader that is dropped leaves nothing running.
		p.zipped, err = zstd.NewReader(in, zstd.WithDecoderConcurrency(1),
			zstd.WithDecoderMaxMemory(mostWindow), zstd.WithDecoderMaxWindow(mostWindow))
		if err != nil {
			return nil, openError(err)
		}
		plain = p.zipped
	}
	p.Reader = bufio.NewReaderSize(&stage{g, plain, &g.limits.out}, bufferBytes)
	if _, err = p.Peek(1); err != nil {
		p.Close()
		return nil, openError(err)
	}
	return p, nil
}

// Err says which limit or end of the context ended the reading; nil when none did.
func (p *Plain) Err() error { return p.guard.err }

// Close releases what reading has allocated. The file stays open: the caller owns it.
func (p *Plain) Close() {
	if p.zipped != nil {
		p.zipped.Close()
	}
}

func openError(err error) error {
	switch {
	case err == io.EOF || err == io.ErrUnexpectedEOF:
		return &FormatError{phrase.CaptureEmpty.Of()}
	case errors.Is(err, gzip.ErrHeader) || errors.Is(err, gzip.ErrChecksum):
		return &FormatError{phrase.CaptureGzip.Of()}
	case errors.Is(err, zstd.ErrMagicMismatch) || errors.Is(err, zstd.ErrWindowSizeExceeded) ||
		errors.Is(err, zstd.ErrReservedBlockType):
		return &FormatError{phrase.CaptureZstd.Of()}
	}
	return fmt.Errorf("cannot read the recording: %w", err)
}
