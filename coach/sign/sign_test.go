package sign

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"halfturn/coach/canonical"
	"halfturn/coach/logbook"
	"halfturn/coach/names"
)

var at = time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)

// lay makes a folder of acts as they stand on the disk.
func lay(t *testing.T, lines ...string) *Folder {
	t.Helper()
	f := &Folder{Session: "KEY", Student: "Ada Example", Grades: []any{[]any{map[string]any{"score": 82.5}}}}
	for _, line := range lines {
		v, err := canonical.Read([]byte(line))
		if err != nil {
			t.Fatal(err)
		}
		var a logbook.Act
		if err := json.Unmarshal([]byte(line), &a); err != nil {
			t.Fatal(err)
		}
		f.Acts, f.Parsed = append(f.Acts, v), append(f.Parsed, a)
	}
	return f
}

// TestDocument holds the hash to a document written by hand, as the package documentation says it is.
func TestDocument(t *testing.T) {
	f := lay(t, `{"id":"1","kind":"overrule","by":{"name":"B. Example"},"words":"b. example: a gust","n":2}`)
	s := &logbook.Signature{Name: "B. Example"}
	sum := func(text string) string {
		h := sha256.Sum256([]byte(text))
		return hex.EncodeToString(h[:])
	}
	b := logbook.SignedName{Name: "B. Example", Salt: "00ff", Hash: sum("00ff\nb. example")}
	a := logbook.SignedName{Name: "Ada Example", Salt: "11", Hash: sum("11\nada example")}
	s.Names = []logbook.SignedName{b, a}
	who := "⟦" + b.Hash + "⟧"
	want := sum(`{"acts":[{"by":{"name":"` + who + `"},"id":"1","kind":"overrule","n":2,"words":"` + who +
		`: a gust"}],"at":"2031-05-04T09:00:07Z","grades":[[{"score":82.5}]],"session":"KEY","signer":"` + who +
		`","student":"⟦` + a.Hash + `⟧","version":1}`)
	got, err := f.hash(s, f.Acts, f.Parsed, at)
	if err != nil || got != want {
		t.Errorf("%s, %v; must be %s", got, err, want)
	}
}

// TestWithout: names are removed one after the other, each once; signatures hold all the same, and nothing but names
// may change. Acts of a later kind are signed and kept with members that this version does not know.
func TestWithout(t *testing.T) {
	lines := []string{
		`{"id":"1","kind":"remark","by":{"name":"owner"},"author":"C. Example",` +
			`"words":"Ada Example, and Dee: less bank"}`,
		`{"id":"2","kind":"later","by":{"name":"Ada"},"more":{"deep":[1,{"text":"by ADA EXAMPLE"}]}}`,
	}
	f := lay(t, lines...)
	for range 2 {
		s, err := New(f, "B. Example", []string{"Dee", "Nobody"}, at)
		if err != nil {
			t.Fatal(err)
		}
		line, err := json.Marshal(logbook.Act{ID: "s", Kind: logbook.ActSign, At: at, Signature: s})
		if err != nil {
			t.Fatal(err)
		}
		lines = append(lines, string(line))
		f = lay(t, lines...)
	}
	holds := func(what string, f *Folder) {
		t.Helper()
		for n := 2; n < 4; n++ {
			if !Verify(f, n) {
				t.Errorf("%s: signature %d does not hold", what, n)
			}
		}
	}
	holds("signed", f)
	if Verify(f, 0) || Verify(f, 9) {
		t.Error("what is no signature holds")
	}
	for _, name := range []string{"ada example", "B. Example", "Dee", "C. Example", "Ada"} {
		acts, changed := Without(f.Acts, f.Parsed, name, []string{"Ada"})
		var is []string
		for _, a := range acts {
			line, err := canonical.Append(nil, a)
			if err != nil {
				t.Fatal(err)
			}
			is = append(is, string(line))
			if names.Holds(string(line), name) {
				t.Errorf("%s still stands in %s", name, line)
			}
		}
		student := f.Student
		f = lay(t, is...)
		if f.Student = student; names.Key(name) == names.Key(student) {
			f.Student = names.Covered(HashOf(lay(t, lines...).Parsed, name))
		}
		if !changed {
			t.Errorf("%s: nothing was changed", name)
		}
		holds("without "+name, f)
		if _, changed := Without(f.Acts, f.Parsed, name, nil); changed {
			t.Errorf("%s is removed twice", name)
		}
	}
	broken := lay(t, strings.Replace(mustJSON(t, f.Acts[0]), "less", "more", 1), mustJSON(t, f.Acts[1]),
		mustJSON(t, f.Acts[2]))
	broken.Student = f.Student
	if Verify(broken, 2) {
		t.Error("it holds although words were changed")
	}
}

func mustJSON(t *testing.T, v any) string {
	t.Helper()
	data, err := canonical.Append(nil, v)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
