package school_test

import (
	"context"
	"net/http"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/stream/phrase"
	"halfturn/web/share/link"
	"halfturn/web/share/school"
)

// changing are keys of which one can be revoked.
type changing struct {
	keyring
	mu      sync.Mutex
	revoked bool
}

func (c *changing) StationOf(ctx context.Context, key string, now time.Time) (string, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.revoked && key == "key-of-ada" {
		return "", school.ErrNoKey
	}
	return c.keyring.StationOf(ctx, key, now)
}

func (c *changing) HasKey(ctx context.Context, station string) (bool, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.revoked && station == c.keyring["key-of-ada"] {
		return false, nil
	}
	return c.keyring.HasKey(ctx, station)
}

func (c *changing) revoke() {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.revoked = true
}

// TestRevoked: a key that is revoked ends its link within seconds, and no other; at home the reason is shown, and
// coaching goes on. The close code is that of a policy (RFC 6455, 7.4.1).
func TestRevoked(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		known := &changing{keyring: keys}
		b := newBuilding(t, t.TempDir(), known, &pipes{})
		h := newHouse(t, t.TempDir(), "key-of-ada", b.doors, none)
		other := b.talk(t, "key-of-bo")
		f := h.fly(t, 1)
		f.goOn(5 * time.Second)
		if s := b.info("Ada's seat"); s == nil || !s.Share.Up {
			t.Fatalf("the school shows %+v", s)
		}
		known.revoke()
		f.goOn(5 * time.Second)
		if s := b.info("Ada's seat"); s == nil || s.Share.Up {
			t.Errorf("the school shows %+v", s)
		}
		s := h.info(seat.String())
		if s.Link != "live" || s.Share.Up || s.Share.Why.Code() != phrase.ShareKeyRefused.Of().Code() {
			t.Errorf("the home shows %+v, %+v", s, s.Share)
		}
		if _, answer := b.doors.knock(t, bearer("key-of-ada")); answer.StatusCode != http.StatusForbidden {
			t.Errorf("another attempt is answered %d", answer.StatusCode)
		}
		other.say(&link.Offer{Session: "none"})
		if _, ok := other.hear().(*link.Have); !ok {
			t.Error("the other home has lost its link")
		}
		other.conn.Close()
		f.handler.End()
		h.close(t)
		b.close(t)
	})
	synctest.Test(t, func(t *testing.T) {
		known := &changing{keyring: keys}
		b := newBuilding(t, t.TempDir(), known, &pipes{})
		k := b.talk(t, "key-of-ada")
		known.revoke()
		if bye, ok := k.hear().(*link.Bye); !ok || bye.Why.Code() != phrase.ShareKeyRefused.Of().Code() || !bye.Slow {
			t.Errorf("it is told %+v", bye)
		}
		_, _, err := k.conn.ReadMessage()
		if !websocket.IsCloseError(err, websocket.ClosePolicyViolation) {
			t.Errorf("it ends with %v", err)
		}
		k.conn.Close()
		b.close(t)
	})
}
