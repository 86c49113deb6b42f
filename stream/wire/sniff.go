package wire

import (
	"bytes"
	"fmt"
)

var (
	labelMark  = []byte("<LABELS>")
	statusMark = []byte("<STATUS>")
	rowMark    = []byte("DATA")
)

// look is how far into a datagram the format is looked for.
const look = 64

// sniff tells the family of formats from the first bytes. It costs the same for any length.
func (r *Reader) sniff(b []byte) (kind, error) {
	if len(b) == 0 {
		return kindNone, ErrEmpty
	}
	if len(b) >= 5 && bytes.HasPrefix(b, rowMark) {
		return kindRows, nil
	}
	if k := r.sniffOther(b); k != kindNone {
		r.foreign = ""
		return k, nil
	}
	head := trimMark(b)
	head = head[:min(len(head), look)]
	for len(head) > 0 && isBlank(head[0]) {
		head = head[1:]
	}
	switch {
	case len(head) == 0 && len(b) < look:
		return kindNone, ErrEmpty
	case len(head) == 0:
		return kindNone, ErrUnknown
	case head[0] == '{':
		return kindJSON, nil
	case bytes.HasPrefix(head, labelMark):
		return kindLine, nil
	case bytes.HasPrefix(head, statusMark):
		return kindNone, ErrStatus
	case isUTF16(b):
		return kindNone, ErrEncoding
	}
	r.note(b)
	if r.foreign != "" {
		return kindNone, ErrUnknown
	}
	return r.sniffText(head)
}

// sniffText tells pairs from columns.
func (r *Reader) sniffText(head []byte) (kind, error) {
	assign := byte('=')
	if r.forced != nil {
		assign = r.forced.assign
	}
	for i, c := range head {
		switch {
		case c == assign && i > 0:
			return kindPairs, nil
		case c == ',' || c == ';' || c == '\n':
			return kindLine, nil
		case c < ' ' && c != '\t' && c != '\r', c == 0x7F, c >= 0xF8:
			return kindNone, ErrUnknown
		case c >= 0x80 && i == 0:
			return kindNone, ErrUnknown
		}
	}
	return kindLine, nil
}

func isBlank(c byte) bool { return c == ' ' || c == '\t' || c == '\r' || c == '\n' }

// isUTF16 tells text in two-byte characters: by its byte order mark, or because every second
// of the first bytes is zero.
func isUTF16(b []byte) bool {
	if len(b) < 4 {
		return false
	}
	if b[0] == 0xFF && b[1] == 0xFE || b[0] == 0xFE && b[1] == 0xFF {
		return true
	}
	return (b[0] == 0) != (b[1] == 0) && (b[0] == 0) == (b[2] == 0) && (b[1] == 0) == (b[3] == 0)
}

// foreign formats are known but not read, mostly because they lack what coaching needs. The
// text says what to do instead.
var foreign = []struct {
	mark   string
	advice string
}{
	{"BECN", "This is only the simulator's beacon. Switch on the data output rows (DATA) 1, 3, 4, 8, 16, 17, 18, 20 and 25."},
	{"[", "This is a JSON array. Send one JSON object a line, in which each value has its channel's name before it."},
	{"$GP", "This is a position stream (NMEA 0183): no attitude, no airspeed. Use the generic protocol with the file halfturn.xml."},
}

// foreignFirst holds the first bytes of their marks, so that most datagrams cost one look.
var foreignFirst = func() (first [256]bool) {
	for _, f := range foreign {
		first[f.mark[0]] = true
	}
	return first
}()

// note remembers whether a datagram is of a format that is known but not read.
func (r *Reader) note(b []byte) {
	r.foreign = ""
	if !foreignFirst[b[0]] {
		return
	}
	for i := range foreign {
		if f := &foreign[i]; len(b) >= len(f.mark) && string(b[:len(f.mark)]) == f.mark {
			r.foreign = f.advice
			return
		}
	}
}

// Advice says what the user should do when nothing can be read, "" when all is well.
func (r *Reader) Advice() string {
	switch {
	case r.foreign != "":
		return r.foreign
	case r.line.trial.hits > 0:
		return ""
	case r.other != nil && (r.kind == kindNone || r.kind == r.other.kind) && r.other.advice(r.now) != "":
		return r.other.advice(r.now)
	case r.fails >= patience && r.line.unmatched > 0 && r.kind != kindRows && r.kind < kindJSON:
		return r.line.advice()
	case r.complaint.advice() != "":
		return r.complaint.advice()
	case r.rows.parts >= 2*maxAge && !r.rows.seen[rowAttitude].in(r.rows.tick):
		return "The DATA stream lacks row 17 (pitch, roll, headings), without which nothing can be coached. Switch it on in the simulator's data output."
	case r.fails >= patience && r.kind == kindNone:
		return "Nothing in these datagrams can be read. Send text columns with labels, name=value pairs, DATA rows or JSON lines; ready set-up files are in the folder simulators."
	case r.fails >= patience:
		return fmt.Sprintf("The latest datagrams could not be read as %q. Restart the output in the simulator.", r.Format())
	}
	return ""
}
