package link

import (
	"encoding/json"
	"time"

	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// Version is the version of the protocol. A school takes homes of its own version.
const Version = 1

// Limits of a message, bytes.
const (
	MostBytes = 4 << 20  // of any; the cards of a session are the longest
	MostPiece = 64 << 10 // of a file at a time
	MostLive  = 64 << 10 // of live records at a time, but for a longer one
)

// A Kind is the first byte of a message.
type Kind byte

// The kinds of messages.
const (
	KindHello Kind = iota + 1
	KindWelcome
	KindBye
	KindLive
	KindOffer
	KindBegin
	KindPiece
	KindWhole
	KindFinish
	KindHave
	KindState
	KindCommand
	KindResult
	KindWatching
	KindActs
	KindNoted
)

// A Message is one of those below.
type Message interface{ kind() Kind }

// KindOf returns the kind of a message.
func KindOf(m Message) Kind { return m.kind() }

// From the home.
type (
	// Hello is the first message. The key stands in the header of the request.
	Hello struct {
		Version int    `json:"version"`
		Program string `json:"program"` // version of Halfturn
	}

	// Live is what was received, in its order, since the Live before.
	Live struct{ Records []Record }

	// Offer asks how much the school has of a session.
	Offer struct {
		Session string `json:"session"`
	}

	// Begin describes a session that the school did not know.
	Begin struct {
		Session string          `json:"session"`
		Entry   json.RawMessage `json:"entry"` // a logbook.Entry
	}

	// Piece is bytes of a file of a recording, without compression, from an offset.
	Piece struct {
		Session string
		Part    int // number of the file, from 1
		Offset  int64
		Bytes   []byte
	}

	// Whole says that a file of a recording is complete.
	Whole struct {
		Session string `json:"session"`
		Part    int    `json:"part"`
		Size    int64  `json:"size"`
		SHA256  string `json:"sha256"` // in hexadecimal digits
	}

	// Finish says that a session is over, and that all of its files were sent.
	Finish struct {
		Session string    `json:"session"`
		Ended   time.Time `json:"ended"`
	}

	// Acts are what people at home added to a session, also after it was complete.
	Acts struct {
		Session string          `json:"session"`
		From    int             `json:"from"` // how many were sent before these, on this link
		Acts    json.RawMessage `json:"acts"` // a list of logbook.Act
	}

	// State is sent every few seconds.
	State struct {
		At      time.Time `json:"at"`                // by the clock of the home
		Behind  float64   `json:"behind"`            // s of which the school does not have the recording
		Bytes   int64     `json:"bytes"`             // that are still to be sent of recordings
		Dropped uint64    `json:"dropped"`           // datagrams that the live lane left out since the home started
		Private bool      `json:"private,omitempty"` // nothing is shared now
	}

	// Result answers a Command.
	Result struct {
		ID      string         `json:"id"`
		Refused *phrase.Phrase `json:"refused,omitempty"` // nil: it was done
	}
)

// From the school.
type (
	// Welcome lets the home in.
	Welcome struct {
		Version int       `json:"version"`
		Station string    `json:"station"` // what the school calls the home
		At      time.Time `json:"at"`      // by the clock of the school
	}

	// Bye says why the link ends.
	Bye struct {
		Why  phrase.Phrase `json:"why"`
		Slow bool          `json:"slow"` // to try again soon is useless
	}

	// Have says how much the school has of a recording: the files before a part, and that many bytes of it.
	Have struct {
		Session string `json:"session"`
		Known   bool   `json:"known"` // false: a Begin must come first
		Part    int    `json:"part"`
		Size    int64  `json:"size"`
		Rewind  bool   `json:"rewind,omitempty"` // to go on from here, whatever was sent since
		Done    bool   `json:"done,omitempty"`   // the session is complete here; nothing more is needed
	}

	// Command is to be done at the station of the home, as package command writes it.
	Command struct {
		ID      string          `json:"id"`
		Command json.RawMessage `json:"command"`
	}

	// Noted answers Acts: how many of a session the school has noted, on this link.
	Noted struct {
		Session string `json:"session"`
		Acts    int    `json:"acts"`
	}

	// Watching lists who watches at the school.
	Watching struct {
		Watchers []who.Who `json:"watchers"`
		Nameless int       `json:"nameless"`
	}
)

// A Record is one entry of the live lane.
type Record struct {
	Type     RecordType
	Received int64 // ns since the Unix epoch, by the clock of the home; of a datagram
	Bytes    []byte
}

// A RecordType says what a Record is.
type RecordType byte

// The types of records.
const (
	RecordOpening  RecordType = iota + 1 // a session begins, or goes on: the comment at the head of its recording
	RecordHead                           // a datagram that came before the first sample, and may describe the format
	RecordComment                        // a comment on the next datagram; of a session that goes on, on one before too
	RecordDatagram                       // as it was received
	RecordEnd                            // the session is over
)

func (*Hello) kind() Kind    { return KindHello }
func (*Welcome) kind() Kind  { return KindWelcome }
func (*Bye) kind() Kind      { return KindBye }
func (*Live) kind() Kind     { return KindLive }
func (*Offer) kind() Kind    { return KindOffer }
func (*Begin) kind() Kind    { return KindBegin }
func (*Piece) kind() Kind    { return KindPiece }
func (*Whole) kind() Kind    { return KindWhole }
func (*Finish) kind() Kind   { return KindFinish }
func (*Have) kind() Kind     { return KindHave }
func (*State) kind() Kind    { return KindState }
func (*Command) kind() Kind  { return KindCommand }
func (*Result) kind() Kind   { return KindResult }
func (*Watching) kind() Kind { return KindWatching }
func (*Acts) kind() Kind     { return KindActs }
func (*Noted) kind() Kind    { return KindNoted }

// empty makes an empty message of each kind.
var empty = map[Kind]func() Message{
	KindHello:    func() Message { return new(Hello) },
	KindWelcome:  func() Message { return new(Welcome) },
	KindBye:      func() Message { return new(Bye) },
	KindLive:     func() Message { return new(Live) },
	KindOffer:    func() Message { return new(Offer) },
	KindBegin:    func() Message { return new(Begin) },
	KindPiece:    func() Message { return new(Piece) },
	KindWhole:    func() Message { return new(Whole) },
	KindFinish:   func() Message { return new(Finish) },
	KindHave:     func() Message { return new(Have) },
	KindState:    func() Message { return new(State) },
	KindCommand:  func() Message { return new(Command) },
	KindResult:   func() Message { return new(Result) },
	KindWatching: func() Message { return new(Watching) },
	KindActs:     func() Message { return new(Acts) },
	KindNoted:    func() Message { return new(Noted) },
}
