package hub

import (
	"io"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/stream/contain"
)

// Serve runs the viewer's writer beside a reader of its socket, and returns when both have ended. A fault in the writer
// ends this viewer alone; the page comes back by itself.
func (v *Viewer) Serve(conn *websocket.Conn, faults *contain.Faults) {
	done, wrote := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(wrote)
		defer conn.Close() // ends the reader, if it still waits
		faults.Run("viewer", conn.RemoteAddr().String(), func() {
			if v.pump(conn, done) == nil {
				awaitClose(conn, done)
			}
		})
	}()
	defer func() {
		close(done)
		<-wrote
	}()
	listen(conn)
}

// awaitClose gives the other side a moment to answer a close, so that it sees the code and
// not a reset.
func awaitClose(conn *websocket.Conn, done <-chan struct{}) {
	_ = conn.SetReadDeadline(time.Now().Add(time.Second))
	select {
	case <-done:
	case <-time.After(time.Second):
	}
}

// listen reads until the socket ends: without a reader neither pongs nor a close would be
// seen. What a viewer sends is dropped.
func listen(conn *websocket.Conn) {
	conn.SetReadLimit(readLimit)
	alive := func(string) error { return conn.SetReadDeadline(time.Now().Add(pongWait)) }
	conn.SetPongHandler(alive)
	_ = alive("")
	for {
		_, body, err := conn.NextReader()
		if err != nil {
			return
		}
		if _, err := io.Copy(io.Discard, body); err != nil {
			return
		}
	}
}
