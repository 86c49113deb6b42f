package main

import (
	"bytes"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"
)

// BenchmarkDatagramToSocket measures the time from sending a datagram to having read the
// WebSocket message it caused, one station at 30 samples a second, beside a bare relay that
// only passes the bytes on. The design asks for a p99 within 1.5 of the relay's. Run:
//
//	go test -run xxx -bench DatagramToSocket -benchtime 300x ./cmd/halfturn
func BenchmarkDatagramToSocket(b *testing.B) {
	b.Run("halfturn", func(b *testing.B) {
		s := serveLive(b, common{}, nil)
		measure(b, s.listener.Addresses()[0].String(), "ws"+strings.TrimPrefix(s.url(), "http")+"live")
	})
	b.Run("bare relay", func(b *testing.B) {
		udp, ws := bareRelay(b)
		measure(b, udp, ws)
	})
}

// measure sends samples paced by a ticker and waits for the message that carries each.
func measure(b *testing.B, udp, ws string) {
	in, err := net.Dial("udp", udp)
	if err != nil {
		b.Fatal(err)
	}
	defer in.Close()
	out, _, err := websocket.DefaultDialer.Dial(ws, nil)
	if err != nil {
		b.Fatal(err)
	}
	defer out.Close()
	var took []time.Duration
	pace := time.NewTicker(40 * time.Millisecond)
	defer pace.Stop()
	for n := 1; b.Loop(); n++ {
		<-pace.C
		at := 100 + float64(n)*0.04
		// Level flight, turning slowly, so that every sample differs.
		line := fmt.Appendf(nil, `{"type":"frame","time":%.3f,"heading":%.3f,"pitch":1,"bank":2,"airspeed":130,"altitude":5000}`+"\n", at, 90+float64(n)*0.01)
		want := fmt.Appendf(nil, `"time":%.12g,`, at)
		sent := time.Now()
		if _, err := in.Write(line); err != nil {
			b.Fatal(err)
		}
		for {
			_, m, err := out.ReadMessage()
			if err != nil {
				b.Fatal(err)
			}
			if bytes.Contains(m, []byte(`"type":"frame"`)) && (bytes.Contains(m, want) || bytes.Contains(m, []byte(fmt.Sprintf(`"time":%.3f,`, at)))) {
				break
			}
			if n < 3 { // the first frames find the station not yet watched
				break
			}
		}
		took = append(took, time.Since(sent))
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)/2].Microseconds()), "p50-µs")
	b.ReportMetric(float64(took[len(took)*99/100].Microseconds()), "p99-µs")
	b.ReportMetric(0, "ns/op")
}

// bareRelay passes datagrams on to a WebSocket and does nothing else.
func bareRelay(b *testing.B) (udp, ws string) {
	in, err := net.ListenPacket("udp", "127.0.0.1:0")
	if err != nil {
		b.Fatal(err)
	}
	upgrader := websocket.Upgrader{}
	web := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		conn, err := upgrader.Upgrade(w, r, nil)
		if err != nil {
			return
		}
		defer conn.Close()
		buf := make([]byte, 2048)
		for {
			n, _, err := in.ReadFrom(buf)
			if err != nil || conn.WriteMessage(websocket.TextMessage, buf[:n]) != nil {
				return
			}
		}
	}))
	b.Cleanup(func() { in.Close(); web.Close() })
	return in.LocalAddr().String(), "ws" + strings.TrimPrefix(web.URL, "http")
}
