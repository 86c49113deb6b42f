package folder

import (
	"strings"
	"testing"
)

// TestMergeActs: of two files of acts every act is kept once, those of theirs first; half a line counts for nothing.
func TestMergeActs(t *testing.T) {
	const a, b, c = `{"id":"a","words":"x"}` + "\n", `{"id":"b"}` + "\n", `{"id":"c"}` + "\n"
	for _, x := range []struct{ ours, theirs, both string }{
		{"", "", ""},
		{a, "", a},
		{"", a, a},
		{a + b, a + c, a + c + b},
		{a + b, b + a, b + a},
		{a + b, a + b + c, a + b + c},
		{a + `{"id":"b"`, a + c, a + c},
		{a, c + `{"id`, c + a},
		{"not an act\n", "not an act\n", "not an act\n"},
	} {
		both, err := Merge(ActsFile)([]byte(x.ours), []byte(x.theirs))
		if err != nil || string(both) != x.both {
			t.Errorf("of %q and %q: %q, %v; must be %q", x.ours, x.theirs, both, err, x.both)
		}
	}
}

// TestMergeNotes: ours stay, with the gradings and the end that theirs know.
func TestMergeNotes(t *testing.T) {
	for name, x := range map[string]struct {
		ours, theirs string
		has, lacks   []string
	}{
		"gradings of both": {
			`{"student":"ours","regrades":[{"at":"1"},{"at":"2"}]}`,
			`{"student":"theirs","regrades":[{"at":"1"},{"at":"3"}]}`,
			[]string{`"ours"`, `"at": "1"`, `"at": "2"`, `"at": "3"`}, []string{`"theirs"`},
		},
		"the end of theirs": {`{"regrades":[]}`, `{"ended":"today"}`, []string{`"ended": "today"`}, nil},
		"the end of ours":   {`{"ended":"now"}`, `{"ended":"today"}`, []string{`"ended": "now"`}, []string{"today"}},
	} {
		both, err := Merge(NotesFile)([]byte(x.ours), []byte(x.theirs))
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		for _, words := range x.has {
			if strings.Count(string(both), words) != 1 {
				t.Errorf("%s: %s must hold %s once", name, both, words)
			}
		}
		for _, words := range x.lacks {
			if strings.Contains(string(both), words) {
				t.Errorf("%s: %s must not hold %s", name, both, words)
			}
		}
	}
	if _, err := Merge(NotesFile)([]byte("{"), []byte("{}")); err == nil {
		t.Error("notes that are damaged are put together")
	}
	if Merge(SummaryFile) != nil {
		t.Error("grades of two sides are put together")
	}
}
