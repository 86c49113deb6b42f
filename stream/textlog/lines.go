package textlog

import (
	"bufio"
	"bytes"
	"errors"
	"io"
)

// longestLine is the longest line that is yielded: a datagram holds little more.
const longestLine = 60_000

// A lineReader reads lines and counts them.
type lineReader struct {
	in *bufio.Reader
	n  int // of the line read last, from 1
}

var errLong = errors.New("line too long")

// next returns the next line without its end; errLong for one that is too long, which was skipped; io.EOF at the end.
// The line is valid until the next call.
func (l *lineReader) next() ([]byte, error) {
	line, err := l.in.ReadSlice('\n')
	long := len(line) > longestLine
	for errors.Is(err, bufio.ErrBufferFull) {
		long = true
		_, err = l.in.ReadSlice('\n')
	}
	switch {
	case err == io.EOF && len(line) == 0 && !long:
		return nil, io.EOF
	case err != nil && err != io.EOF:
		return nil, err
	}
	l.n++
	if long {
		return nil, errLong
	}
	return trimLine(line, l.n == 1), nil
}

// trimLine cuts off the end of a line, and the byte order mark of the first.
func trimLine(line []byte, first bool) []byte {
	if first {
		line = bytes.TrimPrefix(line, []byte("\xEF\xBB\xBF"))
	}
	return bytes.TrimRight(line, "\r\n")
}

// headLines splits the head of a file into lines, at most some hundreds; the last is left out when it may go on beyond
// the head.
func headLines(head []byte, whole bool) (lines [][]byte) {
	const most = 400
	for len(head) > 0 && len(lines) < most {
		line, rest, more := bytes.Cut(head, []byte{'\n'})
		if !more && !whole {
			break
		}
		lines = append(lines, trimLine(line, len(lines) == 0))
		head = rest
	}
	return lines
}

// isText reports whether the head of a file can be text in ASCII, UTF-8 or a code page.
func isText(head []byte) bool {
	for _, c := range head {
		if c < ' ' && c != '\t' && c != '\r' && c != '\n' || c == 0x7F {
			return false
		}
	}
	return len(bytes.TrimSpace(head)) > 0
}

// isUTF16 recognizes text of two-byte characters by its byte order mark.
func isUTF16(head []byte) bool {
	return bytes.HasPrefix(head, []byte("\xFF\xFE")) || bytes.HasPrefix(head, []byte("\xFE\xFF"))
}
