package nats

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash/fnv"
	"strings"
)

// mostToken is the longest token that a name is written as.
const mostToken = 120

// token writes a name so that it can stand between two dots of a subject. Different names have different tokens.
func token(name string) string {
	if name == "" {
		return "="
	}
	var b strings.Builder
	for i := range len(name) {
		c := name[i]
		if c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_' {
			b.WriteByte(c)
		} else {
			fmt.Fprintf(&b, "=%02x", c)
		}
		if b.Len() > mostToken {
			sum := sha256.Sum256([]byte(name))
			return "==" + hex.EncodeToString(sum[:])
		}
	}
	return b.String()
}

// A place is where a station's messages are kept.
type place struct {
	stream int    // number of its stream
	lease  string // subject of leases
	rec    string // subject of batches, without the session
	token  string // of the station
}

func (s *Settings) place(station string) place {
	h := fnv.New32a()
	h.Write([]byte(station))
	k := int(h.Sum32() % uint32(s.Keeping.Streams))
	at := fmt.Sprintf("%s.st.%02x.%s.", s.Prefix, k, token(station))
	return place{stream: k, lease: at + "lease", rec: at + "rec.", token: token(station)}
}

// ofSession is the subject of the batches of a session.
func (p place) ofSession(session string) string { return p.rec + token(session) }

// all is the subject of the batches of all sessions.
func (p place) all() string { return p.rec + "*" }

func (s *Settings) streamName(k int) string { return fmt.Sprintf("%s-st-%02x", s.Prefix, k) }

// subjects are those of a stream.
func (s *Settings) subjects(k int) []string {
	return []string{s.leases(k), fmt.Sprintf("%s.st.%02x.*.rec.*", s.Prefix, k)}
}

// leases is the subject of the leases in a stream.
func (s *Settings) leases(k int) string { return fmt.Sprintf("%s.st.%02x.*.lease", s.Prefix, k) }

func (s *Settings) tell(topic, station string) string {
	return fmt.Sprintf("%s.tell.%s.%s", s.Prefix, token(topic), token(station))
}

func (s *Settings) tellAll(topic string) string {
	return fmt.Sprintf("%s.tell.%s.*", s.Prefix, token(topic))
}

func (s *Settings) ask(node string) string { return s.Prefix + ".ask." + token(node) }
