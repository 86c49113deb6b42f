package live

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"math/big"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"halfturn/coach/archive/folder"
	"halfturn/coach/command"
	"halfturn/coach/debrief"
	"halfturn/coach/ids"
	"halfturn/coach/maneuver"
	"halfturn/coach/stored"
	"halfturn/coach/who"
	"halfturn/configs"
	"halfturn/configs/settings"
	"halfturn/stream/streamtest"
)

// ownCards is a folder of cards with the shipped wing-over in it, whose title is another; again changes that.
func ownCards(t *testing.T) (dir string, again func(title string)) {
	t.Helper()
	dir = t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "maneuvers"), 0o750); err != nil {
		t.Fatal(err)
	}
	card, err := configs.FS.ReadFile("maneuvers/wing-over.toml")
	if err != nil {
		t.Fatal(err)
	}
	again = func(title string) {
		t.Helper()
		changed := bytes.Replace(card, []byte(`title = "Wing-over"`), []byte(`title = "`+title+`"`), 1)
		if bytes.Equal(changed, card) {
			t.Fatal("the card has another title")
		}
		if err := os.WriteFile(filepath.Join(dir, "maneuvers", "wing-over.toml"), changed, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	again("First")
	return dir, again
}

// Cards that are read again are those of the next session; the one that is flown keeps its own to its end, and grades
// the same again by them.
func TestReloadedCards(t *testing.T) {
	dir, again := ownCards(t)
	data := t.TempDir()
	ownFolder := func(c *settings.Config) { c.AddCards([]string{dir}) }
	read := func() *settings.Config { return config(t, "", data, ownFolder) }
	var live []*debrief.Report
	s := serveWith(t, read(), func(r *debrief.Report) { live = append(live, r) })
	conn, err := net.Dial("udp", s.Addresses()[0].String())
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	name, list := conn.LocalAddr().String(), streamtest.Payloads(t, brokenOff)
	fly := func(list [][]byte, before int) {
		t.Helper()
		for i, b := range list {
			if _, err := conn.Write(b); err != nil {
				t.Fatal(err)
			}
			if i%50 == 0 || i == len(list)-1 {
				s.await(t, name, before+i+1)
			}
		}
	}
	fly(list[:len(list)/2], 0)
	again("Second")
	if err := s.Reload(read()); err != nil {
		t.Fatal(err)
	}
	if p, _, err := s.desk.Plans(maneuver.Choice{Maneuver: "wing-over"}); err != nil || p.Card.Title != "Second" {
		t.Errorf("what can be chosen now: %v, %v", p, err)
	}
	fly(list[len(list)/2:], len(list)/2)
	c := command.New(ids.New(time.Now()), time.Now(), name, who.Owner(), command.End{})
	if err := s.desk.Do(t.Context(), c); err != nil {
		t.Fatal(err)
	}
	s.send(t, list)
	s.stop()
	if len(live) != 2 {
		t.Fatalf("%d sessions", len(live))
	}
	for i, title := range []string{"First", "Second"} {
		id := live[i].Session.ID
		kept, err := os.ReadFile(filepath.Join(folder.Cards(filepath.Join(data, "sessions", id)), "maneuvers",
			"wing-over.toml"))
		if err != nil || !strings.Contains(string(kept), `title = "`+title+`"`) {
			t.Errorf("session %d keeps another card than %s: %v", i, title, err)
		}
		rec, err := stored.Find(t.Context(), data, id)
		if err != nil {
			t.Fatal(err)
		}
		graded, err := (&stored.Regrade{Judge: judge(only(read())), By: who.Owner()}).Run(t.Context(), rec)
		flown := len(live[i].Files[0].Stations[0].Series) > 0
		if err != nil || len(graded.Differences) > 0 || !graded.Compared || !flown {
			t.Errorf("session %d, graded again by its own cards: %+v, %v", i, graded, err)
		}
	}
}

// When anything in a configuration that is read again cannot be used, everything goes on as it was, and the error says
// why.
func TestReloadRefused(t *testing.T) {
	dir, _ := ownCards(t)
	own := filepath.Join(dir, "maneuvers", "mine.toml")
	card, err := os.ReadFile(filepath.Join(dir, "maneuvers", "wing-over.toml"))
	if err != nil {
		t.Fatal(err)
	}
	mine := bytes.Replace(card, []byte(`title = "First"`), []byte(`title = "Mine"`), 1)
	mine = bytes.Replace(mine, []byte(`name = "wing-over"`), []byte(`name = "mine"`), 1)
	write := func(b []byte) {
		t.Helper()
		if err := os.WriteFile(own, b, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write(mine)
	data := t.TempDir()
	ownFolder := func(c *settings.Config) { c.AddCards([]string{dir}) }
	s := serveWith(t, config(t, "", data, ownFolder), nil)
	for _, c := range []struct {
		spoil func()
		says  string
	}{
		{func() { write([]byte("title = 3\n")) }, own + ":1"},
		{func() { os.Remove(own) }, "maneuvers/mine.toml is gone"},
	} {
		write(mine)
		c.spoil()
		next := config(t, written(t, "[recording]\nkeep-days = 3\n"), data, ownFolder)
		if err := s.Reload(next); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v; must say %s", err, c.says)
		}
		if s.config().Recording.KeepDays != 0 {
			t.Error("half of it was taken over")
		}
		if p, _, err := s.desk.Plans(maneuver.Choice{Maneuver: "mine"}); err != nil || p.Card.Title != "Mine" {
			t.Errorf("the card that was there: %v", err)
		}
	}
	write(mine)
	next := config(t, written(t, "max-stations = 7\n[judging]\nrequired = ['good']\n"), data, ownFolder)
	if err := s.Reload(next); err != nil {
		t.Fatal(err)
	}
	if now := s.config(); now.MaxStations != 7 || now.Judging.RequiredOf("wing-over") != "good" {
		t.Errorf("taken over: %+v", now)
	}
}

// A certificate that was renewed serves the connections that are opened after it was read again.
func TestReloadedCertificate(t *testing.T) {
	dir := t.TempDir()
	cfg := func() *settings.Config {
		return config(t, written(t, "[tls]\ncertificate = '"+filepath.Join(dir, "c.pem")+"'\nkey = '"+
			filepath.Join(dir, "k.pem")+"'\n"), filepath.Join(dir, "data"))
	}
	certify(t, dir, 1)
	s := serveWith(t, cfg(), nil)
	serial := func() int64 {
		t.Helper()
		c, err := tls.Dial("tcp", s.web.Addr().String(), &tls.Config{InsecureSkipVerify: true}) // it is looked at
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		return c.ConnectionState().PeerCertificates[0].SerialNumber.Int64()
	}
	if n := serial(); n != 1 {
		t.Errorf("certificate %d", n)
	}
	certify(t, dir, 2)
	if err := s.Reload(cfg()); err != nil || serial() != 2 {
		t.Errorf("certificate %d, %v; must be the renewed one", serial(), err)
	}
	if err := os.Remove(filepath.Join(dir, "k.pem")); err != nil {
		t.Fatal(err)
	}
	if err := s.Reload(cfg()); err == nil || serial() != 2 {
		t.Errorf("certificate %d, %v; must stay, for its key is gone", serial(), err)
	}
}

// certify writes a certificate with a serial number, and its key.
func certify(t *testing.T, dir string, serial int64) {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	c := &x509.Certificate{SerialNumber: big.NewInt(serial), NotAfter: time.Now().Add(time.Hour)}
	made, err := x509.CreateCertificate(rand.Reader, c, c, &key.PublicKey, key)
	if err != nil {
		t.Fatal(err)
	}
	private, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	for name, b := range map[string]*pem.Block{
		"c.pem": {Type: "CERTIFICATE", Bytes: made},
		"k.pem": {Type: "PRIVATE KEY", Bytes: private},
	} {
		if err := os.WriteFile(filepath.Join(dir, name), pem.EncodeToMemory(b), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}
