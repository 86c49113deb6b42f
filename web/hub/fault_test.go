package hub

import (
	"bytes"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/gorilla/websocket"
	"github.com/prometheus/client_golang/prometheus/testutil"
	"github.com/prometheus/common/expfmt"

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
	counted, err := testutil.CollectAndFormat(faults.Collector(), expfmt.TypeTextPlain,
		"halfturn_faults_total")
	if len(told) != 1 || err != nil || !bytes.Contains(counted, []byte("{part=\"viewer\"} 1\n")) {
		t.Errorf("told %v, counted %s, %v", told, counted, err)
	}
}
