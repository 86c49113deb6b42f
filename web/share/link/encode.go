package link

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"math"
)

// Encode writes a message. The error says that it is longer than MostBytes, or cannot be written as JSON.
func Encode(m Message) ([]byte, error) {
	b := []byte{byte(m.kind())}
	switch m := m.(type) {
	case *Live:
		for i := range m.Records {
			b = m.Records[i].Append(b)
		}
	case *Piece:
		b = binary.AppendUvarint(b, uint64(len(m.Session)))
		b = append(b, m.Session...)
		b = binary.AppendUvarint(b, uint64(m.Part))
		b = binary.AppendUvarint(b, uint64(m.Offset))
		b = append(b, m.Bytes...)
	default:
		text, err := json.Marshal(m)
		if err != nil {
			return nil, err
		}
		b = append(b, text...)
	}
	if len(b) > MostBytes {
		return nil, fmt.Errorf("a message of kind %d is %d bytes long; must be at most %d", m.kind(), len(b), MostBytes)
	}
	return b, nil
}

// Append adds a record to b: its type, when it was received, its length, its bytes.
func (r *Record) Append(b []byte) []byte {
	b = append(b, byte(r.Type))
	b = binary.BigEndian.AppendUint64(b, uint64(r.Received))
	b = binary.AppendUvarint(b, uint64(len(r.Bytes)))
	return append(b, r.Bytes...)
}

// Size is how many bytes a record takes in a message, at most.
func (r *Record) Size() int { return 1 + 8 + binary.MaxVarintLen32 + len(r.Bytes) }

var errShort = errors.New("it ends too early")

// Decode reads a message as Encode writes it; its bytes are used in the message. Members it does not know are skipped.
func Decode(b []byte) (Message, error) {
	if len(b) == 0 {
		return nil, errors.New("the message is empty")
	}
	kind := Kind(b[0])
	make, known := empty[kind]
	if !known {
		return nil, fmt.Errorf("the message is of kind %d; must be between %d and %d", kind, KindHello, KindNoted)
	}
	m := make()
	var err error
	switch m := m.(type) {
	case *Live:
		err = m.read(b[1:])
	case *Piece:
		err = m.read(b[1:])
	default:
		err = json.Unmarshal(b[1:], m)
	}
	if err != nil {
		return nil, fmt.Errorf("the message of kind %d cannot be read: %w", kind, err)
	}
	return m, nil
}

func (l *Live) read(b []byte) error {
	for len(b) > 0 {
		r, rest, err := CutRecord(b)
		if err != nil {
			return err
		}
		l.Records, b = append(l.Records, r), rest
	}
	return nil
}

// CutRecord reads a record as Append writes it, and returns what follows. Its bytes are used in the record.
func CutRecord(b []byte) (r Record, rest []byte, err error) {
	if len(b) < 9 {
		return r, nil, errShort
	}
	r = Record{Type: RecordType(b[0]), Received: int64(binary.BigEndian.Uint64(b[1:]))}
	if r.Type < RecordOpening || r.Type > RecordEnd {
		return r, nil, fmt.Errorf("a record is of type %d; must be between %d and %d", r.Type, RecordOpening, RecordEnd)
	}
	r.Bytes, rest, err = cut(b[9:])
	return r, rest, err
}

func (p *Piece) read(b []byte) error {
	session, b, err := cut(b)
	if err != nil {
		return err
	}
	part, b, err := number(b)
	if err != nil {
		return err
	}
	offset, b, err := number(b)
	if err != nil {
		return err
	}
	if part > math.MaxInt32 {
		return fmt.Errorf("part is %d; must be at most %d", part, math.MaxInt32)
	}
	if len(b) > MostPiece {
		return fmt.Errorf("the piece is %d bytes long; must be at most %d", len(b), MostPiece)
	}
	p.Session, p.Part, p.Offset, p.Bytes = string(session), int(part), offset, b
	return nil
}

// cut returns bytes that follow their length, and the rest.
func cut(b []byte) (bytes, rest []byte, err error) {
	n, b, err := number(b)
	if err != nil {
		return nil, nil, err
	}
	if n > int64(len(b)) {
		return nil, nil, errShort
	}
	return b[:n:n], b[n:], nil
}

func number(b []byte) (n int64, rest []byte, err error) {
	v, used := binary.Uvarint(b)
	if used <= 0 || v > math.MaxInt64 {
		return 0, nil, errShort
	}
	return int64(v), b[used:], nil
}
