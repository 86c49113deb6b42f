package students

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/place"
	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/people"
	peoplestore "halfturn/coach/people/sqlite"
	"halfturn/coach/who"
	"halfturn/web"
)

// flown makes a data directory with one session of a student.
func flown(t *testing.T, name string) (data string) {
	t.Helper()
	data = t.TempDir()
	a, err := archive.Open(data, archive.Options{Engine: sqlite.Engine{}, Version: "1.2"})
	if err != nil {
		t.Fatal(err)
	}
	id, err := a.NewID(booktest.Began, "seat")
	if err != nil {
		t.Fatal(err)
	}
	e := booktest.Entry(id, booktest.Began, name)
	e.Key = ""
	r := booktest.Report(id, booktest.Flight(1, coach.Finished, coach.Met, coach.Good, 90, "More bank"))
	_, saved := a.Save(id, r)
	ended := booktest.Began.Add(time.Hour)
	for _, err := range []error{saved, a.Begin(*e), a.Keep(id, r), a.End(id, ended), a.Close()} {
		if err != nil {
			t.Fatal(err)
		}
	}
	return data
}

// A runner is one of the commands.
type runner interface {
	Run(ctx context.Context, s base.Streams) error
}

// TestCommands: a student is listed, has a grade sheet, is exported, and is gone once forgotten; without --yes nothing
// is deleted.
func TestCommands(t *testing.T) {
	data := flown(t, "Ada Example")
	store, err := peoplestore.Open(filepath.Join(data, peoplestore.FileName))
	if err != nil {
		t.Fatal(err)
	}
	ada := people.User{ID: "1", Name: "Ada Example", Role: who.RoleStudent, Made: booktest.Began}
	if err := errors.Join(store.AddUser(ada, "hash"), store.Close()); err != nil {
		t.Fatal(err)
	}
	at := bookFlags{place.Flags{Data: data}}
	run := func(c runner) (string, error) {
		var out bytes.Buffer
		none := func(string) (string, bool) { return "", false }
		err := c.Run(t.Context(), base.Streams{Out: &out, Err: &out, Env: none})
		return out.String(), err
	}
	named, file := []string{"ada", "example"}, filepath.Join(t.TempDir(), "ada.zip")
	for _, c := range []struct {
		what string
		do   runner
		want string
	}{
		{"list", &listCmd{bookFlags: at, Format: "text"}, "Ada Example"},
		{"list as JSON", &listCmd{bookFlags: at, Format: "json"}, `"sessions": 1`},
		{"sheet", &sheetCmd{bookFlags: at, Name: named, Format: "text"}, "good 90"},
		{"sheet as CSV", &sheetCmd{bookFlags: at, Name: named, Format: "csv"}, "Ada Example,wing-over,"},
		{"sheet as JSON", &sheetCmd{bookFlags: at, Name: named, Format: "json"}, `"student": "Ada Example"`},
		{"sheet as PDF", &sheetCmd{bookFlags: at, Name: named, Format: "pdf", Paper: "a4"}, "%PDF-"},
		{"export", &exportCmd{bookFlags: at, Name: named, Output: file}, "by Ada Example: 1, sessions of " +
			"others that name them: 0.\nFrom the list of people: users: 1, logins: 0, links: 0, entries of the " +
			"log: 0."},
		{"forget", &forgetCmd{bookFlags: at, Name: named}, "Nothing is deleted yet"},
		{"still there", &listCmd{bookFlags: at, Format: "text"}, "Ada Example"},
		{"forget for good", &forgetCmd{bookFlags: at, Name: named, Yes: true},
			"from which the name was removed: 0.\nUsers removed: 1."},
		{"list nobody", &listCmd{bookFlags: at, Format: "text"}, "No student is named"},
	} {
		if out, err := run(c.do); err != nil || !strings.Contains(out, c.want) {
			t.Errorf("%s: %q, %v; must say %q", c.what, out, err, c.want)
		}
	}
	if zip, err := os.ReadFile(file); err != nil || !bytes.HasPrefix(zip, []byte("PK")) {
		t.Errorf("the export begins with %.4q, %v", zip, err)
	}
	for what, c := range map[string]runner{
		"sheet":  &sheetCmd{bookFlags: at, Name: named, Format: "text"},
		"export": &exportCmd{bookFlags: at, Name: named, Output: file, Force: true},
		"forget": &forgetCmd{bookFlags: at, Name: named, Yes: true},
	} {
		if out, err := run(c); err == nil || !strings.Contains(err.Error(), "there is no student") {
			t.Errorf("%s of nobody: %q, %v", what, out, err)
		}
	}
}

// TestSheetInLanguages: the grade sheet at a terminal speaks the language, with the words of the printed one.
func TestSheetInLanguages(t *testing.T) {
	data := flown(t, "Ada Example")
	for code, wants := range map[string][]string{
		"de": {"Notenblatt von Ada Example", "Sitzungen: 1, unterschrieben: 0", "LETZTE", "gut 90"},
		"es": {"Hoja de notas de Ada Example", "sesiones: 1, firmadas: 0", "ÚLTIMA", "90"},
	} {
		in, err := web.Language(code)
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		none := func(string) (string, bool) { return "", false }
		c := &sheetCmd{bookFlags: bookFlags{place.Flags{Data: data}}, Name: []string{"Ada Example"}, Format: "text"}
		if err := c.Run(t.Context(), base.Streams{Out: &out, Err: &out, Env: none, Language: in}); err != nil {
			t.Fatal(err)
		}
		for _, want := range append(wants, in.Text(coach.Cautions[0])) {
			if !strings.Contains(out.String(), want) {
				t.Errorf("%s: lacks %q:\n%s", code, want, out.String())
			}
		}
	}
}

// TestForgetUser: somebody who is only a user, or only has a link, and never flew is forgotten too; the last owner is
// not while there are other users.
func TestForgetUser(t *testing.T) {
	data := t.TempDir()
	file := filepath.Join(data, peoplestore.FileName)
	store, err := peoplestore.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	bo := people.User{ID: "1", Name: "Bo Example", Role: who.RoleOwner, Made: booktest.Began}
	ada := people.User{ID: "2", Name: "Ada Example", Role: who.RoleStudent, Made: booktest.Began}
	link := people.Invitation{ID: "3", Station: "Seat 3", For: "Cy Example", Made: booktest.Began,
		Until: time.Now().Add(time.Hour)}
	if err := errors.Join(store.AddUser(bo, "hash"), store.AddUser(ada, "hash"), store.Invite(link, people.Hash{1}),
		store.Close()); err != nil {
		t.Fatal(err)
	}
	exportsUser(t, data)
	run := func(yes bool, name ...string) (string, error) {
		var out bytes.Buffer
		none := func(string) (string, bool) { return "", false }
		c := forgetCmd{bookFlags: bookFlags{place.Flags{Data: data}}, Name: name, Yes: yes}
		err := c.Run(t.Context(), base.Streams{Out: &out, Err: &out, Env: none})
		return out.String(), err
	}
	for _, c := range []struct {
		yes  bool
		name string
		want string
	}{
		{true, "Bo Example", "there is no other owner"},
		{false, "ada example", "their user: 1, links made for them: 0"},
		{true, "ADA Example", "Users removed: 1. Links ended: 0."},
		{true, "Ada Example", "there is no student"},
		{false, "Cy Example", "their user: 0, links made for them: 1"},
		{true, "Cy Example", "Users removed: 0. Links ended: 1."},
		{false, "Nobody", "there is no student"},
		{true, "Bo Example", "Users removed: 1."}, // the others are gone
	} {
		out, err := run(c.yes, strings.Fields(c.name)...)
		if said := fmt.Sprint(out, err); !strings.Contains(said, c.want) {
			t.Errorf("%s, %v: %q; must say %q", c.name, c.yes, said, c.want)
		}
	}
}

// exportsUser: what is stored about somebody who never flew is exported, without the password and its hash; of a
// stranger no file is made.
func exportsUser(t *testing.T, data string) {
	t.Helper()
	for name, want := range map[string]string{
		"ada example": `"name": "Ada Example"`,
		"CY Example":  `"for": "Cy Example"`,
		"Nobody":      "",
	} {
		file := filepath.Join(t.TempDir(), "a.zip")
		var out bytes.Buffer
		none := func(string) (string, bool) { return "", false }
		c := exportCmd{bookFlags: bookFlags{place.Flags{Data: data}}, Name: strings.Fields(name), Output: file}
		if want == "" {
			if err := c.Run(t.Context(), base.Streams{Out: &out, Err: &out, Env: none}); err == nil {
				t.Errorf("a stranger is exported: %s", out.String())
			}
			if _, err := os.Stat(file); err == nil {
				t.Error("there is a file of a stranger")
			}
			continue
		}
		if err := c.Run(t.Context(), base.Streams{Out: &out, Err: &out, Env: none}); err != nil {
			t.Fatal(err)
		}
		z, err := zip.OpenReader(file)
		if err != nil {
			t.Fatal(err)
		}
		text, err := fs.ReadFile(z, "people.json")
		if err != nil || !strings.Contains(string(text), want) || strings.Contains(string(text), "hash") {
			t.Errorf("%s: %v: %s; must hold %s and no hash", name, err, text, want)
		}
		if err := z.Close(); err != nil {
			t.Error(err)
		}
	}
}
