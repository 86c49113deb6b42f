package school_test

import (
	"context"
	"path/filepath"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"halfturn/coach/archive/folder"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// left waits until the school has ended a session without its home, and returns what it says of that.
func (b *building) left(t *testing.T, id string) *folder.Left {
	t.Helper()
	dir := filepath.Join(b.book.Dir(), id)
	settled(t, "the session is not ended", func() bool { return folder.LeftIn(dir) != nil })
	return folder.LeftIn(dir)
}

// TestHomeNeverReturns: a session whose home has no link for longer than the school waits is ended, and graded as far
// as it goes, counting from the loss of the link also where the school is started again meanwhile. It says what is
// missing, its recording is left as it is, and when the home returns after all it is completed to the byte. A signature
// from before then holds: the grades that come with the rest are other ones.
func TestHomeNeverReturns(t *testing.T) {
	for _, signed := range []bool{false, true} {
		synctest.Test(t, func(t *testing.T) {
			doors, data := &pipes{}, t.TempDir()
			b := newBuilding(t, data, keys, doors)
			h := newHouse(t, t.TempDir(), "key-of-ada", doors, none)
			f := h.fly(t, 3)
			f.goOn(100 * time.Second)
			session := h.only(t)
			doors.set(true)
			f.goOn(30 * time.Second)

			<-time.After(patience / 2)
			if d, err := b.book.Session(t.Context(), session); err != nil || d.Ended != "" {
				t.Fatalf("before the time the session says %+v, %v", d, err)
			}
			b.close(t)
			b = newBuilding(t, data, keys, doors)
			<-time.After(patience/2 + time.Minute)
			left := b.left(t, session)
			d, err := b.book.Session(t.Context(), session)
			if err != nil || d.Ended == "" || d.Legs < 1 || d.Left.Code() != phrase.ShareLeft.Of().Code() {
				t.Errorf("the session says %+v, %v", d, err)
			}
			if left.Missing > 5 || left.Revoked {
				t.Errorf("ended with %+v; the recording is 5 s behind at most", left)
			}
			if r, ok := b.book.Received("Ada's seat", session); !ok || r.Done {
				t.Errorf("the session is %+v, %v: its home could not complete it", r, ok)
			}
			for name := range b.files(t, session) {
				if strings.HasSuffix(name, ".zst") {
					t.Errorf("%s is compressed, and may grow", name)
				}
			}
			if signed {
				if err := b.book.Sign(who.Who{Name: "Cy", Role: who.RoleInstructor}, session, "Cy"); err != nil {
					t.Fatal(err)
				}
			}
			b.close(t)
			b = newBuilding(t, data, keys, doors)
			<-time.After(patience + time.Minute)
			if again := b.left(t, session); again.At != left.At {
				t.Errorf("it is ended again at %v, after %v", again.At, left.At)
			}

			doors.set(false)
			f.goOn(time.Hour)
			f.handler.End()
			if id := b.complete(t, "Ada's seat", session); id != session {
				t.Errorf("the session is %q at home and %q at the school", session, id)
			}
			d, err = b.book.Session(t.Context(), session)
			if err != nil || d.Left.Code() != "" || d.Ended == "" {
				t.Errorf("completed, the session says %+v, %v", d, err)
			}
			if !signed {
				equal(t, h, session, b, session)
				if d.Legs != 3 || len(d.Regrades) > 0 {
					t.Errorf("%d legs, %d gradings more", d.Legs, len(d.Regrades))
				}
			} else if s := d.Judging.Signed; len(s) != 1 || !s[0].Holds || len(d.Regrades) != 1 {
				t.Errorf("signed %+v; %d gradings more", s, len(d.Regrades))
			}
			h.close(t)
			b.close(t)
		})
	}
}

// TestRevokedEnds: where the key of a station is revoked its session is ended at once, with or without a link, and no
// other; the desk shows why.
func TestRevokedEnds(t *testing.T) {
	for _, cut := range []bool{false, true} {
		synctest.Test(t, func(t *testing.T) {
			known := &changing{keyring: keys}
			doors := &pipes{}
			b := newBuilding(t, t.TempDir(), known, doors)
			h := newHouse(t, t.TempDir(), "key-of-ada", doors, none)
			f := h.fly(t, 1)
			f.goOn(20 * time.Second)
			session := h.only(t)
			doors.set(cut)
			f.goOn(3 * time.Second)
			if folder.LeftIn(filepath.Join(b.book.Dir(), session)) != nil {
				t.Fatal("it is ended with its key")
			}
			known.revoke()
			began := time.Now()
			left := b.left(t, session)
			if took := time.Since(began); !left.Revoked || took > 61*time.Second || !cut && took > 5*time.Second {
				t.Errorf("ended after %v with %+v", took, left)
			}
			if s := b.info("Ada's seat"); !cut {
				settled(t, "the desk does not show why", func() bool {
					s = b.info("Ada's seat")
					return s != nil && s.Share.Why.Code() == phrase.ShareLeftRevoked.Of().Code()
				})
			}
			f.handler.End()
			h.close(t)
			b.close(t)
		})
	}
}

// TestLeftMissing: what the desk was shown of a session and its recording lacks is missing, and it ended
// with what was recorded last.
func TestLeftMissing(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b := newBuilding(t, t.TempDir(), keys, &pipes{})
		h := newHouse(t, t.TempDir(), "key-of-ada", b.doors, none)
		f := h.fly(t, 1)
		f.goOn(20 * time.Second)
		session := h.only(t)
		b.doors.set(true)
		synctest.Wait()
		all, err := b.book.Awaited()
		if err != nil || len(all) != 1 || all[0].Lost.IsZero() || all[0].Seen.IsZero() {
			t.Fatalf("awaited are %+v, %v", all, err)
		}
		last, err := b.book.Recorded(context.Background(), session)
		if err != nil || time.Since(last) > 10*time.Second {
			t.Fatalf("recorded up to %v, %v", last, err)
		}
		all[0].Seen = last.Add(41500 * time.Millisecond)
		if err := all[0].Note(b.book); err != nil {
			t.Fatal(err)
		}
		<-time.After(patience + time.Minute)
		if left := b.left(t, session); left.Missing != 42 {
			t.Errorf("ended with %+v; must miss 42 s", left)
		}
		d, err := b.book.Session(t.Context(), session)
		if err != nil || d.Ended != last.UTC().Format(time.RFC3339) {
			t.Errorf("it ended %s, %v; must be %v", d.Ended, err, last.UTC())
		}
		f.handler.End()
		h.close(t)
		b.close(t)
	})
}
