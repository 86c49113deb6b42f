package hub

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/gorilla/websocket"
	"github.com/prometheus/client_golang/prometheus/testutil"

	"halfturn/stream/contain"
)

// A fault in a viewer's writer closes its socket, ends its reader, and is counted.
func TestFaultEndsOneViewer(t *testing.T) {
	var told []error
	faults, over := contain.New(func(err error) { told = append(told, err) }), make(chan struct{})
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer close(over)
		conn, err := new(websocket.Upgrader).Upgrade(w, r, nil)
		if err != nil {
			t.Error(err)
			return
		}
		v := newViewer(&pace{})
		v.wall = &wallView{} // of no hub: to look at it is a fault
		v.Serve(conn, faults)
	}))
	defer server.Close()
	conn, answer, err := websocket.DefaultDialer.Dial("ws"+strings.TrimPrefix(server.URL, "http"), nil)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	defer conn.Close()
	if _, _, err := conn.ReadMessage(); err == nil {
		t.Error("the socket is open")
	}
	<-over
	if len(told) != 1 || testutil.ToFloat64(faults.Counted("viewer")) != 1 {
		t.Errorf("told %v", told)
	}
}
