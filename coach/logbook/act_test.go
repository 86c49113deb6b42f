package logbook

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// TestFold: the last word on who flew and whether it is kept counts, remarks add up, and what comes twice counts once.
func TestFold(t *testing.T) {
	at := time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)
	ada, bo := Student{ID: "a", Name: "Ada Example"}, Student{ID: "b", Name: "Bo  Example"}
	remark := func(id string, n int) Act {
		return Act{ID: id, Kind: ActRemark, At: at, Number: n, Author: "B. Example", Words: id, About: About{Number: 2}}
	}
	said := func(id string, n int) Remark {
		return Remark{ID: n, Leg: 2, By: "B. Example", Words: id, At: at, Key: id}
	}
	for name, c := range map[string]struct {
		acts []Act
		want Standing
	}{
		"nothing": {nil, Standing{Student: ada, Remarks: []Remark{}}},
		"another student": {[]Act{{ID: "1", Kind: ActStudent, Student: &bo}},
			Standing{Student: Student{"b", "Bo Example"}, Remarks: []Remark{}}},
		"nobody": {[]Act{{ID: "1", Kind: ActStudent}}, Standing{Remarks: []Remark{}}},
		"kept": {[]Act{{ID: "1", Kind: ActKeep, Keep: true}}, Standing{Student: ada, Keep: true,
			Remarks: []Remark{}}},
		"not any more": {[]Act{{ID: "1", Kind: ActKeep, Keep: true}, {ID: "2", Kind: ActKeep}},
			Standing{Student: ada, Remarks: []Remark{}}},
		"remarks": {[]Act{remark("x", 1), remark("y", 2)}, Standing{Student: ada,
			Remarks: []Remark{said("x", 1), said("y", 2)}}},
		"one twice": {[]Act{remark("x", 1), remark("x", 1)}, Standing{Student: ada,
			Remarks: []Remark{said("x", 1)}}},
		"two of a number": {[]Act{remark("x", 1), remark("y", 1)}, Standing{Student: ada,
			Remarks: []Remark{said("x", 1), said("y", 2)}}},
		"a number of none": {[]Act{remark("x", 0)}, Standing{Student: ada, Remarks: []Remark{said("x", 1)}}},
		"a later kind":     {[]Act{{ID: "1", Kind: "signature"}}, Standing{Student: ada, Remarks: []Remark{}}},
	} {
		c.want.Judging = NewJudging()
		if d := cmp.Diff(c.want, Fold(ada, c.acts)); d != "" {
			t.Errorf("%s (-want +got):\n%s", name, d)
		}
	}
}

// A mark gets its words by an act that names it, and keeps its moment and its number. The words of a mark that is not
// there are a remark of their own.
func TestFoldWordsOfMarks(t *testing.T) {
	at, moment := time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC), 12.5
	mark := Act{ID: "m", Kind: ActRemark, At: at, Number: 1, Words: Marked, About: About{Moment: &moment}}
	words := Act{ID: "w", Kind: ActRemark, At: at.Add(time.Hour), Number: 1, Author: "Mo Example",
		Words: "Late with the foot", Mark: "m"}
	got := Fold(Student{}, []Act{mark, words, words}).Remarks
	want := Remark{ID: 1, Time: &moment, By: "Mo Example", Words: "Late with the foot", At: at, Key: "m"}
	if len(got) != 1 || cmp.Diff(want, got[0]) != "" {
		t.Errorf("%+v; must be %+v", got, want)
	}
	if got := Fold(Student{}, []Act{words}).Remarks; len(got) != 1 || got[0].Key != "w" || got[0].Words != words.Words {
		t.Errorf("without the mark: %+v", got)
	}
}
