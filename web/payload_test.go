package web

import (
	"reflect"
	"testing"

	"github.com/gorilla/websocket"
)

// payload returns a prepared message's bytes, which the library keeps to itself.
func payload(t testing.TB, m *websocket.PreparedMessage) []byte {
	t.Helper()
	data := reflect.ValueOf(m).Elem().FieldByName("data")
	if !data.IsValid() {
		t.Fatal("websocket.PreparedMessage has no data any more")
	}
	return data.Bytes()
}
