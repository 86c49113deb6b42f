package people

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/alecthomas/kong"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/layout/layouttest"
	"halfturn/coach/people"
	"halfturn/coach/people/secret"
	"halfturn/coach/people/sqlite"
	"halfturn/coach/who"
	"halfturn/web"
)

// all are the commands of this package.
type all struct {
	Users       Users       `cmd:""`
	Stations    Stations    `cmd:""`
	Invitations Invitations `cmd:""`
}

// call runs a command on a data directory.
func call(t *testing.T, data string, args ...string) (string, error) {
	t.Helper()
	var c all
	parser, err := kong.New(&c, kong.BindTo(t.Context(), (*context.Context)(nil)))
	if err != nil {
		t.Fatal(err)
	}
	parsed, err := parser.Parse(append(args, "--data", data))
	if err != nil {
		return "", err
	}
	var out bytes.Buffer
	err = parsed.Run(base.Streams{Out: &out, Err: &out, Env: func(string) (string, bool) { return "", false }})
	return out.String(), err
}

// opened is the list of people of a data directory.
func opened(t *testing.T, data string) people.Store {
	t.Helper()
	s, err := sqlite.Open(filepath.Join(data, sqlite.FileName))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

func TestUsers(t *testing.T) {
	data := filepath.Join(t.TempDir(), "new")
	if _, err := call(t, data, "users", "add", "--station", "Seat 3", "Ada Example"); err == nil ||
		!strings.Contains(err.Error(), "owner") {
		t.Errorf("the first is a student: %v", err)
	}
	out, err := call(t, data, "users", "add", "--role", "owner", "--format", "json", "Bo Example")
	var made made
	if err != nil || json.Unmarshal([]byte(out), &made) != nil || made.User.Role != who.RoleOwner {
		t.Fatalf("%v: %s", err, out)
	}
	store := opened(t, data)
	password := func(name string) string {
		_, hash, err := store.UserNamed(t.Context(), name)
		if err != nil {
			t.Fatal(err)
		}
		return hash
	}
	if !secret.Right(made.Password, password("Bo Example")) || strings.Contains(password("Bo Example"), made.Password) {
		t.Error("the printed password is not the one that is kept, or is kept as it is")
	}
	for _, c := range []struct {
		args, says string
		fails      bool
	}{
		{"users add --station Seat_3 Ada", "Ada, student of Seat_3. First password: ", false},
		{"users add --station Seat_4 ada", `the name "Ada" is taken`, true},
		{"users add Cy", "needs a station", true},
		{"users add --role viewer Cy", "link", true},
		{"users add --role admin Cy", "must be owner, instructor, student", true},
		{"users list", "Bo Example  owner    all stations", false},
		{"users change --role instructor --group evening Ada", "instructor of group evening", false},
		{"users change --role student --station x bo_example", "no user", true},
		{"users reset Ada", "New password of Ada: ", false},
		{"users reset Nobody", `no user "Nobody"`, true},
		{"users log --user Ada", "WHEN", false},
		{"users log", "users reset", false},
		{"users remove Ada", "Ada is removed, and can log in no more. What they flew and said stays", false},
		{"users remove Ada", "no user", true},
	} {
		out, err := call(t, data, strings.Fields(c.args)...)
		if err != nil {
			out = err.Error()
		}
		if (err != nil) != c.fails || !strings.Contains(out, c.says) {
			t.Errorf("%s: %q; must say %q", c.args, out, c.says)
		}
	}
	was := password("Bo Example")
	if out, err := call(t, data, "users", "reset", "Bo Example"); err != nil || password("Bo Example") == was {
		t.Errorf("the owner gets no new password: %v, %s", err, out)
	}
}

// The last owner stays while there are others.
func TestLastOwner(t *testing.T) {
	data := t.TempDir()
	for _, args := range []string{"users add --role owner Bo", "users add --station x Ada"} {
		if _, err := call(t, data, strings.Fields(args)...); err != nil {
			t.Fatal(err)
		}
	}
	for _, args := range []string{"users remove Bo", "users change --role instructor Bo"} {
		_, err := call(t, data, strings.Fields(args)...)
		if err == nil || !strings.Contains(err.Error(), "other owner") {
			t.Errorf("%s: %v", args, err)
		}
	}
	for _, args := range []string{"users remove Ada", "users remove Bo"} {
		if _, err := call(t, data, strings.Fields(args)...); err != nil {
			t.Errorf("%s: %v", args, err)
		}
	}
}

// A key is printed once, or written where only its owner can read it; what is kept is its hash.
func TestStations(t *testing.T) {
	data, key := t.TempDir(), filepath.Join(t.TempDir(), "seat-3.key")
	out, err := call(t, data, "stations", "add", "--group", "evening", "--key-file", key, "Seat 3")
	if err != nil || !strings.Contains(out, key) {
		t.Fatalf("%v: %s", err, out)
	}
	text, err := os.ReadFile(key)
	if err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(key); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the key: %v, %v", info.Mode(), err)
	}
	store := opened(t, data)
	first := secret.Hash(strings.TrimSpace(string(text)))
	s, err := store.StationOf(t.Context(), first, time.Now())
	if err != nil || s.Name != "Seat 3" || s.Group != "evening" {
		t.Errorf("by its key: %+v, %v", s, err)
	}
	if _, err := call(t, data, "stations", "renew", "--key-file", key, "seat 3"); err == nil {
		t.Error("a file that is there is written over")
	}
	if _, err := store.StationOf(t.Context(), first, time.Now()); err != nil {
		t.Errorf("the key of before is gone, and the new one was not written: %v", err)
	}
	out, err = call(t, data, "stations", "renew", "seat 3")
	_, next, _ := strings.Cut(strings.TrimSpace(out), "told once: ")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := store.StationOf(t.Context(), secret.Hash(next), time.Now()); err != nil {
		t.Errorf("the new key %q: %v", next, err)
	}
	if _, err := store.StationOf(t.Context(), first, time.Now()); err == nil {
		t.Error("the key of before is good still")
	}
	for _, c := range []struct {
		args, says string
		fails      bool
	}{
		{"stations add Seat_4 --no-key --group morning", "has no key", false},
		{"stations add Seat_4", "choose another", true},
		{"stations list", "Seat_4  morning", false},
		{"stations revoke Nowhere", "stations list", true},
		{"stations remove Seat_4", "is removed", false},
	} {
		out, err := call(t, data, strings.Fields(c.args)...)
		if err != nil {
			out = err.Error()
		}
		if (err != nil) != c.fails || !strings.Contains(out, c.says) {
			t.Errorf("%s: %q; must say %q", c.args, out, c.says)
		}
	}
	if _, err := call(t, data, "stations", "revoke", "Seat 3"); err != nil {
		t.Fatal(err)
	}
	if _, err := store.StationOf(t.Context(), secret.Hash(next), time.Now()); err == nil {
		t.Error("a key that was revoked is good still")
	}
}

func TestInvitations(t *testing.T) {
	data := t.TempDir()
	out, err := call(t, data, "invitations", "add", "--for", "Cy", "--lasts", "2h", "--address", "https://desk.example",
		"Seat 3")
	_, token, ok := strings.Cut(strings.TrimSpace(out), "https://desk.example/invited#")
	if err != nil || !ok {
		t.Fatalf("%v: %s", err, out)
	}
	store := opened(t, data)
	i, err := store.Invited(t.Context(), secret.Hash(token), time.Now())
	if err != nil || i.Station != "Seat 3" || i.For != "Cy" || time.Until(i.Until) > 2*time.Hour {
		t.Errorf("by its link: %+v, %v", i, err)
	}
	if out, err := call(t, data, "invitations", "list"); err != nil || !strings.Contains(out, i.ID) ||
		strings.Contains(out, token) {
		t.Errorf("%v: %s", err, out)
	}
	for args, fails := range map[string]bool{
		"invitations add --lasts 721h x": true,
		"invitations remove nothing":     true,
		"invitations remove " + i.ID:     false,
	} {
		if _, err := call(t, data, strings.Fields(args)...); (err != nil) != fails {
			t.Errorf("%s: %v", args, err)
		}
	}
	if _, err := store.Invited(t.Context(), secret.Hash(token), time.Now()); err == nil {
		t.Error("a link that was ended is good still")
	}
}

// TestScreens: lists and sentences fit a terminal of 80 columns in each language; an empty list says how to fill it.
func TestScreens(t *testing.T) {
	for code, empty := range map[string]string{
		"en": "halfturn users add --role owner NAME",
		"de": "halfturn users add --role owner NAME",
		"es": "halfturn users add --role owner NOMBRE",
	} {
		in, err := web.Language(code)
		if err != nil {
			t.Fatal(err)
		}
		data := t.TempDir()
		for i, args := range [][]string{
			{"users", "list"},
			{"stations", "list"},
			{"invitations", "list"},
			{"users", "add", "--role", "owner", "Bo Example"},
			{"users", "list"},
			{"stations", "add", "Seat 3"},
			{"stations", "list"},
			{"users", "log"},
		} {
			var c all
			parser, err := kong.New(&c, kong.BindTo(t.Context(), (*context.Context)(nil)))
			if err != nil {
				t.Fatal(err)
			}
			parsed, err := parser.Parse(append(args, "--data", data))
			if err != nil {
				t.Fatal(err)
			}
			out := &layouttest.Terminal{Columns: 80}
			none := func(string) (string, bool) { return "", false }
			if err := parsed.Run(base.Streams{Out: out, Err: out, Env: none, Language: in}); err != nil {
				t.Fatal(err)
			}
			for line := range strings.Lines(out.String()) {
				if n := utf8.RuneCountInString(strings.TrimRight(line, "\n")); n > 80 {
					t.Errorf("%v in %s: %d columns: %s", args, code, n, line)
				}
			}
			if i == 0 && !strings.Contains(strings.ReplaceAll(out.String(), "\n", " "), empty) {
				t.Errorf("%s: the empty list is %q", code, out.String())
			}
		}
	}
}
