package home

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/stream/phrase"
	"halfturn/web/share/link"
)

// mostAnswer bounds what is read of an answer that is no link, bytes.
const mostAnswer = 8 << 10

// dial opens the socket.
func (s *Sharer) dial(ctx context.Context) (*websocket.Conn, error) {
	ctx, cancel := context.WithTimeout(ctx, handshake)
	defer cancel()
	d := websocket.Dialer{
		Proxy:             http.ProxyFromEnvironment,
		NetDialContext:    s.opt.Dial,
		TLSClientConfig:   s.opt.TLS,
		HandshakeTimeout:  handshake,
		EnableCompression: true,
	}
	at := s.opt.URL.JoinPath(path)
	at.Scheme = map[string]string{"https": "wss", "http": "ws"}[at.Scheme]
	conn, answer, err := d.DialContext(ctx, at.String(), http.Header{"Authorization": {"Bearer " + s.opt.Key}})
	if err == nil {
		return conn, nil
	}
	if answer == nil {
		return nil, s.unreached(err)
	}
	defer answer.Body.Close()
	return nil, s.refusal(answer)
}

// refusal is what an answer says that is no link.
func (s *Sharer) refusal(answer *http.Response) error {
	var body struct {
		Error string `json:"error"`
	}
	text, err := io.ReadAll(io.LimitReader(answer.Body, mostAnswer))
	if err == nil {
		err = json.Unmarshal(text, &body)
	}
	if err != nil || body.Error == "" {
		if answer.StatusCode/100 == 3 {
			return s.trouble(nil, "", " sends its visitors to another address; set share.url to that of the school")
		}
		code := strconv.Itoa(answer.StatusCode)
		return s.trouble(nil, "", " answers "+code+", as no Halfturn does; check share.url")
	}
	slow := answer.StatusCode == http.StatusForbidden || answer.StatusCode == http.StatusUnauthorized
	return &byeError{why: phrase.Read(body.Error), slow: slow}
}

// greet says who this is, and takes the welcome.
func (s *Sharer) greet(conn *websocket.Conn) error {
	conn.SetReadLimit(link.MostBytes)
	if err := write(conn, &link.Hello{Version: link.Version, Program: s.opt.Version}); err != nil {
		return err
	}
	asked := time.Now()
	if err := conn.SetReadDeadline(asked.Add(handshake)); err != nil {
		return err
	}
	m, err := read(conn)
	if err != nil {
		return err
	}
	now := time.Now()
	switch m := m.(type) {
	case *link.Bye:
		s.refuse(m.Why)
		return &byeError{m.Why, m.Slow}
	case *link.Welcome:
		s.mu.Lock()
		defer s.mu.Unlock()
		s.as = m.Station
		s.clock = m.At.Sub(asked.Add(now.Sub(asked) / 2))
		return nil
	}
	return nonsenseError(fmt.Sprintf("a message of kind %d first; must be a welcome", link.KindOf(m)))
}

// leastCompressed is the shortest message that is worth compressing, bytes.
const leastCompressed = 200

// write sends a message.
func write(conn *websocket.Conn, m link.Message) error {
	b, err := link.Encode(m)
	if err != nil {
		return err
	}
	if err := conn.SetWriteDeadline(time.Now().Add(writeWait)); err != nil {
		return err
	}
	conn.EnableWriteCompression(len(b) >= leastCompressed)
	return conn.WriteMessage(websocket.BinaryMessage, b)
}

// read takes the next message. What is compressed cannot be longer than the longest message either.
func read(conn *websocket.Conn) (link.Message, error) {
	kind, r, err := conn.NextReader()
	if err != nil {
		return nil, err
	}
	if kind != websocket.BinaryMessage {
		return nil, nonsenseError("text; must be binary messages")
	}
	b, err := io.ReadAll(io.LimitReader(r, link.MostBytes+1))
	if err != nil {
		return nil, err
	}
	if len(b) > link.MostBytes {
		return nil, errTooLong
	}
	m, err := link.Decode(b)
	if err != nil {
		return nil, nonsenseError("a message that cannot be read: " + err.Error())
	}
	return m, nil
}
